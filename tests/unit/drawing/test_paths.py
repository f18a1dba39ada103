"""Ways through a link: the cheapest that can conduct, through a load, never twice over a terminal."""

from halfsplit.circuit import ALWAYS, Condition, when
from halfsplit.drawing.graph import Link
from halfsplit.drawing.paths import EVERYTHING, make_graph, narrowed, way_through


def link(name: str, a: str, b: str, conducts: Condition = ALWAYS, symbol: str = "contact") -> Link:
    return Link(name, "element", symbol, a, b, name, conducts=conducts)


LAMP = link("lamp", "top", "N", symbol="lamp")


def names(links: list[Link], middle: Link, moved: tuple[str, ...] = ()) -> list[str] | None:
    way = way_through(make_graph(links, ("L", "N"), moved), middle)
    return None if way is None else [each.name for each in way[1]]


def test_the_way_with_the_fewest_branches_is_taken() -> None:
    long = [link("one", "L", "x"), link("two", "x", "top")]
    assert names([*long, LAMP], LAMP) == ["one", "two", "lamp"]
    assert names([*long, link("short", "L", "top"), LAMP], LAMP) == ["short", "lamp"]


def test_contacts_that_exclude_each_other_make_no_way() -> None:
    throws = [link("left", "L", "x", when("turn", "left")), link("right", "x", "top", when("turn", "right"))]
    detour = [link(name, a, b) for name, a, b in (("a", "L", "y"), ("b", "y", "z"), ("c", "z", "top"))]
    assert names([*throws, LAMP], LAMP) is None
    assert names([*throws, *detour, LAMP], LAMP) == ["a", "b", "c", "lamp"]


def test_a_contact_that_only_the_running_machine_closes_comes_after_one_that_starts_it() -> None:
    hold = link("hold", "L", "top", when("running", "yes"))
    start = [link("start", "L", "x"), link("wire", "x", "top")]
    assert names([hold, *start, LAMP], LAMP, moved=("running",)) == ["start", "wire", "lamp"]
    assert names([hold, LAMP], LAMP, moved=("running",)) == ["hold", "lamp"]


def test_a_short_circuit_is_no_rung() -> None:
    assert names([link("one", "L", "x"), link("two", "x", "N")], link("one", "L", "x")) is None


def test_a_way_does_not_turn_back_over_its_own_terminal() -> None:
    dead_end = link("dead end", "x", "y", symbol="lamp")
    assert names([link("one", "L", "x"), dead_end, link("two", "x", "N")], dead_end) is None


def test_a_way_does_not_run_through_a_pole() -> None:
    assert names([link("one", "L", "x", symbol="lamp")], link("one", "L", "x", symbol="lamp")) is None


def test_what_is_known_is_the_meet_of_all_conditions() -> None:
    known = narrowed(narrowed(EVERYTHING, when("turn", "left", "right")), when("turn", "right", "rest"))
    assert known == ({"turn": frozenset({"right"})},)
    assert narrowed(known, when("turn", "left")) == ()

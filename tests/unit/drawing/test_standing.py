"""How the machine stands during a check."""

from halfsplit.drawing import Standing, draw_rungs, standing_in
from halfsplit.drawing.graph import Link, links_of
from halfsplit.drawing.standing import Known, is_closed, marks_of
from halfsplit.trade import Setup
from tests.unit.drawing.machines import machine

WIRE = "heater.2-motor.1"


def named(name: str) -> Link:
    return next(link for link in links_of(machine("dryer")) if link.name == name)


def test_steps_set_positions_and_lift_wires_until_they_are_put_back() -> None:
    steps = (("timer", "timed dry"), ("lift", WIRE), ("timer", "off"))
    assert standing_in(Setup("x", "x", steps)) == Standing({"timer": "off"}, frozenset({WIRE}))
    assert standing_in(Setup("x", "x", (*steps, ("put back", WIRE)))) == Standing({"timer": "off"})


def test_a_contact_is_closed_as_its_setting_stands() -> None:
    contact = named("timer:H1-H2")
    assert not is_closed(machine("dryer"), Standing(), contact)
    assert is_closed(machine("dryer"), Standing({"timer": "timed dry"}), contact)


def test_a_contact_that_the_machine_moves_rests_until_the_caller_knows_better() -> None:
    contact = named("motor:heater-contact")
    assert not is_closed(machine("dryer"), standing_in(machine("dryer").setups["running"]), contact)
    assert is_closed(machine("dryer"), Standing({"motor:running": "yes"}), contact)


def test_a_thing_is_marked_by_its_part_or_by_the_one_branch() -> None:
    contact, other = named("timer:H1-H2"), named("timer:A-B")
    assert marks_of(Known(suspected=frozenset({"timer"})), other) == ("suspected",)
    assert marks_of(Known(suspected=frozenset({"timer:H1-H2"})), contact) == ("suspected",)
    assert marks_of(Known(suspected=frozenset({"timer:H1-H2"})), other) == ()


def test_what_is_suspected_again_is_not_called_cleared() -> None:
    both = Known(frozenset({"timer"}), frozenset({"timer"}))
    assert marks_of(both, named("timer:A-B")) == ("suspected",)


def test_a_plug_has_its_slot_on_the_side_of_the_outlet() -> None:
    def drawn(points: tuple[str, str], name: str) -> str:
        return draw_rungs(machine("dryer"), points).partition(f'data-link="{name}"')[2].partition("</g>")[0]

    assert "translate" in drawn(("outlet.L1", "plug.L1"), "plug:L1")
    assert "scale(1 -1)" not in drawn(("outlet.L1", "plug.L1"), "plug:L1")
    assert "scale(1 -1)" in drawn(("plug.N", "outlet.N"), "plug:N")

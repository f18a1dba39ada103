"""The SVG itself: well-formed, classes only, every class painted, two flags, readable without colour."""

import re
from itertools import combinations
from xml.etree import ElementTree

import pytest

from halfsplit.drawing import Standing, draw_machine, draw_rungs, drawing_css, standing_in
from halfsplit.drawing.letters import STYLES
from halfsplit.drawing.symbols import SYMBOLS, shape
from halfsplit.errors import InputError
from halfsplit.techsheet import COLOURS, Machine
from tests.unit.drawing.machines import NAMES, machine

SVG = "{http://www.w3.org/2000/svg}"
PAIRS = [
    ("heater.1", "heater.2"),
    ("TB.L1", "heater.1"),
    ("heater.1", "chassis.B"),
    ("lamp.1", "motor.5"),
    ("chassis.G", "chassis.M"),
]
MARKED = {
    "cleared": frozenset({"breaker", "high limit"}),
    "suspected": frozenset({"heater", "thermal cut-off.2-high limit.1"}),
    "standing": Standing({"timer": "timed dry"}, frozenset({"high limit.2-heater.1"}), frozenset({"heater.1"})),
}


def dryer() -> Machine:
    return machine("dryer")


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def rules() -> dict[str, str]:
    """Class to what the style sheet says of it, all its rules together."""
    found: dict[str, str] = {}
    for selector, body in re.findall(r"([^{}]+)\{([^{}]*)\}", re.sub(r"/\*.*?\*/", "", drawing_css(), flags=re.S)):
        for name in re.findall(r"\.(wd[\w-]*)", selector):
            found[name] = found.get(name, "") + body
    return found


@pytest.mark.parametrize("points", PAIRS)
def test_a_strict_content_policy_would_let_it_through(points: tuple[str, str]) -> None:
    root = ElementTree.fromstring(draw_rungs(dryer(), points, **MARKED))
    for element in root.iter():
        assert element.tag.removeprefix(SVG) not in {"style", "script", "image", "a", "foreignObject", "use"}
        assert not {name for name in element.attrib if name == "style" or name.startswith("on") or "href" in name}
        assert not {"fill", "stroke", "font-size"} & set(element.attrib)


@pytest.mark.parametrize("points", PAIRS)
def test_every_class_is_painted_by_the_style_sheet(points: tuple[str, str]) -> None:
    root = ElementTree.fromstring(draw_rungs(dryer(), points, **MARKED))
    leaves = [element for element in root.iter() if element.tag != f"{SVG}g" and element.get("class")]
    assert {name for leaf in leaves for name in leaf.attrib["class"].split()} - rules().keys() <= {"wd-t"}
    assert rules()["wd-t"]


@pytest.mark.parametrize("points", PAIRS)
def test_each_probe_has_its_flag_once_at_its_own_terminal(points: tuple[str, str]) -> None:
    root = ElementTree.fromstring(draw_rungs(dryer(), points))
    flags = [
        (group.get("data-probe"), group.get("data-at")) for group in root.iter(f"{SVG}g") if group.get("data-probe")
    ]
    assert sorted(flags) == [("A", points[0]), ("B", points[1])]


@pytest.mark.parametrize("whole", [False, True])
def test_the_flag_points_at_the_circle_of_its_terminal(whole: bool) -> None:
    root = ElementTree.fromstring(draw_rungs(dryer(), ("heater.1", "heater.2"), whole=whole))
    joints = {circle.get("data-point"): float(circle.attrib["cy"]) for circle in root.iter(f"{SVG}circle")}
    flags = {group.get("data-probe"): group for group in root.iter(f"{SVG}g") if group.get("data-probe")}
    outline = next(flags["A"].iter(f"{SVG}path")).attrib["d"]
    tip = max(re.findall(r"([\d.]+) ([\d.]+)", outline), key=lambda place: float(place[0]))
    stalk = next(flags["B"].iter(f"{SVG}line")).attrib
    assert float(tip[1]) == pytest.approx(joints["heater.1"], abs=0.1)
    assert float(stalk["y2"]) == pytest.approx(joints["heater.2"], abs=0.1)


def test_a_dotted_line_joins_the_flags_of_one_rung_without_running_under_them() -> None:
    def spans(points: tuple[str, str]) -> list[tuple[float, float]]:
        lines = ElementTree.fromstring(draw_rungs(dryer(), points)).iter(f"{SVG}line")
        return [
            (float(line.attrib["y1"]), float(line.attrib["y2"])) for line in lines if line.get("class") == "wd-span"
        ]

    root = ElementTree.fromstring(draw_rungs(dryer(), ("TB.L1", "heater.1")))
    joints = {circle.get("data-point"): float(circle.attrib["cy"]) for circle in root.iter(f"{SVG}circle")}
    ((top, bottom),) = spans(("TB.L1", "heater.1"))
    assert joints["TB.L1"] + 20 < top < bottom < joints["heater.1"] - 20
    assert spans(("heater.1", "chassis.G")) == []


def test_the_flags_differ_in_shape_letter_and_word() -> None:
    root = ElementTree.fromstring(draw_rungs(dryer(), ("heater.1", "heater.2")))
    flags = {group.get("data-probe"): group for group in root.iter(f"{SVG}g") if group.get("data-probe")}
    shapes = {letter: [child.tag.removeprefix(SVG) for child in group] for letter, group in flags.items()}
    words = {letter: [text.text for text in group.iter(f"{SVG}text")] for letter, group in flags.items()}
    assert shapes == {"A": ["path", "text", "text"], "B": ["line", "rect", "text", "text"]}
    assert words == {"A": ["A", "red"], "B": ["B", "black"]}


@pytest.mark.parametrize("points", PAIRS)
def test_it_fits_a_telephone_and_says_what_it_is(points: tuple[str, str]) -> None:
    root = ElementTree.fromstring(draw_rungs(dryer(), points))
    assert float(root.attrib["width"]) <= 358
    assert root.attrib["viewBox"] == f"0 0 {root.attrib['width']} {root.attrib['height']}"
    assert root.get("role") == "img"
    assert root[0].tag == f"{SVG}title" and root[0].text == f"Probes on {points[0]} and {points[1]}"
    assert root[1].tag == f"{SVG}desc" and all(f"] {point}" in (root[1].text or "") for point in points)


def test_sizes_of_text_are_those_the_layout_counts_with_and_none_is_under_12() -> None:
    for name, style in STYLES.items():
        size, weight = (
            re.search(r"font-size: (\d+)px", rules()[f"wd-{name}"]),
            "font-weight: 700" in rules()[f"wd-{name}"],
        )
        assert size and (int(size[1]), weight) == (style.size, style.bold), name
        assert style.size >= 12 and style.line > style.size


def test_every_wire_colour_can_be_painted_and_is_written_beside_it() -> None:
    assert {f"wd-c-{colour}" for colour in COLOURS} <= rules().keys()
    shown = texts(draw_machine(dryer()))
    for wire in dryer().wires.values():
        code = "/".join(COLOURS[part] for part in wire.colour.split("/"))
        assert wire.colour in shown if code == wire.colour else f"{code} {wire.colour}" in shown


def test_every_wire_has_a_casing_so_that_white_shows_on_white_and_black_on_black() -> None:
    root = ElementTree.fromstring(draw_machine(dryer()))
    for group in root.iter(f"{SVG}g"):
        if group.get("data-link") in dryer().wires:
            assert group[0].attrib["class"] == "wd-casing"
    light, dark = drawing_css().split("@media")
    assert re.search(r"--wd-casing: #3", light) and re.search(r"--wd-casing: #c", dark)


@pytest.mark.parametrize("name", NAMES)
def test_every_terminal_drawn_has_its_name_beside_it(name: str) -> None:
    shown = " ".join(texts(draw_machine(machine(name))))
    used = {point for wire in machine(name).wires.values() for point in (wire.a, wire.b)}
    assert [point for point in used if point not in shown] == []


def test_every_symbol_of_the_catalogue_has_its_own_shape() -> None:
    assert {element.symbol for element in dryer().elements} <= SYMBOLS
    shapes = {symbol: shape(symbol, closed=True)[0] for symbol in SYMBOLS}
    assert [pair for pair in combinations(shapes, 2) if shapes[pair[0]] == shapes[pair[1]]] == []


def test_a_symbol_nobody_drew_yet_is_a_box() -> None:
    assert "<rect" in shape("something new", closed=True)[0]


@pytest.mark.parametrize("symbol", ["contact", "thermostat", "breaker", "plug"])
def test_open_looks_different_from_closed(symbol: str) -> None:
    assert shape(symbol, closed=True) != shape(symbol, closed=False)


def test_what_is_cleared_suspected_lifted_or_live_is_written_in_words() -> None:
    shown = texts(draw_rungs(dryer(), ("heater.1", "heater.2"), **MARKED))
    assert [word for word in shown if word in {"cleared", "suspected", "lifted", "live"}] == [
        "suspected",
        "cleared",
        "lifted",
        "live",
        "suspected",
    ]
    assert not {"cleared", "suspected", "lifted", "live"} & set(texts(draw_rungs(dryer(), ("heater.1", "heater.2"))))


def test_long_runs_are_folded_and_the_fold_counts_what_it_hides() -> None:
    points = ("heater.1", "heater.2")
    assert "… 7 parts …" in texts(draw_rungs(dryer(), points))
    assert not any("…" in text for text in texts(draw_rungs(dryer(), points, whole=True)))
    assert "1 suspected" in texts(draw_rungs(dryer(), points, suspected=frozenset({"selector"})))


def test_everything_folded_between_the_probes_is_named() -> None:
    suspects = frozenset({"timer", "high limit"})
    shown = " ".join(texts(draw_rungs(dryer(), ("TB.L1", "heater.1"), suspected=suspects)))
    for part in ("timer", "selector", "cycling thermostat", "thermal cut-off", "high limit"):
        assert part in shown


def test_contacts_stand_as_the_check_sets_them() -> None:
    points = ("timer.A", "timer.B")
    at_rest, set_on = (
        draw_rungs(dryer(), points),
        draw_rungs(dryer(), points, standing=standing_in(dryer().setups["idle"])),
    )
    assert "Contacts drawn at rest." in texts(at_rest)
    assert "Contacts drawn as set for this check;" in " ".join(texts(set_on))
    blade = '<line class="wd-blade" x1="0" y1="14" x2="0" y2="-14"/>'
    assert set_on.count(blade) > at_rest.count(blade)


def test_a_probed_terminal_names_the_other_wires_on_it() -> None:
    assert "also here: BN" in texts(draw_rungs(dryer(), ("belt switch.2", "motor.5")))


def test_a_point_not_on_the_sheet_is_refused_with_the_nearest() -> None:
    with pytest.raises(InputError, match=r"no terminal 'heater\.3'.*Did you mean 'heater\.[12]'"):
        draw_rungs(dryer(), ("heater.3", "heater.2"))


def test_both_probes_on_one_terminal_are_refused() -> None:
    with pytest.raises(InputError, match=r"Both probes are on 'heater\.1'"):
        draw_rungs(dryer(), ("heater.1", "heater.1"))


def test_a_terminal_with_nothing_on_it_is_still_shown() -> None:
    shown = texts(draw_rungs(machine("reversing"), ("house.G", "pump.1")))
    assert "Nothing is connected here" in shown and "house.G" in shown


def contrast(one: str, other: str) -> float:
    """WCAG 2 contrast ratio of two `#rrggbb`."""

    def luminance(colour: str) -> float:
        parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_text_can_be_read_in_both_schemes(scheme: str) -> None:
    light, dark = drawing_css().split("@media")
    colours = dict(re.findall(r"--wd-([\w-]+): (#\w{6})", light if scheme == "light" else dark))
    for ink, ground in (
        ("ink", "paper"),
        ("faint", "paper"),
        ("good", "paper"),
        ("doubt", "paper"),
        ("live", "paper"),
        ("casing", "paper"),
        ("ink", "plate-a"),
        ("ink", "plate-b"),
        ("on-probe", "probe-a"),
        ("on-probe", "probe-b"),
    ):
        assert contrast(colours[ink], colours[ground]) >= 4.5, (ink, ground)

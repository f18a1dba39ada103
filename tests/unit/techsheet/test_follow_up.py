"""All slips are told in one go, and none of what only follows from them."""

import pytest

from halfsplit.errors import Problem
from halfsplit.techsheet import read_sheet
from tests.unit.techsheet.warmer import FILE, changed, line_of, machine, problem, told

EIGHT = (
    ("currency: USD", "currency: Dollar"),
    ("  plate: {setting: air, cold: 70 °F", "  plate: {setting: air, cold: 70 V"),
    ("    kind: thermal cut-off\n", "    kind: thermal cutoff\n"),
    ("    rating: 30 A\n", "    rating: 30 V\n"),
    ("  - blue limit.2 limit 2.1", "  - bleu limit.2 limit 2.1"),
    ("  - red heater.2 TB.L2", "  - red heater.3 TB.L2"),
    ("[as idle, door open]", "[as idle, door ajar]"),
    ("{heat: none, light: normal}", "{heat: nothing, light: normal}"),
)
"""Two of them put a place and three parts in doubt, which others ask for."""


def test_eight_slips_in_one_sheet_are_all_told_at_their_lines() -> None:
    assert told(*EIGHT) == [
        problem("currency:", "'Dollar' is not a currency.", "Write its three capitals, as in USD.", *EIGHT),
        problem("plate: {", "'70 V' is not a temperature.", "Write it as in 155 °F or 68 °C.", *EIGHT),
        problem("rating: 30 V", "'30 V' is not in A.", "Write it as in 5 A.", *EIGHT),
        problem(
            "kind: thermal cutoff",
            "'cut-off' has no known kind ('thermal cutoff').",
            "Did you mean 'thermal cut-off'?",
            *EIGHT,
        ),
        problem("- bleu", "'bleu' is not a wire colour.", "Did you mean 'blue'?", *EIGHT),
        problem("heater.3", "'heater' has no terminal '3'.", "Known here: 1, 2.", *EIGHT),
        problem("door ajar", "'door' has no position 'ajar'.", "Known here: shut, open.", *EIGHT),
        problem("nothing", "'nothing' is not a level.", "Levels are none, weak, normal, too much.", *EIGHT),
    ]


@pytest.mark.parametrize("number", range(len(EIGHT)))
def test_each_of_the_eight_is_told_alone(number: int) -> None:
    (alone,) = told(EIGHT[number])
    assert alone in told(*EIGHT)


HEATER = "  heater:\n    kind: heater\n    power: 1.2 kW at 240 V\n    case: metal.B\n    zone: case\n"
DOUBTS = [
    ("a setting without positions", ("  air: [cold, hot]", "  air: [cold]")),
    ("a setting of the wrong shape", ("  air: [cold, hot]", "  air: cold")),
    ("a setting with a wrong item", ("  door: [shut, open]", "  door: [shut, [open]]")),
    ("all settings of the wrong shape", ("settings:\n", "settings: none\nfamily 2:\n")),
    ("a place", ("hot: 215 °F}", "hot: 215}")),
    ("all places", ("temperatures:\n  plate: {setting: air, cold: 70 °F, hot: 215 °F}\n", "temperatures: warm\n")),
    ("all zones", ("zones:\n  house: {title: panel and outlet, open: 1 min, close: 0 min}\n", "zones:\n  - ")),
    ("the supply", ("    kind: split-phase supply\n", "    kind: split-phase suply\n")),
    ("the outlet", ("    kind: outlet\n    terminals: [L1, N, L2, G]\n", "    kind: outlet\n    terminals: L1\n")),
    ("the outlet's kind", ("    kind: outlet\n", "    kind: outlit\n")),
    ("a switch", ("      COM-NO: door shut\n", "      COM-NO: [door shut]\n")),
    ("a lamp", ("    power: 10 W at 120 V\n", "    power: 10 W\n")),
    ("a moving part", ("    states: {free: ", "    stats: {free: ")),
    ("a moving part's kind", ("  wheel:\n    kind: mechanical\n", "  wheel:\n    kind: machanical\n")),
    ("the cabinet", ("    terminals: [G, B]\n", "    terminals: [G, G]\n")),
    ("a part that is only words", (HEATER, "  heater: electric\n")),
    ("the default wire", ("default wire: 16 AWG 0.6 m", "default wire: thin")),
    ("a lifted wire", ("  - white lamp.2 TB.N-1", "  - withe lamp.2 TB.N-1")),
    ("a setup's minutes", ('idle: {says: "plugged in", ', 'idle: {minutes: soon, says: "plugged in", ')),
    ("a setup's words", ('idle: {says: "plugged in", ', "idle: {")),
    ("all setups", ("setups:\n", "setups: none\nfamily 2:\n")),
    ("a function", ("light: {ask: ", "light: {aks: ")),
    ("all functions", ("functions:\n", "functions: none\nfamily 2:\n")),
]


@pytest.mark.parametrize("change", [change for _, change in DOUBTS], ids=[name for name, _ in DOUBTS])
def test_what_follows_from_a_slip_is_not_told(change: tuple[str, str]) -> None:
    text = changed(change)
    _, problems = read_sheet(text, FILE)
    # Beside the slip itself only what the test needed to keep the text YAML.
    beside = [found for found in problems if "family 2" not in found.what]
    assert len(beside) == 1, beside


@pytest.mark.parametrize("section", ["settings", "temperatures", "zones", "setups", "functions"])
def test_a_section_that_others_ask_for_is_missed_once(section: str) -> None:
    lines = changed().splitlines(keepends=True)
    start = lines.index(f"{section}:\n")
    end = next(number for number in range(start + 1, len(lines)) if not lines[number].startswith(" "))
    text = "".join(lines[:start] + lines[end:])
    assert read_sheet(text, FILE) == (
        None,
        (Problem(f"There is no section `{section}`, and others ask for it.", f"Add `{section}:`.", FILE, 2),),
    )


def test_a_missing_section_and_a_slip_of_shape_are_both_told() -> None:
    zones = "zones:\n  house: {title: panel and outlet, open: 1 min, close: 0 min}\n"
    zones += "  case: {title: under the case, open: 5 min, close: 6 min}\n"
    assert [found.what for found in told((zones, ""), ("  - blue limit.2 limit 2.1", "  - [blue]"))] == [
        "There is no section `zones`, and others ask for it.",
        "Item 14 in 'wires' has the wrong shape.",
    ]


def test_a_key_too_many_hides_no_slip_in_the_right_one() -> None:
    change = (
        "{title: under the case, open: 5 min, close: 6 min}",
        "{title: under, open: 5 V, close: 6 min, opens: 5 min}",
    )
    assert {found.what for found in told(change)} == {
        "There is no key 'opens' here.",
        "'5 V' is not a time in minutes.",
    }


def test_a_slip_at_one_end_does_not_hide_the_one_beside_it() -> None:
    changes = (
        ("    power: 10 W at 120 V\n", "    power: 10 W\n"),
        ("  - white lamp.2 TB.N-1", "  - white lamp.9 TB.N"),
    )
    said = [found for found in told(*changes) if found.line == line_of("lamp.9", changed(*changes))]
    assert said == [problem("lamp.9", "'TB' has no terminal 'N'.", "Known here: L1, N-1, L2.", *changes)]


def test_two_slips_in_one_part_are_both_told() -> None:
    change = ("    power: 10 W at 120 V\n    zone: case\n", "    power: 10 W\n    zone: caes\n")
    assert [found.what for found in told(change)] == [
        "'10 W' is not a power at a voltage.",
        "'lamp' is in no known zone ('caes').",
    ]


def test_a_part_with_only_its_price_wrong_is_no_reason_to_doubt_its_wires() -> None:
    changes = (("    price: 6.50\n", "    price: six\n"), ("  - white lamp.2 TB.N-1", "  - white lamp.9 TB.N-1"))
    assert [found.what for found in told(*changes)] == ["'six' is not a price.", "'lamp' has no terminal '9'."]


def test_the_sheet_without_slips_is_a_machine() -> None:
    assert machine().name == "warmer"

"""Each rule of doubt: a sample that keeps it, and one that breaks it, told with its line."""

from __future__ import annotations

import pytest

from halfsplit.errors import Problem
from halfsplit.proofread import doubts
from halfsplit.techsheet import library_names, read_sheet, sheet_text
from tests.unit.techsheet.kinds.tiny import text_of


def _doubts(name: str, *changes: tuple[str, str]) -> tuple[Problem, ...]:
    text = text_of(name, *changes)
    machine, problems = read_sheet(text, name)
    assert [str(problem) for problem in problems] == []
    assert machine is not None
    return doubts(machine, text, name)


def _line(name: str, start: str, *changes: tuple[str, str]) -> int:
    """Line of the text that begins so."""
    lines = text_of(name, *changes).splitlines()
    return 1 + next(index for index, line in enumerate(lines) if line.strip().startswith(start))


def test_a_sheet_whose_wiring_does_what_it_says_gives_no_doubt() -> None:
    assert _doubts("holdin") == ()


@pytest.mark.parametrize("sheet", library_names())
def test_no_sheet_of_the_library_gives_a_doubt(sheet: str) -> None:
    text, file = sheet_text(sheet)
    machine, _ = read_sheet(text, file)
    assert machine is not None
    assert [str(problem) for problem in doubts(machine, text, file)] == []


# fmt: off
BROKEN = {
    "never powered": (
        ("  - orange relay.NO2 heater.1\n", ""),
        "heater:",
        "No setup of this sheet ever powers 'heater'.",
    ),
    "too little": (
        ("power: 1 kW at 120 V", "power: 1 kW at 240 V"),
        "heater:",
        "'heater' never gets more than 25% of its rated power.",
    ),
    "too much": (
        ("power: 10 W at 120 V", "power: 10 W at 60 V"),
        "lamp:",
        "'lamp' gets 399% of its rated power.",
    ),
    "changes nothing": (
        ("contacts: {\"3-4\": start pressed}", "contacts: {\"3-4\": start pressed, \"5-6\": start pressed}"),
        "start button:",
        "It changes nothing in any setup whether contact 5-6 of 'start button' is open or closed.",
    ),
    "nameplate": (
        ("functions:\n", "nameplate: {current: 20 A, setup: running}\nfunctions:\n"),
        "nameplate:",
        "The nameplate says 20 A, but this wiring takes 8.15 A, over a tenth off.",
    ),
    "paper": (
        ("functions:\n", "readings:\n  element: {between: [heater.1, heater.2], setup: dead, least: 40 Ω, most: 50 Ω}\n"
                         "functions:\n"),
        "element:",
        "Between heater.1 and heater.2 this wiring reads 14.4 Ω, not what the paper says.",
    ),
}
# fmt: on


@pytest.mark.parametrize("rule", BROKEN)
def test_a_sheet_that_breaks_one_rule_is_told_so_at_its_line(rule: str) -> None:
    change, start, says = BROKEN[rule]
    found = {problem.what: problem for problem in _doubts("holdin", change)}
    assert says in found
    assert found[says].line == _line("holdin", start, change)
    assert found[says].right


def test_a_code_that_nothing_brings_is_doubted() -> None:
    change = ("F1: sees missing, after 2 s, latched", "F1: sees missing and sees hot, after 2 s, latched")
    assert "Nothing that can go wrong in this sheet makes 'main board' show F1." in [
        problem.what for problem in _doubts("boards", change)
    ]
    assert _doubts("boards") == ()


def test_a_thermal_link_within_ten_kelvin_of_a_temperature_of_the_sheet_is_doubted() -> None:
    # 290 °F is 5.6 K below 300 °F and 17 K below 320 °F.
    text, file = sheet_text("dryer")
    for limit, doubted in (("300 °F", True), ("320 °F", False)):
        changed = text.replace("opens at: 352 °F", f"opens at: {limit}")
        machine, _ = read_sheet(changed, file)
        assert machine is not None
        said = "At 290 °F (too hot) some sound links like 'thermal cut-off' have opened, and others have not."
        assert (said in [problem.what for problem in doubts(machine, changed, file)]) is doubted

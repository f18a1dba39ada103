"""The guide's sheet is a sheet: twenty parts, nothing to correct or to doubt, and its slip is found as it says."""

import re
from pathlib import Path

from halfsplit.proofread import doubts
from halfsplit.techsheet import Machine, read_sheet

GUIDE = (Path(__file__).parents[2] / "docs" / "fifteen-minutes.md").read_text(encoding="utf-8")


def _sheet() -> str:
    (text,) = re.findall(r"^```yaml\n(.*?)^```$", GUIDE, re.MULTILINE | re.DOTALL)
    return str(text)


def _machine(text: str) -> Machine:
    machine, problems = read_sheet(text, "mine.yaml")
    assert [str(problem) for problem in problems] == []
    assert machine is not None
    return machine


def test_the_sheet_of_the_guide_is_sound_and_without_doubt() -> None:
    machine = _machine(_sheet())
    assert (len(machine.parts), len(machine.wires)) == (20, 30)
    assert doubts(machine, _sheet(), "mine.yaml") == ()


def test_the_slip_that_the_guide_tells_of_is_found_in_its_words() -> None:
    slip = _sheet().replace("steps: [plug out, timer dry]", "steps: [plug out, timer dry, heat high]")
    (doubt,) = doubts(_machine(slip), slip, "mine.yaml")
    assert "this wiring reads 12 Ω, not what the paper says" in doubt.what
    assert "this wiring reads 12 Ω, not what the paper says" in " ".join(GUIDE.split())
    assert "with the lead thermostat.2-heater 1.1 lifted it reads 20" in doubt.right

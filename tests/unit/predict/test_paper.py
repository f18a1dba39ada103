"""The paper's nameplate and readings: read, told apart from slips, and held against the solver."""

from __future__ import annotations

import math

import pytest

from halfsplit.predict import Predictor, contradictions, nameplate_agrees, nameplate_amps
from halfsplit.techsheet import Machine
from halfsplit.trade import NOTHING_WRONG
from tests.unit.techsheet.kinds.tiny import machine, told

PAPER = """functions:
"""
ROWS = """nameplate: {current: 8.4 A, setup: running}
readings:
  element: {between: [heater.1, heater.2], setup: dead, least: 13.5 Ω, most: 15.5 Ω}
  to the case: {between: [heater.1, case.H], setup: dead, least: OL, most: OL}
  at the heater: {between: [heater.1, heater.2], mode: volts, setup: running, least: 110 V, most: 125 V}
cautions:
  - Live work at 120 V.
functions:
"""


def _sound(machine: Machine) -> Predictor:
    return Predictor(machine, (NOTHING_WRONG,))


def test_a_sound_paper_agrees_with_the_solver() -> None:
    found = machine("holdin", (PAPER, ROWS))
    both = nameplate_amps(_sound(found))
    assert both is not None
    assert both == (8.4, pytest.approx(1000 / 120, rel=0.05))
    assert nameplate_agrees(nameplate_amps(_sound(found)))
    assert contradictions(_sound(found)) == ()
    assert found.cautions == ("Live work at 120 V.",)


def test_a_paper_that_contradicts_its_wiring_is_found_out_row_by_row() -> None:
    wrong = ROWS.replace("least: 13.5 Ω, most: 15.5 Ω", "least: 20 Ω, most: 25 Ω").replace("8.4 A", "12 A")
    wrong = wrong.replace("least: OL, most: OL", "least: 0 Ω, most: 1 Ω")
    found = machine("holdin", (PAPER, wrong))
    assert not nameplate_agrees(nameplate_amps(_sound(found)))
    rows = {row.row.name: row.worked_out for row in contradictions(_sound(found))}
    assert rows == {"element": pytest.approx(14.4, rel=0.01), "to the case": math.inf}


def test_a_sheet_without_a_nameplate_agrees_with_none() -> None:
    assert nameplate_agrees(nameplate_amps(_sound(machine("holdin"))))


LIMITS = ("least: 13.5 Ω, most: 15.5 Ω", "least: 15.5 Ω, most: 13.5 Ω")
ONE = ("[heater.1, heater.2], setup", "[heater.1], setup")
SLIPS = {
    ("setup: running}\nreadings", "setup: runing}\nreadings"): "There is no setup 'runing'. Did you mean 'running'?",
    ("mode: volts", "mode: vols"): "'vols' is no setting of a meter. Did you mean 'volts'?",
    ONE: "A reading is between two points. Write both, as in [heater.1, heater.2].",
    LIMITS: "'element' has its limits the wrong way round. Write the lower as `least`.",
    ("least: 110 V", "least: 110 Ω"): (
        "'110 Ω' is in Ω, but this check reads V. Type what the meter shows, as in 118 or 118 V."
    ),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_in_the_paper_is_told(slip: tuple[str, str]) -> None:
    assert told("holdin", (PAPER, ROWS.replace(*slip))) == [SLIPS[slip]]

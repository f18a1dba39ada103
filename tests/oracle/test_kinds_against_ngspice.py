"""Every tiny sheet of the kinds of parts, sound and under every fault, in every setup, against ngspice.

What is compared is the phasor of every node, within 0.1 % or 1 mV. The deck comes from the state in which halfsplit
settled, so this holds the solution to account; that the state is right is held by the symptoms in the unit tests.
"""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.circuit import Layout, Patch, Settled, columns, replay, spice
from halfsplit.predict.predictor import lifted_wires, switch_steps
from halfsplit.techsheet import Machine
from halfsplit.trade import Setup
from tests.oracle.ngspice import Vectors, run_decks
from tests.unit.techsheet.kinds.tiny import SHEETS, machine


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_node_has_the_phasor_that_ngspice_finds_under_every_fault(
    sheet: str, ngspice_path: Path, tmp_path: Path
) -> None:
    found = machine(sheet)
    for setup in found.setups.values():
        settled = _settled(found, setup)
        decks = [spice(settled, column) for column in range(settled.columns.count)]
        answers = run_decks(ngspice_path, decks, tmp_path)
        assert _off(found, settled, settled.solution.volts, answers) == [], setup.name


@pytest.mark.parametrize("sheet", [sheet for sheet in SHEETS if any(s.direct for s in machine(sheet).network.sources)])
def test_every_node_has_the_direct_volts_that_ngspice_finds_under_every_fault(
    sheet: str, ngspice_path: Path, tmp_path: Path
) -> None:
    found = machine(sheet)
    for setup in found.setups.values():
        settled = _settled(found, setup)
        decks = [spice(settled, column, analysis="direct") for column in range(settled.columns.count)]
        steady = settled.solution.halves[0].steady
        assert steady is not None
        assert _off(found, settled, steady, run_decks(ngspice_path, decks, tmp_path)) == [], setup.name


def _settled(found: Machine, setup: Setup) -> Settled:
    """The sound machine and every fault of it, with the setup's wires off throughout."""
    lifted = tuple(Patch("open", wire) for wire in sorted(lifted_wires(setup)))
    variants = (lifted, *((*lifted, *fault.patches) for fault in found.faults.values()))
    return replay(columns(Layout(found.network), variants), switch_steps(setup))


def _off(found: Machine, settled: Settled, ours: NDArray[np.inexact[Any]], answers: list[Vectors]) -> list[str]:
    """Which points are off, and with which fault."""
    theirs = np.array([[answer[f"v(n{row})"][0] for answer in answers] for row in range(len(ours))])
    off = np.abs(ours - theirs) > np.maximum(1e-3 * np.abs(theirs), 1e-3)
    names = ("sound", *found.faults)
    return [f"{settled.columns.layout.points[row]} with {names[column]}" for row, column in np.argwhere(off)]

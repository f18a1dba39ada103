"""Every tiny sheet of the kinds of parts, sound and under every fault, in every setup, against ngspice.

What is compared is the phasor of every node, within 0.1 % or 1 mV. The deck comes from the state in which halfsplit
settled, so this holds the solution to account; that the state is right is held by the symptoms in the unit tests.
"""

from pathlib import Path

import numpy as np
import pytest

from halfsplit.circuit import Layout, Patch, columns, replay, spice
from halfsplit.predict.predictor import lifted_wires, switch_steps
from tests.oracle.ngspice import run_decks
from tests.unit.techsheet.kinds.tiny import SHEETS, machine


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_node_has_the_phasor_that_ngspice_finds_under_every_fault(
    sheet: str, ngspice_path: Path, tmp_path: Path
) -> None:
    found = machine(sheet)
    names = ("sound", *found.faults)
    layout = Layout(found.network)
    for setup in found.setups.values():
        off_wires = tuple(Patch("open", wire) for wire in sorted(lifted_wires(setup)))
        made = columns(layout, (off_wires, *((*off_wires, *fault.patches) for fault in found.faults.values())))
        settled = replay(made, switch_steps(setup))
        answers = run_decks(ngspice_path, [spice(settled, column) for column in range(made.count)], tmp_path)
        points = made.layout.points
        theirs = np.array([[answer[f"v(n{row})"][0] for answer in answers] for row in range(len(points))])
        off = np.abs(settled.solution.volts - theirs) > np.maximum(1e-3 * np.abs(theirs), 1e-3)
        assert [f"{setup.name}: {points[row]} with {names[column]}" for row, column in np.argwhere(off)] == []

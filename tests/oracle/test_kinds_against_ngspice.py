"""Every tiny sheet of the kinds of parts, sound and under every fault, in every setup, against ngspice.

What is compared is the phasor of every node, and its direct volts where something feeds them. The deck comes from the
state in which halfsplit settled, so this holds the solution to account; that the state is right is held by the symptoms
in the unit tests.
"""

from pathlib import Path

import pytest

from tests.oracle.sheets import lay_out, nodes_that_differ
from tests.unit.techsheet.kinds.tiny import SHEETS, machine


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_node_has_the_volts_that_ngspice_finds_under_every_fault(
    sheet: str, ngspice_path: Path, tmp_path: Path
) -> None:
    here = lay_out(machine(sheet))
    for setup in here.machine.setups:
        off = nodes_that_differ(here.settled(setup), ngspice_path, tmp_path)
        assert here.where(off) == [], setup

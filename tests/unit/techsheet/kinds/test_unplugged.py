"""A machine on one leg is dead when its plug is out: no live leg of the house lifts its metal through the air."""

import pytest

from halfsplit.predict import Predictor
from halfsplit.predict.readings import is_dead
from halfsplit.trade import NOTHING_WRONG
from tests.unit.techsheet.kinds.tiny import SHEETS, machine, settled, volts


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_setup_with_the_plug_out_is_dead(sheet: str) -> None:
    found = machine(sheet)
    predictor = Predictor(found, (NOTHING_WRONG,))
    unplugged = [setup for setup in found.setups.values() if ("plug", "in") not in setup.steps]
    assert unplugged
    for setup in unplugged:
        assert is_dead(predictor, setup)
        earth = "house.PE" if sheet == "circuit230" else "house.G"
        assert volts(settled(found, setup.name), "case.G", earth) < 2

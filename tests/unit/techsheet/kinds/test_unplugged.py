"""A machine on one leg is dead when its plug is out: no live leg of the house lifts its metal through the air."""

import pytest

from halfsplit.errors import InputError
from halfsplit.predict import Predictor, expected, is_dead
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


def test_a_machine_that_trips_its_own_breaker_is_not_dead_and_no_ohms_are_read_there() -> None:
    found = machine("protectors")
    predictor = Predictor(found, (NOTHING_WRONG,))
    shorted = found.setups["bridged"]
    assert volts(settled(found, "bridged"), "heater.1", "house.N") < 2
    assert not is_dead(predictor, shorted)
    with pytest.raises(InputError, match=r"heater\.1 is live when it is a short circuit behind the fuse"):
        expected(predictor, (("heater.1", "heater.2"),), "ohms", shorted)


def test_a_breaker_that_a_person_has_put_off_leaves_it_dead() -> None:
    found = machine("circuit120")
    assert is_dead(Predictor(found, (NOTHING_WRONG,)), found.setups["unpowered"])

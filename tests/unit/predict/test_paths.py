"""Through what an ohmmeter's current goes, and which lead is worth lifting."""

import numpy as np
import pytest

from halfsplit.errors import InputError
from halfsplit.predict import Lifted, Predictor, lifts_worth, ways_between
from halfsplit.techsheet import load_machine
from halfsplit.trade import NOTHING_WRONG, Suspect

DRYER = load_machine("dryer")
PREDICTOR = Predictor(DRYER, (NOTHING_WRONG, Suspect(("heater:open",))))
TIMER_MOTOR = ("timer motor.1", "timer motor.2")
START_PRESSED = DRYER.setups["dead start pressed"]


def test_the_drive_motor_is_named_beside_the_timer_motor_while_start_is_pressed() -> None:
    beside, itself = ways_between(PREDICTOR, TIMER_MOTOR, START_PRESSED)
    assert (beside.through, beside.between) == (("motor",), False)
    assert (itself.through, itself.between) == (("timer motor",), True)
    assert itself.ohm == pytest.approx(2400.0, rel=1e-6)
    assert beside.share + itself.share == pytest.approx(1.0, abs=1e-3)
    # Two ways side by side share the current as their conductances.
    assert itself.share / beside.share == pytest.approx(beside.ohm / itself.ohm, rel=1e-6)


def test_lifting_the_lead_at_the_timer_motor_leaves_it_alone() -> None:
    (lift,) = lifts_worth(PREDICTOR, TIMER_MOTOR, START_PRESSED)
    assert lift.wire == "timer.T-timer motor.1"
    assert lift.ohm == pytest.approx(2400.0, rel=1e-6)


def test_a_part_alone_between_the_probes_needs_no_lead_lifted() -> None:
    (way,) = ways_between(PREDICTOR, ("heater.1", "heater.2"), DRYER.setups["dead"])
    assert (way.through, way.between) == (("heater",), True)
    assert lifts_worth(PREDICTOR, ("heater.1", "heater.2"), DRYER.setups["dead"]) == ()


def test_points_joined_by_one_other_part_open_when_its_lead_is_lifted() -> None:
    (way,) = ways_between(PREDICTOR, ("TB.L1", "TB.N"), DRYER.setups["dead"])
    assert (way.through, way.between) == (("timer motor",), False)
    assert lifts_worth(PREDICTOR, ("TB.L1", "TB.N"), DRYER.setups["dead"]) == (Lifted("TB.L1-door.COM", np.inf),)


def test_an_open_part_has_no_ways() -> None:
    assert ways_between(PREDICTOR, ("heater.1", "heater.2"), DRYER.setups["dead"], suspect=1) == ()


def test_ways_are_asked_only_of_a_dead_machine() -> None:
    with pytest.raises(InputError, match=r"heater\.1 is live"):
        ways_between(PREDICTOR, ("heater.1", "heater.2"), DRYER.setups["running"])

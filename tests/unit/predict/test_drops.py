"""A bad joint: volts along a loaded wire tell what ohms on a dead machine cannot."""

import numpy as np
import pytest

from halfsplit.circuit import Patch, columns, read_ohms, read_volts, replay
from halfsplit.predict import DROP_AMPS, Predictor, candidates, expected, outcomes
from halfsplit.techsheet import load_machine
from halfsplit.trade import NOTHING_WRONG, Measure, Suspect
from halfsplit.units import METER_MODES

DRYER = load_machine("dryer")
PREDICTOR = Predictor(DRYER, (NOTHING_WRONG,))
JOINT_OHM = 0.2
WIRE = ("heater.2", "motor.1")


def _dryer_with_a_bad_joint(setup: str) -> tuple[float, float, float, float]:
    """Volts and ohms along the heater's wire, sound and with 0.2 Ω more."""
    made = columns(PREDICTOR.layout, [(), (Patch("series", "heater.2-motor.1", JOINT_OHM),)])
    settled = replay(made, DRYER.setups[setup].steps)
    return (*read_volts(settled, (WIRE,), 10e6)[0].tolist(), *read_ohms(settled, (WIRE,))[0].tolist())


def test_a_joint_of_two_tenths_of_an_ohm_drops_more_than_four_volts_at_the_heaters_current() -> None:
    # 0.2 Ω at 22.5 A is 4.5 V and 101 W (Ohm's law).
    sound, bad, *_ = _dryer_with_a_bad_joint("running")
    share, floor = METER_MODES["volts"].accuracy
    assert bad - sound == pytest.approx(JOINT_OHM * 22.0, rel=0.05)
    assert bad > sound + 4.0 * (floor + share * bad)


def test_it_hides_in_the_leads_of_an_ohmmeter() -> None:
    *_, sound, bad = _dryer_with_a_bad_joint("dead")
    assert bad - sound == pytest.approx(JOINT_OHM, rel=1e-6)
    assert bad - sound < METER_MODES["ohms"].accuracy[1]


def test_the_drop_is_proposed_along_loaded_wires_only_and_once_each() -> None:
    wires = {frozenset(wire.ends) for wire in DRYER.wires.values()}
    drops = [it for it in candidates(PREDICTOR) if isinstance(it, Measure) and it.mode == "volts"]
    along = [it for it in drops if frozenset(it.points) in wires]
    assert len({frozenset(it.points) for it in along}) == len(along)
    assert Measure(WIRE, "volts", "running") in along
    for action in along:
        amps = expected(PREDICTOR, (action.points,), "amps", DRYER.setups[action.setup]).mean[0, 0]
        assert amps >= DROP_AMPS
    house = {frozenset(wire.ends) for wire in DRYER.wires.values() if wire.a.startswith("house")}
    assert not house & {frozenset(it.points) for it in along}


def test_a_clamp_is_proposed_where_a_valve_opens_on_its_current_and_tells_an_aged_igniter() -> None:
    # The check of the trade for a gas oven that glows and does not light; volts across the igniter hardly differ.
    oven = load_machine("gas-range")
    found = Predictor(oven, (NOTHING_WRONG, Suspect(("bake igniter:weak",))))
    clamps = [it for it in candidates(found) if isinstance(it, Measure) and it.mode == "amps"]
    ends = {point.rpartition(".")[0] for it in clamps for point in it.points}
    assert len(clamps) == 2
    assert {"bake valve", "broil valve"} <= ends
    read = expected(found, (("bake igniter.2", "bake valve.1"),), "amps", oven.setups["baking"])
    assert read.mean[0, 0] > 2.9 > read.mean[0, 1]
    # How far an igniter has aged varies by itself, so the two are apart by less than twice both spreads.
    assert read.mean[0, 0] - read.mean[0, 1] > 1.5 * (read.spread[0, 0] + read.spread[0, 1])


def test_a_sound_wire_drops_next_to_nothing() -> None:
    drop = expected(PREDICTOR, (WIRE,), "volts", DRYER.setups["running"]).mean[0, 0]
    assert np.isfinite(drop)
    assert drop < 0.3


def test_the_drop_tells_a_bad_joint_from_a_sound_wire_and_dead_ohms_do_not() -> None:
    predictor = Predictor(DRYER, (NOTHING_WRONG, Suspect(("heater.2-motor.1:joint-0.2",))))
    drop, ohms = outcomes((predictor,), (Measure(WIRE, "volts", "running"), Measure(WIRE, "ohms", "dead")))
    assert drop.chances[:, 0].argmax() != drop.chances[:, 1].argmax()
    assert ohms.chances[:, 0].argmax() == ohms.chances[:, 1].argmax()

"""What a meter would read, how far it may stray, and what it must not be asked."""

import numpy as np
import pytest

from halfsplit.errors import InputError
from halfsplit.predict import Expected, Predictor, branch_between, expected, is_dead, live_points
from halfsplit.techsheet import load_machine, setup_of
from halfsplit.trade import NOTHING_WRONG, Mode, Suspect

DRYER = load_machine("dryer")
SOUND, HEATER_OPEN, CUT_OFF_OPEN, NO_NEUTRAL = range(4)
FAULTS = ("heater:open", "thermal cut-off:open", "house:open-neutral")
PREDICTOR = Predictor(DRYER, (NOTHING_WRONG, *(Suspect((fault,)) for fault in FAULTS)))


def _read(a: str, b: str, mode: Mode, setup: str) -> Expected:
    return expected(PREDICTOR, ((a, b),), mode, setup_of(DRYER, setup))


def test_a_voltage_strays_by_supply_and_meter_added_as_squares() -> None:
    # 2.5 % of supply; 1 % and 0.3 V of meter (JCGM 100, 5.1.2).
    value = _read("TB.L1", "TB.N", "volts", "resting")
    assert value.mean[0, SOUND] == pytest.approx(120.0, abs=0.1)
    assert value.spread[0, SOUND] == pytest.approx(np.sqrt(3.0**2 + 1.2**2 + 0.3**2), rel=1e-3)


def test_ohms_stray_by_tolerance_and_meter() -> None:
    # 240 V squared over 5.4 kW; made to 4 %; 1 % and 0.3 ohm of meter.
    value = _read("heater.1", "heater.2", "ohms", "dead")
    ohm = 240.0**2 / 5400.0
    assert value.mean[0, SOUND] == pytest.approx(ohm, rel=1e-6)
    assert value.spread[0, SOUND] == pytest.approx(np.sqrt((0.04 * ohm) ** 2 + (0.01 * ohm) ** 2 + 0.3**2), rel=1e-3)
    assert np.isinf(value.mean[0, HEATER_OPEN])


def test_a_clamp_reads_the_heater_current() -> None:
    value = _read("heater.2", "motor.1", "amps", "running")
    assert 21.0 < value.mean[0, SOUND] < 22.5
    assert value.mean[0, CUT_OFF_OPEN] == pytest.approx(0.0, abs=1e-3)


def test_the_gap_of_an_open_cut_off_has_the_whole_voltage_while_it_runs() -> None:
    gap, heater = (_read(f"{part}.1", f"{part}.2", "volts", "running") for part in ("thermal cut-off", "heater"))
    assert gap.mean[0, CUT_OFF_OPEN] > 235.0
    assert gap.mean[0, SOUND] < 0.5
    assert heater.mean[0, CUT_OFF_OPEN] < 0.1


def test_a_ghost_is_a_rough_guess_and_a_low_impedance_meter_shows_it_up() -> None:
    ghost, loaded = (_read("outlet.L1", "outlet.N", mode, "resting") for mode in ("volts", "low-z"))
    assert ghost.mean[0, NO_NEUTRAL] > 50.0
    assert ghost.spread[0, NO_NEUTRAL] > 20.0
    assert loaded.mean[0, NO_NEUTRAL] < 1.0
    assert loaded.mean[0, SOUND] == pytest.approx(120.0, abs=0.1)


def test_ohms_are_refused_where_a_point_is_live() -> None:
    with pytest.raises(InputError) as refused:
        _read("heater.1", "heater.2", "ohms", "running")
    assert refused.value.what == (
        "heater.1 is live when it is timed dry, high, start pressed and let go, drum cold: "
        "ohms there would harm the meter or you."
    )
    assert refused.value.right == "Read ohms in a setup with the plug out."


def test_a_clamp_is_refused_where_there_is_nothing_to_go_around() -> None:
    with pytest.raises(InputError, match=r"No one wire or part joins heater\.1 and TB\.N"):
        _read("heater.1", "TB.N", "amps", "running")
    assert branch_between(DRYER, ("motor.1", "heater.2")) == "heater.2-motor.1"


def test_a_machine_is_dead_with_its_plug_out_and_not_otherwise() -> None:
    dead = {name for name, setup in DRYER.setups.items() if is_dead(PREDICTOR, setup)}
    assert dead == {name for name in DRYER.setups if name.startswith("dead")}
    assert not is_dead(PREDICTOR, setup_of(DRYER, "plug in"))


def test_with_the_plug_out_the_house_is_still_live() -> None:
    live = live_points(PREDICTOR, DRYER.setups["dead"])
    assert {"outlet.L1", "outlet.L2", "breaker.1"} <= live
    assert not {point for point in live if point.startswith(("TB", "plug", "motor", "heater"))}


def test_live_means_live_in_a_sound_machine_whatever_the_suspects() -> None:
    # An open neutral must not make a point safe to touch.
    alone = Predictor(DRYER, (Suspect(("house:lost-L1",)), Suspect(("breaker:tripped",))))
    assert "motor.6" in live_points(alone, DRYER.setups["running"])


def test_a_lifted_wire_takes_the_parallel_path_away() -> None:
    whole = _read("timer motor.1", "timer motor.2", "ohms", "dead start pressed")
    lifted = _read("timer motor.1", "timer motor.2", "ohms", "as dead start pressed, lift timer.T-timer motor.1")
    assert whole.mean[0, SOUND] < 5.0  # through the motor's windings
    assert lifted.mean[0, SOUND] == pytest.approx(2400.0, rel=0.01)
    back = "as dead start pressed, lift timer.T-timer motor.1, put back timer.T-timer motor.1"
    assert _read("timer motor.1", "timer motor.2", "ohms", back).mean[0, SOUND] == pytest.approx(whole.mean[0, SOUND])


def test_many_pairs_at_once_read_as_each_alone() -> None:
    pairs = (("TB.L1", "TB.N"), ("heater.1", "heater.2"), ("TB.L1", "TB.N"))
    together = expected(PREDICTOR, pairs, "volts", DRYER.setups["running"])
    fresh = Predictor(DRYER, PREDICTOR.suspects)
    for row, pair in enumerate(pairs):
        alone = expected(fresh, (pair,), "volts", DRYER.setups["running"])
        np.testing.assert_allclose(together.mean[row], alone.mean[0], rtol=1e-12)
        np.testing.assert_allclose(together.spread[row], alone.spread[0], rtol=1e-12)

"""Every mode of the meter: what it shows, under what it is refused, and what its readings are worth."""

import math

import numpy as np
import pytest

from halfsplit.errors import InputError
from halfsplit.predict import Predictor, bands, candidates, expected, outcomes, plug_points, row
from halfsplit.predict.meters import READERS
from halfsplit.techsheet import load_machine, setup_of
from halfsplit.trade import NOTHING_WRONG, Measure, Mode, Reading, Suspect
from halfsplit.units import METER_MODES
from tests.unit.techsheet.kinds.tiny import machine

DRYER = load_machine("dryer")
SOUND, HEATER_OPEN, GROUNDED = range(3)
PREDICTOR = Predictor(DRYER, (NOTHING_WRONG, Suspect(("heater:open",)), Suspect(("heater:grounded",))))
HALVES = Predictor(machine("halfwaves"), (NOTHING_WRONG, Suspect(("diode:shorted",))))
WARMER, DIODE = ("warmer.1", "warmer.2"), ("diode.1", "diode.2")


def _mean(predictor: Predictor, pair: tuple[str, str], mode: Mode, setup: str) -> np.ndarray:  # type: ignore[type-arg]
    return expected(predictor, (pair,), mode, setup_of(predictor.machine, setup)).mean[0]


def test_every_live_mode_has_its_reader() -> None:
    assert set(READERS) == {mode.name for mode in METER_MODES.values() if mode.needs == "live"}


def test_half_waves_read_otherwise_on_each_setting() -> None:
    # √2 V/π mean and V/√2 true RMS (any textbook of rectifiers); what is AC-coupled is what the mean leaves of it.
    mains = _mean(HALVES, ("plug.L", "plug.N"), "volts", "low")[SOUND]
    direct, both, coupled = (_mean(HALVES, WARMER, mode, "low")[SOUND] for mode in ("dc", "ac+dc", "volts"))
    assert abs(direct) == pytest.approx(math.sqrt(2) * mains / math.pi, rel=0.01)
    assert both == pytest.approx(mains / math.sqrt(2), rel=0.01)
    assert coupled == pytest.approx(math.sqrt(both**2 - direct**2), rel=1e-6)


def test_direct_volts_turn_their_sign_with_the_probes_and_alternating_ones_do_not() -> None:
    there, back = _mean(HALVES, WARMER, "dc", "low"), _mean(HALVES, WARMER[::-1], "dc", "low")
    np.testing.assert_allclose(there, -back, atol=1e-9)
    assert abs(there[SOUND]) > 40.0
    for mode in ("volts", "ac+dc"):
        np.testing.assert_allclose(_mean(HALVES, WARMER, mode, "low"), _mean(HALVES, WARMER[::-1], mode, "low"))


def test_a_direct_reading_the_wrong_way_round_contradicts() -> None:
    setup = HALVES.machine.setups["low"]
    right = float(_mean(HALVES, WARMER, "dc", "low")[SOUND])
    found = [row(HALVES, Reading(WARMER, "dc", "low", value), setup).contradicts[SOUND] for value in (right, -right)]
    assert found == [False, True]


def test_bands_of_direct_volts_reach_below_zero() -> None:
    labels, chances, _ = bands(expected(HALVES, (WARMER,), "dc", HALVES.machine.setups["low"]), "dc")
    assert len(labels) == 2
    np.testing.assert_allclose(chances.sum(axis=0), 1.0)


def test_a_diode_reads_ohms_and_beeps_by_which_way_the_probes_are() -> None:
    assert not np.isfinite(_mean(HALVES, DIODE[::-1], "ohms", "dead")[SOUND])
    assert _mean(HALVES, DIODE, "ohms", "dead")[1] < 0.1  # shorted: either way
    assert _mean(HALVES, DIODE, "continuity", "dead")[1] > 0.99


def test_a_diode_is_read_both_ways_by_the_checks_considered() -> None:
    dead = {it.points for it in candidates(HALVES) if isinstance(it, Measure) and it.mode == "ohms"}
    assert {DIODE, DIODE[::-1]} <= dead


def test_the_heater_beeps_the_timer_motor_does_not_and_an_open_heater_is_silent() -> None:
    heater = _mean(PREDICTOR, ("heater.1", "heater.2"), "continuity", "dead")
    timer = _mean(PREDICTOR, ("timer motor.1", "timer motor.2"), "continuity", "dead")
    assert heater[SOUND] > 0.95
    assert heater[HEATER_OPEN] < 1e-6
    assert timer[SOUND] < 1e-6


def test_a_beep_is_an_outcome_by_its_chance() -> None:
    (found,) = outcomes((PREDICTOR,), (Measure(("heater.1", "heater.2"), "continuity", "dead"),))
    assert found.labels == ("is silent", "beeps")
    assert found.chances[1, SOUND] > 0.9
    assert found.chances[1, HEATER_OPEN] < 0.1


def test_a_beep_contradicts_what_would_be_silent_and_a_mistake_is_oftener_silent() -> None:
    setup = DRYER.setups["dead"]
    beep, silence = (row(PREDICTOR, Reading(("heater.1", "heater.2"), "continuity", "dead", v), setup) for v in (1, 0))
    assert beep.contradicts[HEATER_OPEN]
    assert silence.contradicts[SOUND]
    assert beep.broad + silence.broad == pytest.approx(1.0)
    assert silence.broad > beep.broad


def test_the_plug_takes_what_the_machine_uses() -> None:
    watts = _mean(PREDICTOR, plug_points(DRYER), "watts", "running")
    solution = PREDICTOR.settled(DRYER.setups["running"]).solution
    inside = [
        b.name for b in DRYER.network.branches if not b.name.startswith(("house", "rest of house", "breaker", "plug"))
    ]
    used = sum(solution.watts(name)[SOUND] for name in inside)
    assert watts[SOUND] == pytest.approx(used, rel=2e-3)  # the wires behind the outlet are left out
    assert watts[HEATER_OPEN] < 0.2 * watts[SOUND]


def test_watts_are_read_at_the_plug_alone() -> None:
    assert plug_points(DRYER) == ("plug.L1", "plug.N")


def test_insulation_is_over_20_megohm_when_sound_and_low_where_the_heater_touches_its_case() -> None:
    pair = ("heater.1", DRYER.chassis)
    insulation = _mean(PREDICTOR, pair, "insulation-500", "dead")
    assert np.isinf(insulation[SOUND])
    assert insulation[GROUNDED] < 20.0
    setup = DRYER.setups["dead"]
    damp, leak = (row(PREDICTOR, Reading(pair, "insulation-500", "dead", ohm), setup) for ohm in (4e6, 2e5))
    assert not damp.contradicts[SOUND]
    assert leak.contradicts[SOUND]


@pytest.mark.parametrize("mode", ["continuity", "insulation-500", "insulation-250"])
def test_what_is_for_a_dead_machine_is_refused_on_a_live_one(mode: Mode) -> None:
    with pytest.raises(InputError, match=r"heater\.1 is live .* there would harm the meter or you"):
        expected(PREDICTOR, (("heater.1", "heater.2"),), mode, DRYER.setups["running"])


@pytest.mark.parametrize(
    ("mode", "most", "ol"), [("dc", 1e3, 0.0), ("watts", 1e4, 0.0), ("ac+dc", 1e3, 0.0), ("insulation-500", 2e7, 0.45)]
)
def test_a_plain_mistake_is_a_probability_over_all_readings(mode: Mode, most: float, ol: float) -> None:
    meter = METER_MODES[mode]
    setup = "dead" if meter.needs == "dead" else "running"
    knee = 5 * max(1.0, meter.least)
    up = np.concatenate([np.linspace(0, knee, 801), np.geomspace(knee, most, 1200)[1:]])
    grid = np.concatenate([-up[:0:-1], up]) if meter.signed else up
    points = plug_points(DRYER) if mode == "watts" else ("heater.2", "motor.1")
    broad = np.array(
        [row(PREDICTOR, Reading(points, mode, setup, v), DRYER.setups[setup]).broad for v in grid.tolist()]
    )
    assert ol + float((np.diff(grid) * (broad[1:] + broad[:-1]) / 2).sum()) == pytest.approx(1.0, abs=0.01)

"""From an item of evidence to likelihoods: densities, atoms, forgotten steps, and what contradicts what."""

import numpy as np
import pytest

from halfsplit.predict import Predictor, key_of, one_step_forgotten, row
from halfsplit.techsheet import load_machine
from halfsplit.trade import NOTHING_WRONG, Mode, Reading, Seen, Setup, Suspect

DRYER = load_machine("dryer")
SOUND, HEATER_OPEN, CUT_OFF_OPEN = range(3)
PREDICTOR = Predictor(DRYER, (NOTHING_WRONG, Suspect(("heater:open",)), Suspect(("thermal cut-off:open",))))
HEATER = ("heater.1", "heater.2")


def test_a_reading_has_the_density_of_a_normal_curve() -> None:
    found = row(PREDICTOR, Reading(HEATER, "ohms", "dead", 10.4), DRYER.setups["dead"])
    mean, spread = 240**2 / 5400, np.sqrt((0.05 * 0.8 * 240**2 / 5400) ** 2 + (0.01 * 240**2 / 5400) ** 2 + 0.3**2)
    wanted = np.exp(-0.5 * ((10.4 - mean) / spread) ** 2) / (spread * np.sqrt(2 * np.pi))
    assert found.fits[SOUND] == pytest.approx(wanted, rel=1e-3)
    assert found.fits[HEATER_OPEN] == 0.0
    assert list(found.contradicts) == [False, True, False]


def test_ol_is_certain_where_nothing_joins_the_points_and_next_to_impossible_elsewhere() -> None:
    found = row(PREDICTOR, Reading(HEATER, "ohms", "dead", float("inf")), DRYER.setups["dead"])
    assert found.fits[HEATER_OPEN] == 1.0
    assert found.fits[SOUND] < 1e-5
    assert list(found.contradicts) == [True, False, True]


def test_damp_and_fingers_are_no_contradiction_of_an_open_heater() -> None:
    megohms = row(PREDICTOR, Reading(HEATER, "ohms", "dead", 2e6), DRYER.setups["dead"])
    kilohms = row(PREDICTOR, Reading(HEATER, "ohms", "dead", 2e3), DRYER.setups["dead"])
    assert not megohms.contradicts[HEATER_OPEN]
    assert megohms.fits[HEATER_OPEN] > 0.0
    assert kilohms.contradicts[HEATER_OPEN]
    assert kilohms.fits[HEATER_OPEN] == 0.0


def test_a_plain_mistake_reads_nothing_far_oftener_than_a_voltage() -> None:
    nothing, voltage = (
        row(PREDICTOR, Reading(HEATER, "volts", "running", value), DRYER.setups["running"]).broad
        for value in (0.0, 120.0)
    )
    assert nothing > 1000 * voltage


@pytest.mark.parametrize(("mode", "most", "ol"), [("volts", 1e3, 0.0), ("ohms", 5e6, 0.45), ("amps", 400.0, 0.0)])
def test_a_plain_mistake_is_a_probability_over_all_readings(mode: Mode, most: float, ol: float) -> None:
    setup = "dead" if mode == "ohms" else "running"
    grid = np.concatenate([np.linspace(0, 4, 801), np.geomspace(4, most, 1200)[1:]])
    points = ("heater.2", "motor.1")
    broad = np.array(
        [row(PREDICTOR, Reading(points, mode, setup, v), DRYER.setups[setup]).broad for v in grid.tolist()]
    )
    assert ol + float((np.diff(grid) * (broad[1:] + broad[:-1]) / 2).sum()) == pytest.approx(1.0, abs=0.01)


def test_each_step_but_what_is_fixed_for_the_call_can_be_forgotten() -> None:
    setup = Setup("x", "x", (("cord", "3-wire"), ("plug", "in"), ("timer", "timed dry")))
    shorter = [other.steps for other in one_step_forgotten(setup, DRYER.per_call)]
    assert shorter == [(("cord", "3-wire"), ("timer", "timed dry")), (("cord", "3-wire"), ("plug", "in"))]
    assert len(one_step_forgotten(setup)) == 3
    assert one_step_forgotten(Setup("y", "y", ())) == ()


def test_a_forgotten_start_explains_0_volts_at_a_sound_heater() -> None:
    found = row(PREDICTOR, Reading(HEATER, "volts", "running", 0.0), DRYER.setups["running"])
    assert found.fits[SOUND] < 1e-9
    assert found.forgotten[SOUND] > 0.1
    assert found.contradicts[SOUND]


def test_ohms_with_the_plug_left_in_are_no_reading_and_no_way_to_forget() -> None:
    # "dead" has the plug out as its own step; leaving it out leaves it out, never in.
    item = Reading(HEATER, "ohms", "dead", 10.7)
    assert row(PREDICTOR, item, DRYER.setups["dead"]).forgotten[SOUND] > 0.0


def test_what_an_honest_customer_says_of_each_level() -> None:
    found = row(PREDICTOR, Seen("heat", "none", "customer", "running"), DRYER.setups["running"])
    assert found.fits[HEATER_OPEN] > 0.9
    assert found.fits[SOUND] < 0.02
    assert found.broad == 0.25
    assert list(found.contradicts) == [True, False, False]


def test_a_technician_looks_closer_than_a_customer() -> None:
    setup = DRYER.setups["running"]
    wrong = {
        by: row(PREDICTOR, Seen("heat", "none", by, "running"), setup).fits[SOUND] for by in ("customer", "technician")
    }
    assert wrong["technician"] < wrong["customer"]


def test_items_share_mistakes_by_points_meter_and_setup() -> None:
    first = Reading(("a", "b"), "ohms", "dead", 1.0)
    assert key_of(first) == key_of(Reading(("b", "a"), "ohms", "dead", 5.0))
    assert key_of(first) != key_of(Reading(("a", "b"), "volts", "dead", 1.0))
    assert key_of(first) != key_of(Reading(("a", "b"), "ohms", "running", 1.0))
    told, seen = Seen("heat", "none", "customer", "x"), Seen("heat", "none", "technician", "x")
    assert key_of(told) != key_of(seen)

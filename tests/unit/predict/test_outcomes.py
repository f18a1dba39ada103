"""What a check can turn out to be: bands a meter can tell apart, and rough predictions shared out over them."""

import numpy as np
import pytest

from halfsplit.predict import Expected, Predictor, bands, outcomes
from halfsplit.techsheet import load_machine
from halfsplit.trade import LEVELS, NOTHING_WRONG, Look, Measure, Suspect

INF = float("inf")
DRYER = load_machine("dryer")


def _value(mean: list[float], spread: list[float]) -> Expected:
    return Expected(np.array([mean]), np.array([spread]))


def test_readings_a_meter_cannot_tell_apart_are_one_outcome() -> None:
    labels, chances, _ = bands(_value([0.0, 0.2, 119.0, 121.0, 240.0], [0.3, 0.3, 3.0, 3.0, 6.0]), "volts")
    assert labels == ("0 V to 0.2 V", "119 V to 121 V", "about 240 V")
    assert chances.tolist() == [[1, 1, 0, 0, 0], [0, 0, 1, 1, 0], [0, 0, 0, 0, 1]]


def test_ol_comes_last_and_is_never_mixed_with_ohms() -> None:
    labels, chances, _ = bands(_value([INF, 10.7, 1e6], [0.3, 0.5, 1e4]), "ohms")
    assert labels == ("about 10.7 Ω", "about 1 MΩ", "OL")
    assert chances.tolist() == [[0, 1, 0], [0, 0, 1], [1, 0, 0]]


def test_all_alike_is_one_outcome() -> None:
    labels, chances, _ = bands(_value([120.0, 120.0], [3.0, 3.0]), "volts")
    assert labels == ("about 120 V",)
    assert chances.tolist() == [[1, 1]]


def test_a_ghost_is_shared_out_over_the_bands_and_what_lies_between() -> None:
    labels, chances, _ = bands(_value([0.0, 120.0, 60.0], [0.3, 3.0, 40.0]), "volts")
    assert labels == ("about 0 V", "0.6 V to 114 V", "about 120 V", "over 126 V")
    assert chances.sum(axis=0) == pytest.approx([1.0, 1.0, 1.0])
    assert chances[:, 0].tolist() == [1, 0, 0, 0]
    assert chances[1, 2] > 0.8
    assert 0 < chances[2, 2] < 0.1


def test_a_ghost_does_not_melt_two_sharp_readings_into_one() -> None:
    labels, _, _ = bands(_value([0.0, 120.0, 30.0, 60.0, 90.0], [0.3, 3.0, 25.0, 36.0, 50.0]), "volts")
    assert "about 0 V" in labels and "about 120 V" in labels


def test_only_ghosts_tell_nothing_apart() -> None:
    labels, chances, _ = bands(_value([30.0, 90.0], [25.0, 50.0]), "volts")
    assert labels == ("over 0 V",)
    assert chances.tolist() == [[1, 1]]


SUSPECTS = (NOTHING_WRONG, Suspect(("heater:open",)))


def test_a_little_of_every_outcome_strays_into_the_others() -> None:
    (found,) = outcomes((Predictor(DRYER, SUSPECTS),), (Measure(("heater.1", "heater.2"), "ohms", "dead"),))
    assert found.labels == ("about 10.7 Ω", "OL")
    assert found.chances == pytest.approx(np.array([[0.97, 0.03], [0.03, 0.97]]))


def test_a_look_turns_out_as_a_technician_names_it() -> None:
    (found,) = outcomes((Predictor(DRYER, SUSPECTS),), (Look("heat", "running"),))
    assert found.labels == LEVELS
    assert found.chances.sum(axis=0) == pytest.approx([1.0, 1.0])
    assert found.chances[LEVELS.index("none"), 1] > 0.9
    assert found.chances[LEVELS.index("normal"), 0] > 0.9


def test_suspects_of_several_predictors_stand_side_by_side() -> None:
    pair = (Suspect(("heater:open", "lamp:open")),)
    action = Measure(("heater.1", "heater.2"), "ohms", "dead")
    (both,) = outcomes((Predictor(DRYER, SUSPECTS), Predictor(DRYER, pair)), (action,))
    assert both.chances.shape == (2, 3)
    assert both.chances[1] == pytest.approx([0.03, 0.97, 0.97])


def test_the_middle_of_a_band_is_what_would_be_entered() -> None:
    _, _, values = bands(_value([INF, 10.7, 1e6], [0.3, 0.5, 1e4]), "ohms")
    assert values == (10.7, 1e6, INF)
    labels, _, values = bands(_value([119.0, 121.0, 240.0], [3.0, 3.0, 6.0]), "volts")
    assert labels == ("119 V to 121 V", "about 240 V")
    assert values == (120.0, 240.0)


def test_what_is_only_known_to_be_over_something_is_entered_a_little_over_it() -> None:
    labels, _, values = bands(_value([0.0, 60.0], [0.3, 40.0]), "volts")
    assert labels[-1] == "over 0.6 V"
    assert values[-1] == pytest.approx(0.66)

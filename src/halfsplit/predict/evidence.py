"""From evidence to likelihood rows: how well each suspect explains each item, before any error of the observer.

Each row is what `belief` needs: how likely the item is under each suspect in the setup stated, in the setups that
come of forgetting one of its steps, and under a plain mistake. Densities are per unit of the mode; OL and a tone are
atoms.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfsplit.errors import InputError
from halfsplit.predict.functions import levels
from halfsplit.predict.predictor import Predictor, Real
from halfsplit.predict.readings import Expected, expected
from halfsplit.trade import LEVELS, Evidence, Observer, Reading, Seen, Setup
from halfsplit.units import METER_MODES, MeterMode

Mask = NDArray[np.bool_]
HARD_DEVIATIONS = 4.0
"""A reading this many deviations from what a suspect predicts contradicts it."""
HARD_LEVEL = 0.035
"""A level seen that a suspect gives less than this contradicts it."""
_MISSED_OPEN = 1e-6
_MISSED_TONE = 1e-4
_ALL = 1.0 - 1e-6
"""A reading contradicts a suspect only if it does so whichever way its contacts stand."""

# How an honest observer names what is there: rows true level, columns said level (common practice, from memory).
_SAYS: dict[Observer, Real] = {
    "customer": np.array(
        [[0.94, 0.04, 0.02, 0.0], [0.10, 0.70, 0.20, 0.0], [0.01, 0.05, 0.92, 0.02], [0.0, 0.01, 0.29, 0.70]]
    ),
    "technician": np.array(
        [[0.98, 0.015, 0.005, 0.0], [0.03, 0.89, 0.08, 0.0], [0.002, 0.018, 0.97, 0.01], [0.0, 0.005, 0.145, 0.85]]
    ),
}


@dataclass(frozen=True, slots=True)
class Row:
    """One item of evidence under S suspects.

    Attributes:
        fits: Likelihood in the setup stated, shape (S,).
        forgotten: Mean likelihood over the setups with one step left out, shape (S,).
        broad: Likelihood under a plain mistake, whatever the suspect.
        contradicts: Which suspects cannot give this item within tolerance, shape (S,).
        key: Items with the same key share their mistakes (same points, mode and setup).
    """

    fits: Real
    forgotten: Real
    broad: float
    contradicts: Mask
    key: tuple[str, ...]


def row(predictor: Predictor, item: Evidence, setup: Setup, *, forgetful: bool = True) -> Row:
    """Likelihoods of one item in its setup.

    Args:
        predictor: For the suspects.
        item: The evidence.
        setup: Its setup.
        forgetful: Whether to work out the setups with a step forgotten; else `forgotten` is `fits`.

    Raises:
        InputError: A reading its setup does not allow.
    """
    fits = fits_of(predictor, item, setup)
    others = [
        fits_of(predictor, item, other)
        for other in (one_step_forgotten(setup, predictor.machine.per_call) if forgetful else ())
        if _possible(predictor, item, other)
    ]
    forgotten = np.mean(others, axis=0) if others else fits
    return Row(fits, forgotten, _broad(item), _contradicts(predictor, item, setup), key_of(item))


def observer_table(observer: Observer) -> Real:
    """How an honest observer names what is there: true level (rows) to said level (columns), rows adding up to one."""
    return _SAYS[observer]


def key_of(item: Evidence) -> tuple[str, ...]:
    """What makes two items share their mistakes."""
    if isinstance(item, Seen):
        return ("seen", item.function, item.setup, item.by)
    return ("reading", *sorted(item.points), item.mode, item.setup)


def one_step_forgotten(setup: Setup, per_call: tuple[str, ...] = ()) -> tuple[Setup, ...]:
    """The setups that come of leaving out one step; what is so for the whole call (`per_call`) cannot be forgotten."""
    steps = setup.steps
    shorter = (steps[:index] + steps[index + 1 :] for index in range(len(steps)) if steps[index][0] not in per_call)
    return tuple(Setup(f"{setup.name} less a step", setup.says, left) for left in dict.fromkeys(shorter))


def _possible(predictor: Predictor, item: Evidence, setup: Setup) -> bool:
    """Ohms on a machine left plugged in would be no reading at all."""
    if isinstance(item, Seen) or METER_MODES[item.mode].needs != "dead":
        return True
    try:
        expected(predictor, (item.points,), item.mode, setup)
    except InputError:
        return False
    return True


def fits_of(predictor: Predictor, item: Evidence, setup: Setup) -> Real:
    """Likelihood of an item in a setup, shape (S,)."""
    if isinstance(item, Seen):
        truth = levels(predictor, predictor.machine.functions[item.function], setup)
        return np.asarray(_SAYS[item.by][:, LEVELS.index(item.level)] @ truth)
    return density(item, expected(predictor, (item.points,), item.mode, setup))


def density(item: Reading, value: Expected) -> Real:
    """Density of a reading under each suspect (an atom for OL, a chance for a tone), shape (S,).

    Where contacts may stand either way it is the weighted mean of both.
    """
    return value.mixed(_density(item, value))


def _density(item: Reading, value: Expected) -> Real:
    mean, spread = value.mean[0], value.spread[0]
    meter = METER_MODES[item.mode]
    if meter.is_tone:
        return np.maximum(_chance_of_tone(item, mean), _MISSED_TONE)
    predicted_open = np.isinf(mean)
    if _reads_open(item):
        return np.where(predicted_open, 1.0, _MISSED_OPEN)
    distance = (item.value - np.where(predicted_open, 0.0, mean)) / np.where(spread > 0, spread, 1.0)
    normal = np.exp(-0.5 * np.minimum(distance**2, 1400.0)) / (spread * np.sqrt(2 * np.pi))
    return np.where(predicted_open, _damp(item.value, meter), normal)


def _chance_of_tone(item: Reading, sounds: Real) -> Real:
    return sounds if item.value else 1.0 - sounds


def _damp(ohm: float, meter: MeterMode) -> float:
    """Density of a finite reading where nothing joins the points: damp, dust and fingers leave megohms, never less."""
    least, most = meter.damp
    if not meter.opens or not least <= ohm <= most:
        return 0.0
    return float(meter.damp_share / (ohm * np.log(most / least)))


def _reads_open(item: Reading) -> bool:
    meter = METER_MODES[item.mode]
    return meter.opens and item.value > meter.damp[1]


def _contradicts(predictor: Predictor, item: Evidence, setup: Setup) -> Mask:
    if isinstance(item, Seen):
        return np.asarray(fits_of(predictor, item, setup) < HARD_LEVEL)
    value = expected(predictor, (item.points,), item.mode, setup)
    return value.mixed(_is_far(item, value).astype(np.float64)) > _ALL


def _is_far(item: Reading, value: Expected) -> Mask:
    mean, spread = value.mean[0], value.spread[0]
    if METER_MODES[item.mode].is_tone:
        return np.asarray(_chance_of_tone(item, mean) < HARD_LEVEL)
    finite: Mask = np.isfinite(mean)
    if _reads_open(item):
        return finite
    far = np.abs(item.value - np.where(finite, mean, 0.0)) > HARD_DEVIATIONS * spread
    return np.where(finite, far, _damp(item.value, METER_MODES[item.mode]) == 0.0)


# Shares of a mistaken reading: a dead or unconnected meter shows nothing far oftener than a false voltage.
_FALSE_NOTHING, _FALSE_NOTHING_OHMS = 0.6, 0.2
_FALSE_OPEN, _FALSE_SILENCE = 0.45, 0.7
_FALSE_SPREAD = 0.5


def _broad(item: Evidence) -> float:
    """Likelihood of an item under a plain mistake: near nothing, or anywhere a meter reads by its logarithm.

    It adds up to one over all readings, so that a mistake explains nothing better than it should.
    """
    if isinstance(item, Seen):
        return 1.0 / len(LEVELS)
    meter = METER_MODES[item.mode]
    if meter.is_tone:
        return 1.0 - _FALSE_SILENCE if item.value else _FALSE_SILENCE
    if _reads_open(item):
        return _FALSE_OPEN
    high = meter.damp[1] if meter.opens else meter.most
    nothing = _FALSE_NOTHING_OHMS if meter.opens else _FALSE_NOTHING
    anywhere = 1.0 - nothing - (_FALSE_OPEN if meter.opens else 0.0)
    near_spread = _FALSE_SPREAD * max(1.0, meter.least)
    near = np.exp(-0.5 * (item.value / near_spread) ** 2) * 2 / (near_spread * np.sqrt(2 * np.pi))
    far = 1.0 / (max(abs(item.value), meter.least) * (1.0 + np.log(high / meter.least)))
    sides = 2.0 if meter.signed else 1.0
    return float((nothing * near + anywhere * far) / sides)

"""What a check can turn out to be, and how likely each outcome is under each suspect.

Readings under all suspects fall into bands: values that a meter could not tell apart are one outcome.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from halfsplit.predict.evidence import observer_table
from halfsplit.predict.functions import below, levels
from halfsplit.predict.predictor import Predictor, Real
from halfsplit.predict.readings import Expected, expected
from halfsplit.trade import LEVELS, Action, Level, Look, Measure, Mode
from halfsplit.units import METER_MODES, show_reading

_GAP = 2.0
_ROUGH_SHARE, _ROUGH_FLOOR = 0.15, 5.0
"""A prediction with a wider spread than this is rough."""
_LEAST_CHANCE = 0.1
"""An outcome that no suspect makes likelier than this is not told apart."""
_BEYOND = 1.1
"""What is only known to be over something is taken to be this much over it."""
_STRAYING = 0.03
"""Share of readings that end up in another band: misread, wrong point, wrong setup (common practice, from memory)."""


@dataclass(frozen=True, slots=True)
class Outcomes:
    """Outcomes of one check.

    Attributes:
        action: The check.
        labels: One per outcome.
        chances: Probability of each under each suspect, shape (outcomes, S), columns adding up to one.
        values: What each outcome would be entered as: a level, or the middle of a band in the mode's unit.
    """

    action: Action
    labels: tuple[str, ...]
    chances: Real
    values: tuple[Level | float, ...] = ()


def outcomes(predictors: tuple[Predictor, ...], actions: tuple[Action, ...]) -> tuple[Outcomes, ...]:
    """Outcomes of every action under the suspects of all predictors, one predictor after the other.

    Those of one setup and mode are solved together.
    """
    for predictor in predictors:
        _solve_together(predictor, actions)
    others = tuple(predictor.suspects for predictor in predictors[1:])
    keep = predictors[0].kept
    return tuple(keep(("outcomes", others, action), partial(_outcomes, predictors, action)) for action in actions)


def _solve_together(predictor: Predictor, actions: tuple[Action, ...]) -> None:
    groups: dict[tuple[Mode, str], list[tuple[str, str]]] = {}
    for action in actions:
        if isinstance(action, Measure):
            groups.setdefault((action.mode, action.setup), []).append(action.points)
    for (mode, setup), pairs in groups.items():
        expected(predictor, tuple(pairs), mode, predictor.machine.setups[setup])


def _outcomes(predictors: tuple[Predictor, ...], action: Action) -> Outcomes:
    machine = predictors[0].machine
    setup = machine.setups[action.setup]
    if isinstance(action, Look):
        function = machine.functions[action.function]
        truth = np.concatenate([levels(predictor, function, setup) for predictor in predictors], axis=1)
        return Outcomes(action, LEVELS, np.asarray(observer_table("technician").T @ truth), LEVELS)
    values = [expected(predictor, (action.points,), action.mode, setup) for predictor in predictors]
    mean = np.concatenate([value.mean for value in values], axis=1)
    spread = np.concatenate([value.spread for value in values], axis=1)
    labels, chances, middles = bands(Expected(mean, spread), action.mode)
    chances = _mixed(values, chances)
    kept = np.flatnonzero(chances.max(axis=1) >= _LEAST_CHANCE)
    labels, middles = tuple(labels[place] for place in kept), tuple(middles[place] for place in kept)
    chances = chances[kept]
    chances = chances / chances.sum(axis=0)
    if len(labels) > 1:
        chances = chances * (1.0 - _STRAYING) + (1.0 - chances) * _STRAYING / (len(labels) - 1)
    return Outcomes(action, labels, chances, middles)


def _mixed(values: list[Expected], chances: Real) -> Real:
    """Chances of every column of several predictors, side by side, as those of their suspects."""
    ends = np.cumsum([value.mean.shape[1] for value in values])[:-1]
    blocks = np.split(chances, ends, axis=1)
    return np.concatenate([value.mixed(block) for value, block in zip(values, blocks, strict=True)], axis=1)


def bands(value: Expected, mode: Mode) -> tuple[tuple[str, ...], Real, tuple[float, ...]]:
    """Labels of what one pair can read, least first and OL last, and the chance of each under each suspect.

    Suspects that predict the reading closely make the bands: means that a meter could not tell apart are one. Those
    that predict it only roughly (a ghost, a chattering contact) are shared out over these bands and what lies between.

    Args:
        value: Of one pair, shape (1, S).
        mode: For the unit.

    Returns:
        Labels, chances of shape (bands, S) with columns adding up to one, and the middle of each band.
    """
    mean, spread = value.mean[0], value.spread[0]
    meter = METER_MODES[mode]
    if meter.is_tone:
        return (show_reading(0.0, mode), show_reading(1.0, mode)), np.stack([1.0 - mean, mean]), (0.0, 1.0)
    finite = np.isfinite(mean)
    rough = finite & (spread > _ROUGH_SHARE * np.where(finite, np.abs(mean), 0.0) + _ROUGH_FLOOR)
    close = np.flatnonzero(finite & ~rough)
    found = _close_bands(mean[close], spread[close])
    chances = [np.isin(np.arange(len(mean)), close[band.members]).astype(np.float64) for band in found]
    if rough.any():
        found = _with_between(found, -np.inf if meter.signed else 0.0)
        chances = _shared_out(found, mean, spread, rough, close)
    labels = [_label(band.least, band.most, mode) for band in found]
    values = [_middle(band.least, band.most) for band in found]
    if not finite.all():
        labels.append(show_reading(np.inf, mode))
        values.append(np.inf)
        chances.append((~finite).astype(np.float64))
    return tuple(labels), np.stack(chances), tuple(values)


@dataclass(frozen=True, slots=True)
class _Band:
    """Readings that count as one outcome: least and most mean, where the next begins, and the close suspects in it."""

    least: float
    most: float
    low: float
    high: float
    members: NDArray[np.intp]


def _close_bands(mean: Real, spread: Real) -> list[_Band]:
    order = np.argsort(mean, kind="stable")
    sorted_mean, sorted_spread = mean[order], spread[order]
    steps = np.diff(sorted_mean) > _GAP * np.maximum(sorted_spread[1:], sorted_spread[:-1])
    bands_found = []
    for group in np.split(np.arange(len(order)), np.flatnonzero(steps) + 1):
        if len(group):
            least, most = sorted_mean[group[0]], sorted_mean[group[-1]]
            low, high = least - _GAP * sorted_spread[group[0]], most + _GAP * sorted_spread[group[-1]]
            bands_found.append(_Band(float(least), float(most), float(low), float(high), order[group]))
    return bands_found


def _with_between(close: list[_Band], reached: float) -> list[_Band]:
    """The bands with what lies below (from `reached` on), between and above them, wherever there is room."""
    nobody = np.empty(0, dtype=np.intp)
    filled: list[_Band] = []
    for band in close:
        if band.low > reached:
            filled.append(_Band(reached, band.low, reached, band.low, nobody))
        filled.append(replace(band, low=max(band.low, reached)))
        reached = band.high
    return [*filled, _Band(reached, np.inf, reached, np.inf, nobody)]


def _shared_out(
    found: list[_Band], mean: Real, spread: Real, rough: NDArray[np.bool_], close: NDArray[np.intp]
) -> list[Real]:
    """Chance of each band: close suspects in their own, rough ones by how much of their curve falls into it."""
    size = np.where(np.isfinite(mean), mean, 0.0)
    chances = []
    for index, band in enumerate(found):
        over = np.ones_like(size) if index == 0 else below((size - band.low) / spread)
        further = below((size - band.high) / spread) if np.isfinite(band.high) else np.zeros_like(size)
        chance = np.where(rough, over - further, 0.0)
        chance[close[band.members]] = 1.0
        chances.append(chance)
    return chances


def _middle(least: float, most: float) -> float:
    if np.isinf(least):
        return most - (_BEYOND - 1.0) * abs(most)
    return least * _BEYOND if np.isinf(most) else (least + most) / 2.0


def _label(least: float, most: float, mode: Mode) -> str:
    low, high = show_reading(least, mode), show_reading(most, mode)
    if np.isinf(least):
        return f"under {high}"
    if np.isinf(most):
        return f"over {low}"
    return f"about {low}" if low == high else f"{low} to {high}"

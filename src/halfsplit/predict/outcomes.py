"""What a check can turn out to be, and how likely each outcome is under each suspect.

Readings under all suspects fall into bands: values that a meter could not tell apart are one outcome.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfsplit.predict.evidence import observer_table
from halfsplit.predict.functions import levels
from halfsplit.predict.predictor import Predictor, Real
from halfsplit.predict.readings import Expected, expected
from halfsplit.trade import LEVELS, Action, Look, Measure, Mode
from halfsplit.units import show_reading

_GAP = 2.0
_STRAYING = 0.03
"""Share of readings that end up in another band (misreading, wrong point, wrong setup; common practice, from memory)."""


@dataclass(frozen=True, slots=True)
class Outcomes:
    """Outcomes of one check: labels, and probability of each under each suspect, shape (outcomes, S)."""

    action: Action
    labels: tuple[str, ...]
    chances: Real


def outcomes(predictors: tuple[Predictor, ...], actions: tuple[Action, ...]) -> tuple[Outcomes, ...]:
    """Outcomes of every action under the suspects of all predictors, one predictor after the other.

    Those of one setup and mode are solved together.
    """
    for predictor in predictors:
        _solve_together(predictor, actions)
    others = tuple(predictor.suspects for predictor in predictors[1:])
    keep = predictors[0].kept
    return tuple(
        keep(("outcomes", others, action), lambda action=action: _outcomes(predictors, action)) for action in actions
    )


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
        return Outcomes(action, LEVELS, np.asarray(observer_table("technician").T @ truth))
    values = [expected(predictor, (action.points,), action.mode, setup) for predictor in predictors]
    mean = np.concatenate([value.mean for value in values], axis=1)
    spread = np.concatenate([value.spread for value in values], axis=1)
    band, labels = bands(Expected(mean, spread), action.mode)
    chances = np.zeros((len(labels), len(band)))
    chances[band, np.arange(len(band))] = 1.0
    if len(labels) > 1:
        chances = chances * (1.0 - _STRAYING) + (1.0 - chances) * _STRAYING / (len(labels) - 1)
    return Outcomes(action, labels, chances)


def bands(value: Expected, mode: str) -> tuple[NDArray[np.intp], tuple[str, ...]]:
    """Band of each suspect, shape (S,), and a label for each band, least reading first, OL last."""
    mean, spread = value.mean[0], value.spread[0]
    band = np.zeros(len(mean), dtype=np.intp)
    finite = np.flatnonzero(np.isfinite(mean))
    order = finite[np.argsort(mean[finite], kind="stable")]
    labels: list[str] = []
    if len(order):
        steps = np.diff(mean[order]) > _GAP * np.maximum(spread[order][1:], spread[order][:-1])
        number = np.concatenate([[0], np.cumsum(steps)])
        band[order] = number
        labels = [_label(mean[order][number == index], mode) for index in range(number[-1] + 1)]
    if len(finite) < len(mean):
        band[np.isinf(mean)] = len(labels)
        labels.append(show_reading(np.inf, mode))
    return band, tuple(labels)


def _label(values: Real, mode: str) -> str:
    least, most = show_reading(float(values[0]), mode), show_reading(float(values[-1]), mode)
    return f"about {least}" if least == most else f"{least} to {most}"

"""What a person would see: the level of each function under each suspect.

A level comes from a share of rated power (or of rated speed, hum, holding: 1 or 0): none under 5 %, weak under 80 %,
normal up to 125 %, too much above (common practice, no source). Near a threshold both levels get a share.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from halfsplit.circuit import Settled
from halfsplit.predict.predictor import Predictor, Real
from halfsplit.techsheet import Cycle, Function
from halfsplit.trade import LEVELS, Setup

_EDGES = (0.05, 0.80, 1.25)
_SPREAD_SHARE, _SPREAD_FLOOR = 0.05, 0.01
_WEAK = 0.5
_LOGISTIC = 1.702
"""The logistic curve at this slope is the normal one within 0.01 (Johnson & Kotz, 1970; from memory)."""


def share(predictor: Predictor, function: Function, setup: Setup) -> Real:
    """Share of rated in a setup, shape (S,); where contacts may stand either way, the mean of both."""
    key = (function.name, setup.steps)
    if function.cycle is None:
        return predictor.kept(key, lambda: _share_now(predictor, function, setup))
    cycle = function.cycle
    return predictor.kept(key, lambda: _averaged(predictor, function, cycle, setup))


def _share_now(predictor: Predictor, function: Function, setup: Setup) -> Real:
    return predictor.carried(setup).mixed(_shares(predictor, function, setup))


def _shares(predictor: Predictor, function: Function, setup: Setup) -> Real:
    """Share of rated in every way a machine may stand, shape (K,)."""
    return _share(predictor, function, predictor.carried(setup).settled)


def _averaged(predictor: Predictor, function: Function, cycle: Cycle, setup: Setup) -> Real:
    """On the average over a cycle, against what the knob promises; with the knob at off, what there is in a pause."""
    heating, pausing = (
        _share_now(predictor, function, replace(setup, steps=(*setup.steps, (cycle.setting, position))))
        for position in (cycle.heating, cycle.pausing)
    )
    layout = predictor.layout
    table = np.array([cycle.shares[position] for position in layout.positions[cycle.knob]])
    promised = table[predictor.settled(setup).state[layout.variable_index[cycle.knob]]]
    average = promised * heating + (1.0 - promised) * pausing
    return np.where(promised > 0, average / np.where(promised > 0, promised, 1.0), pausing)


def _share(predictor: Predictor, function: Function, settled: Settled) -> Real:
    layout, shown = predictor.layout, function.shown
    if shown.variable:
        row = settled.state[layout.variable_index[shown.variable]]
        value = (row == layout.positions[shown.variable].index(shown.position)).astype(np.float64)
    else:
        solution = settled.solution
        value = np.zeros(settled.columns.count)
        for branch in shown.branches:
            value += solution.watts(branch) / shown.rated_watts
    value = np.where(layout.holds(function.needs, settled.state), value, 0.0)
    weak = ~layout.holds(function.weak_without, settled.state)
    return np.where(weak, value * _WEAK, value)


def levels(predictor: Predictor, function: Function, setup: Setup) -> Real:
    """Probability of each level in `LEVELS` that an honest look would give, shape (4, S)."""
    if function.cycle is not None:
        return _levels(share(predictor, function, setup))
    key = ("levels", function.name, setup.steps)
    return predictor.kept(key, lambda: predictor.carried(setup).mixed(_levels(_shares(predictor, function, setup))))


def _levels(value: Real) -> Real:
    spread = _SPREAD_SHARE * value + _SPREAD_FLOOR
    above = [np.ones_like(value)]
    above += [below((value - edge) / spread) for edge in _EDGES]
    above.append(np.zeros_like(value))
    return np.stack([above[index] - above[index + 1] for index in range(len(LEVELS))])


def below(deviations: Real) -> Real:
    """Share of a normal curve below so many deviations from its middle."""
    return np.asarray(1.0 / (1.0 + np.exp(-np.clip(_LOGISTIC * deviations, -50, 50))))

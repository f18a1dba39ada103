"""Which points are live, and whether a machine is dead: what a meter must not be asked."""

from __future__ import annotations

import numpy as np

from halfsplit.circuit import Settled, solve
from halfsplit.errors import InputError
from halfsplit.predict.predictor import Predictor
from halfsplit.trade import Setup
from halfsplit.units import MeterMode

LIVE_VOLTS = 2.0

Pairs = tuple[tuple[str, str], ...]


def refuse_live(predictor: Predictor, pairs: Pairs, meter: MeterMode, setup: Setup) -> None:
    """Ohms, a beep and an insulation test are for a dead machine.

    Raises:
        InputError: A sound machine has voltage at one of the points.
    """
    live = live_points(predictor, setup)
    for point in (point for pair in pairs for point in pair):
        if point in live:
            raise InputError(
                f"{point} is live when it is {setup.says}: {meter.button.lower()} there would harm the meter or you.",
                f"Read {meter.button.lower()} in a setup with the plug out.",
            )


def live_points(predictor: Predictor, setup: Setup) -> frozenset[str]:
    """Points with more than 2 V to earth in a sound machine, however it may stand, or with what has tripped set again.

    What opens by itself makes nothing safe to touch: a person may set it again while another has his hands inside.
    """
    return predictor.healthy.kept(("live", setup.steps), lambda: _live_points(predictor.healthy.carried(setup).settled))


def _live_points(settled: Settled) -> frozenset[str]:
    layout = settled.columns.layout
    tripped = [layout.variable_index[drive.name] for drive in layout.network.drives if drive.hold is None]
    state = settled.state.copy()
    state[tripped] = 0
    points = layout.points
    volts = np.maximum(settled.solution.rms_volts(), solve(settled.columns, state).rms_volts()).max(axis=1)
    return frozenset(point for point, value in zip(points, volts, strict=True) if value > LIVE_VOLTS)


def is_dead(predictor: Predictor, setup: Setup) -> bool:
    """Whether a person has cut a sound machine off: no part inside has voltage (the outlet may).

    A setup in which it trips its own breaker is not dead.
    """
    live = live_points(predictor, setup)
    inside = [element for element in predictor.machine.elements if element.symbol not in ("plug", "breaker")]
    return not any(end in live for element in inside for end in (element.a, element.b))

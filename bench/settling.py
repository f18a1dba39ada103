"""Settling of all pairs in all setups, beside the loop anyone would write: solve, look at each contact, solve again."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from bench.peers import nodal
from halfsplit.circuit import Columns, Drive, Layout, Patch, Step, Threshold, columns, settle_pairs
from halfsplit.circuit.columns import UNPINNED, Positions

Variant = tuple[tuple[Patch, ...], tuple[Step, ...]]


def settle_all(singles: Columns, setups: tuple[tuple[Step, ...], ...]) -> int:
    """Ours: every pair settled in every setup, and then the volts of all points; how many columns."""
    settled = settle_pairs(singles, setups)
    points = np.arange(len(singles.layout.points))
    halves = (range(len(setups) // 2), range(len(setups) // 2, len(setups)))
    return sum(settled.volts(points, list(half)).shape[1] * len(half) for half in halves if len(half))


def settle_loop(layout: Layout, variants: list[Variant]) -> list[Positions]:
    """One column after another: where each comes to rest, shape (V,)."""
    return [_settle_one(layout, columns(layout, [patches]), steps) for patches, steps in variants]


def _settle_one(layout: Layout, made: Columns, steps: tuple[Step, ...]) -> Positions:
    state = layout.start(1)[:, 0]
    pinned = made.pinned[:, 0]
    ohm = layout.admittance(made.branch_scale, made.added_ohm)[:, 0]
    for step in (None, *steps):
        if step is not None:
            state[layout.variable_index[step[0]]] = layout.positions[step[0]].index(step[1])
        state = np.where(pinned == UNPINNED, state, pinned)
        seen = []
        while tuple(state) not in seen:
            seen.append(tuple(state))
            conducts = (layout.conducts(state[:, None]) | made.forced_closed) & ~made.forced_open
            siemens = np.where(conducts[:, 0], ohm, 0.0)
            volts = _solve(layout, siemens, layout.pole_volts * made.pole_scale[:, 0])
            movers = _movers(layout, state, pinned, lambda it, v=volts, y=siemens: _rms(layout, it, v, y))
            if not movers:
                break
            quickest = min(drive.delay_s for drive in movers)
            state = state.copy()
            for drive in movers:
                if drive.delay_s == quickest:
                    state[layout.variable_index[drive.name]] ^= 1
    return state


def _solve(layout: Layout, siemens: np.ndarray, held: np.ndarray) -> np.ndarray:
    matrix, poles = nodal(layout, siemens), len(held)
    return np.concatenate([held, np.linalg.solve(matrix[poles:, poles:], -matrix[poles:, :poles] @ held)])


def _rms(layout: Layout, threshold: Threshold, volts: np.ndarray, siemens: np.ndarray) -> float:
    row = layout.branch_index[threshold.branch]
    across = volts[layout.a[row]] - volts[layout.b[row]]
    return float(abs(across if threshold.quantity == "volts" else across * siemens[row]))


def _movers(layout: Layout, state: Positions, pinned: Positions, rms: Callable[[Threshold], float]) -> list[Drive]:
    def all_of(thresholds: tuple[Threshold, ...]) -> bool:
        return all((rms(it) >= it.at_least) == it.above for it in thresholds)

    movers = []
    for drive in layout.network.drives:
        row = layout.variable_index[drive.name]
        if pinned[row] != UNPINNED:
            continue
        if state[row] == 0 and any(all_of(them) for them in drive.on):
            movers.append(drive)
        if state[row] == 1 and drive.hold is not None and not all_of(drive.hold):
            movers.append(drive)
    return movers

"""Where an ohmmeter's current goes in the dead network: its paths from the red probe to the black one.

What may live here: the current of one ampere put in at one point and taken out at another, split into paths. Such a
current never runs in a circle (each branch carries it from the higher potential to the lower), so it is a sum of paths;
the widest is taken off first, and again, until little is left.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.columns import Columns, Layout, Positions
from halfsplit.circuit.ports import fed
from halfsplit.circuit.settle import Settled
from halfsplit.circuit.solve import conducting, reduce_dead
from halfsplit.circuit.starmesh import pass_dipoles, volts_of_dipoles
from halfsplit.errors import CircuitError

Real = NDArray[np.float64]
Leaving = dict[int, list[tuple[int, int]]]
_LEAST_SHARE = 1e-4


@dataclass(frozen=True, slots=True)
class Path:
    """One way through the dead network.

    Attributes:
        share: Of the measuring current.
        branches: Names, from the first point to the second.
        drops: Share of the meter's volts across each branch; they add up to one.
    """

    share: float
    branches: tuple[str, ...]
    drops: tuple[float, ...]


def measuring_paths(settled: Settled, pair: tuple[str, str], column: int = 0) -> tuple[Path, ...]:
    """Paths of the measuring current between two points in one column, widest first, those under 0.01 % left out.

    Raises:
        CircuitError: The network has no such point.
    """
    layout = settled.columns.layout
    unknown = [point for point in pair if point not in layout.point_index]
    if unknown:
        raise CircuitError(f"There is no point {unknown[0]!r} to put a probe on.")
    ends = layout.point_index[pair[0]], layout.point_index[pair[1]]
    amps, volts = _pushed(settled.columns.take(np.array([column])), settled.state[:, [column]], ends)
    whole = volts[ends[0]] - volts[ends[1]]
    left = np.abs(amps)
    found: list[Path] = []
    while True:
        route = _widest(_leaving(layout, amps, left), left, *ends)
        share = min((float(left[branch]) for branch in route), default=0.0)
        if share < _LEAST_SHARE:
            return tuple(found)
        left[route] -= share
        drops = np.abs(volts[layout.a[route]] - volts[layout.b[route]]) / whole
        names = tuple(layout.network.branches[branch].name for branch in route)
        found.append(Path(share, names, tuple(float(drop) for drop in drops)))


def _pushed(made: Columns, state: Positions, ends: tuple[int, int]) -> tuple[Real, Real]:
    """Amps of every branch (B,) and volts of every point (N,) of one dead column, 1 A in at the first end.

    Of the states of the diodes the one counts that its own current allows.
    """
    layout = made.layout
    basis, diodes = layout.direct_basis, layout.one_way
    for states in product((False, True), repeat=len(diodes)):
        on = np.array(states, dtype=bool)[:, None]
        reduced = reduce_dead(made, state, on)
        amps, _ = pass_dipoles(reduced, np.array([ends]))
        _, held = fed(basis, reduced, amps[: len(basis.body)])
        volts = np.asarray(volts_of_dipoles(reduced, amps, held)[:, 0, 0].real, dtype=np.float64)
        across = volts[layout.a] - volts[layout.b]
        if np.where(on[:, 0], across[diodes] >= 0, across[diodes] <= 0).all():
            break
    conducts = conducting(made, state)
    conducts[diodes] &= on
    siemens = np.where(conducts, layout.conductance(made.branch_scale, made.added_ohm), 0.0)[:, 0]
    return siemens * across, volts


def _leaving(layout: Layout, amps: Real, left: Real) -> Leaving:
    """By point, the branches that still carry current away from it, and where to."""
    leaving: Leaving = {}
    for branch in np.flatnonzero(left >= _LEAST_SHARE):
        a, b = int(layout.a[branch]), int(layout.b[branch])
        start, end = (a, b) if amps[branch] > 0 else (b, a)
        leaving.setdefault(start, []).append((int(branch), end))
    return leaving


def _widest(leaving: Leaving, left: Real, first: int, last: int) -> list[int]:
    """The route whose narrowest branch carries most; empty if there is none (Dijkstra's rule with widths)."""
    width, route = {first: np.inf}, {first: list[int]()}
    waiting = {first}
    while waiting:
        point = max(waiting, key=lambda at: width[at])
        if point == last:
            return route[point]
        waiting.discard(point)
        for branch, end in leaving.get(point, []):
            wide = min(width[point], float(left[branch]))
            if wide > width.get(end, 0.0):
                width[end], route[end] = wide, [*route[point], branch]
                waiting.add(end)
    return []

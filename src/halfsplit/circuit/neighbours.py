"""Single faults sorted into groups of neighbours, so that pairs of them can share most of the solving.

What may live here: which branches and points each fault touches. Shapes: S single faults, B branches.

Faults that touch a common branch stand in one group, so that across two groups what one touches the other leaves
alone. Faults that move a pole's volts, or nothing, stand in the first group. A fault that touches many points at once
is wide: its pairs are solved the plain way.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.columns import Columns, Layout, Mask

Index = NDArray[np.intp]
_WIDE = 4
"""A fault that touches more free points than this is solved the plain way."""
_POINTS, _SPARSE_POINTS, _FAULTS_A_POINT = 7, 9, 4
"""Points that a group of faults touches, about, and how many where there are fewer than so many faults to a point.
Measured: small groups share more, large ones need fewer calls of numpy."""


@dataclass(frozen=True, slots=True, eq=False)
class Group:
    """Faults that stand together.

    Attributes:
        suspects: Their numbers, shape (n,).
        points: The free points they touch, shape (K,).
        branches: The branches they touch, shape (F,).
        sets: For each of its distinct sets of touched points, every place in `points`, the touched ones last, (U, K).
        touched: How many places at the end of each set are kept apart.
        set_of: Which set each fault has, shape (n,).
    """

    suspects: Index
    points: Index
    branches: Index
    sets: Index
    touched: int
    set_of: Index


def grouped(made: Columns, touches: Mask) -> tuple[tuple[Group, ...], Index]:
    """Groups of neighbours, and the numbers of the wide faults.

    Args:
        made: The faults, one column each.
        touches: Which branches each could change, shape (B, S).
    """
    layout = made.layout
    ends = np.stack([layout.a, layout.b])
    points = [frozenset(ends[:, touches[:, one]].ravel().tolist()) for one in range(made.count)]
    free = [frozenset(point for point in its if point >= len(layout.pole_volts)) for its in points]
    moves_poles = (made.pole_scale != 1).any(axis=0)
    wide = np.array([len(its) > _WIDE for its in free], dtype=bool)
    size = _POINTS if made.count >= _FAULTS_A_POINT * len(frozenset().union(*free)) else _SPARSE_POINTS
    units = _sharing(touches, wide)
    first = [one for unit in units for one in unit if all(moves_poles[o] or not free[o] for o in unit)]
    rest = [unit for unit in units if unit[0] not in first]
    for unit in rest:
        wide[unit] |= (
            moves_poles[unit].any() or len(frozenset().union(*(free[one] for one in unit))) > 2 * _SPARSE_POINTS
        )
    rest = [unit for unit in rest if not wide[unit[0]]]
    many = [first] if first else []
    # Each fault of the earlier of two groups costs an elimination; so the small ones come first.
    many += sorted(_neighbours(rest, free, size), key=len)
    return tuple(_group(layout, np.array(its), free, touches) for its in many), np.flatnonzero(wide)


def _sharing(touches: Mask, wide: Mask) -> list[list[int]]:
    """Faults that touch a common branch, directly or through others, in the order of their first."""
    leader = list(range(touches.shape[1]))

    def lead(one: int) -> int:
        while leader[one] != one:
            one = leader[one]
        return one

    for row in touches:
        its = [one for one in np.flatnonzero(row).tolist() if not wide[one]]
        for one in its[1:]:
            leader[lead(one)] = lead(its[0])
    units: dict[int, list[int]] = {}
    for one in np.flatnonzero(~wide).tolist():
        units.setdefault(lead(one), []).append(one)
    return list(units.values())


def _neighbours(units: list[list[int]], free: list[frozenset[int]], size: int) -> list[list[int]]:
    """Units put together where they add the fewest points, up to about `size` points."""
    left = [(unit, frozenset().union(*(free[one] for one in unit))) for unit in units]
    groups: list[list[int]] = []
    points: frozenset[int] = frozenset()
    while left:
        unit, its = min(left, key=lambda it: len(it[1] - points))
        if not groups or len(points | its) > size:
            unit, its = left[0]
            groups.append([])
            points = frozenset()
        left.remove((unit, its))
        groups[-1] += unit
        points |= its
    return groups


def _group(layout: Layout, its: Index, free: list[frozenset[int]], touches: Mask) -> Group:
    points = sorted(frozenset().union(*(free[one] for one in its)))
    touched = max(len(free[one]) for one in its)
    sets: dict[tuple[int, ...], int] = {}
    set_of = []
    for one in its:
        mine = sorted(free[one])
        mine += [point for point in points if point not in mine][: touched - len(mine)]
        order = [point for point in points if point not in mine] + mine
        set_of.append(sets.setdefault(tuple(points.index(point) for point in order), len(sets)))
    branches = np.flatnonzero(touches[:, its].any(axis=1))
    return Group(
        its, np.array(points, np.intp), branches, np.array(list(sets), np.intp), touched, np.array(set_of, np.intp)
    )

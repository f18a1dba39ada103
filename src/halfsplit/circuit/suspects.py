"""Single faults sorted into groups of neighbours, so that pairs of them can share most of the solving.

What may live here: which branches and points each fault touches, and the admittances it gives them. Shapes: S single
faults, C base columns (a state of all contacts each), B branches, P poles.

Faults that touch a common branch stand in one group, so that across two groups what one touches the other leaves
alone. Faults that move a pole's volts, or nothing, stand in the first group. A fault that touches many points at once
is wide: its pairs are solved the plain way.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.columns import UNPINNED, Columns, Layout, Mask, Positions, Real, columns
from halfsplit.circuit.starmesh import Complex, Numbers
from halfsplit.errors import CircuitError

Index = NDArray[np.intp]
_WIDE = 4
"""A fault that touches more free points than this is solved the plain way."""
_POINTS = 6
"""Points that a group of faults touches, about: small groups share more, large ones need fewer calls of numpy."""


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


@dataclass(frozen=True, slots=True, eq=False)
class Suspects:
    """Single faults against base columns.

    Attributes:
        singles: The faults, one column each.
        states: The base columns: position of every variable, shape (V, C).
        base: Admittance of every branch with nothing wrong, shape (B, C).
        changed: Under each fault, shape (B, S, C).
        touches: Which branches each fault changes in any base column, shape (B, S).
        groups: All faults but the wide ones.
        wide: Numbers of the wide ones.
        direct: Whether this is the dead network of an ohmmeter.
    """

    singles: Columns
    states: Positions
    base: Numbers
    changed: Numbers
    touches: Mask
    groups: tuple[Group, ...]
    wide: Index
    direct: bool

    @property
    def layout(self) -> Layout:
        """The network's shape."""
        return self.singles.layout


def admittances(made: Columns, states: Positions, direct: bool = False) -> Numbers:
    """Admittance of every branch in every state, shape (B, S, C); `direct` as an ohmmeter finds them."""
    layout, columns = made.layout, states.shape[1]
    pinned = made.pinned[:, :, None]
    stands = np.where(pinned == UNPINNED, states[:, None, :], pinned).reshape(len(states), -1)
    conducts = layout.conducts(stands).reshape(-1, made.count, columns)
    conducts = (conducts | made.forced_closed[:, :, None]) & ~made.forced_open[:, :, None]
    siemens: Real | Complex = (layout.conductance if direct else layout.admittance)(made.branch_scale, made.added_ohm)
    return np.asarray(np.where(conducts, siemens[:, :, None], 0.0))


def together(singles: Columns, first: Index, second: Index) -> Columns:
    """Both of two single faults in each column."""
    one, other = singles.take(first), singles.take(second)
    return Columns(
        singles.layout,
        one.forced_open | other.forced_open,
        one.forced_closed | other.forced_closed,
        one.added_ohm + other.added_ohm,
        one.branch_scale * other.branch_scale,
        np.where(other.pinned == UNPINNED, one.pinned, other.pinned),
        one.pole_scale * other.pole_scale,
        one.source_scale * other.source_scale,
    )


def suspects(singles: Columns, states: Positions, direct: bool = False) -> Suspects:
    """Work out what every single fault changes in every base column, and group the faults.

    Args:
        singles: The faults, one column each.
        states: Position of every variable in each base column, shape (V, C).
        direct: For the dead network of an ohmmeter.

    Raises:
        CircuitError: The network has floating sources, transformers or one-way branches, which need another path.
    """
    layout = singles.layout
    if not layout.network.plain:
        raise CircuitError(
            "Pairs of faults are shared out only where nothing floats on a source and all conducts both ways.",
            "Solve such a network column by column.",
        )
    changed = admittances(singles, states, direct)
    sound = admittances(columns(layout, [()]), states, direct)[:, 0]
    touches = _touches(singles)
    groups, wide = _grouped(singles, touches)
    return Suspects(singles, states, sound, changed, touches, groups, wide, direct)


def _touches(made: Columns) -> Mask:
    """What a fault could change, even if only together with another one, shape (B, S)."""
    touches = made.forced_open | made.forced_closed | (made.added_ohm != 0) | (made.branch_scale != 1)
    variables = list(made.layout.positions)
    for row, branch in enumerate(made.layout.network.branches):
        named = {variable for alternative in branch.condition for variable, _ in alternative}
        rows = [variables.index(variable) for variable in named]
        touches[row] |= (made.pinned[rows] != UNPINNED).any(axis=0)
    return np.asarray(touches)


def _grouped(made: Columns, touches: Mask) -> tuple[tuple[Group, ...], Index]:
    layout = made.layout
    ends = np.stack([layout.a, layout.b])
    points = [frozenset(ends[:, touches[:, one]].ravel().tolist()) for one in range(made.count)]
    free = [frozenset(point for point in its if point >= len(layout.pole_volts)) for its in points]
    moves_poles = (made.pole_scale != 1).any(axis=0)
    wide = np.array([len(its) > _WIDE for its in free], dtype=bool)
    units = _sharing(touches, wide)
    first = [one for unit in units for one in unit if all(moves_poles[o] or not free[o] for o in unit)]
    rest = [unit for unit in units if unit[0] not in first]
    for unit in rest:
        wide[unit] |= moves_poles[unit].any() or len(frozenset().union(*(free[one] for one in unit))) > 2 * _POINTS
    rest = [unit for unit in rest if not wide[unit[0]]]
    many = [first] if first else []
    many += _neighbours(rest, free)
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


def _neighbours(units: list[list[int]], free: list[frozenset[int]]) -> list[list[int]]:
    """Units put together where they add the fewest points."""
    left = [(unit, frozenset().union(*(free[one] for one in unit))) for unit in units]
    groups: list[list[int]] = []
    points: frozenset[int] = frozenset()
    while left:
        unit, its = min(left, key=lambda it: len(it[1] - points))
        if not groups or len(points | its) > _POINTS:
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

"""In what order the points outside two groups of faults are eliminated, for all pairs of groups.

What may live here: graph work on integers; it never sees a number of the circuit. Halves of the groups are eliminated
together, so that each pair of groups costs a few points of its own only. Shapes: f free points that are left, P poles.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.columns import Layout
from halfsplit.circuit.neighbours import Group, Index
from halfsplit.circuit.starmesh import Numbers


@dataclass(frozen=True, slots=True, eq=False)
class Laying:
    """Where branches go in a mesh: parallel ones are summed, each edge goes in from both ends that are free."""

    rows: Index
    columns: Index
    branches: Index
    starts: Index

    def add(self, mesh: Numbers, siemens: Numbers) -> None:
        """Add the branches to `mesh`, shape (f, f + P, …), from the admittances of all, shape (B, …)."""
        if len(self.rows):
            mesh[self.rows, self.columns] += np.add.reduceat(siemens[self.branches], self.starts, axis=0)


def lay(layout: Layout, branches: Index, points: Index) -> Laying:
    """Where `branches` go in a mesh of the free `points` in this order, and then the poles."""
    poles, free = len(layout.pole_volts), len(points)
    place = np.full(len(layout.points), -1)
    place[points] = np.arange(free)
    place[:poles] = free + np.arange(poles)
    a, b = place[layout.a[branches]], place[layout.b[branches]]
    rows, columns, both = np.concatenate([a, b]), np.concatenate([b, a]), np.tile(branches, 2)
    used = (rows < free) & (rows != columns)
    rows, columns, both = rows[used], columns[used], both[used]
    order = np.lexsort((columns, rows))
    rows, columns, both = rows[order], columns[order], both[order]
    starts = np.flatnonzero(np.diff(rows * (free + poles) + columns, prepend=-1))
    return Laying(rows[starts], columns[starts], both, starts)


@dataclass(frozen=True, slots=True, eq=False)
class Cut:
    """One elimination: what goes, what is left, and the cuts that go on from there.

    Attributes:
        groups: Groups whose points stay: one or two in a leaf.
        points: Points that stay, in order, shape (f,).
        order: Every point there was by its place, those that go first, then the poles.
        gone: How many go.
        laying: Branches that have to be in the mesh before: those of groups that go.
        first: Where the branches of the first group go in what is left; of use in a leaf.
        parts: What follows; empty in a leaf.
    """

    groups: tuple[Group, ...]
    points: Index
    order: Index
    gone: int
    laying: Laying
    first: Laying
    parts: tuple[Cut, ...]


def make_cuts(layout: Layout, groups: tuple[Group, ...]) -> tuple[Cut, ...]:
    """All cuts, the first ones from the whole network: their leaves are every group and every two groups, each once."""
    points = np.arange(len(layout.pole_volts), len(layout.points))
    return tuple(_parts(layout, points, groups, groups, groups))


def _parts(layout: Layout, points: Index, standing: tuple[Group, ...], *sides: tuple[Group, ...]) -> list[Cut]:
    """Cuts for every group of one side with every one of the other; both sides may be the same.

    Args:
        layout: The network's shape.
        points: The free points that are left.
        standing: Groups whose branches are not in the mesh yet.
        sides: The two sides.
    """
    first, second = sides
    if first is second:
        if len(first) <= 1:
            return [_cut(layout, points, standing, first, first)] if first else []
        one, other = first[: len(first) // 2], first[len(first) // 2 :]
        halves = [_cut(layout, points, standing, half, half) for half in (one, other)]
        return [*halves, *_parts(layout, points, standing, one, other)]
    if len(first) == len(second) == 1:
        return [_cut(layout, points, standing, first, second)]
    if len(first) >= len(second):
        halved = ((first[: len(first) // 2], second), (first[len(first) // 2 :], second))
    else:
        halved = ((first, second[: len(second) // 2]), (first, second[len(second) // 2 :]))
    return [_cut(layout, points, standing, *both) for both in halved]


def _cut(layout: Layout, points: Index, standing: tuple[Group, ...], *sides: tuple[Group, ...]) -> Cut:
    first, second = sides
    stay = first if first is second else first + second
    dropped = [group.branches for group in standing if all(group is not other for other in stay)]
    own = np.unique(np.concatenate([group.points for group in first]))
    others = np.unique(np.concatenate([group.points for group in second]))
    kept = others if first is second else np.concatenate([np.setdiff1d(own, others), others])
    place = np.full(len(layout.points), -1)
    place[points] = np.arange(len(points))
    gone = np.setdiff1d(points, kept)
    poles = len(points) + np.arange(len(layout.pole_volts))
    order = np.concatenate([place[gone], place[kept], poles])
    laying = lay(layout, np.concatenate([*dropped, np.zeros(0, dtype=np.intp)]), points)
    leaf = len(first) == len(second) == 1
    parts = () if leaf else tuple(_parts(layout, kept, stay, first, second))
    return Cut(stay, kept, order, len(gone), laying, lay(layout, first[0].branches, kept), parts)

"""Faults put into a mesh from which all other points are gone: one group's, then another's, or two of one group.

What may live here: what stands between the shared elimination and an answer, whatever is asked. Shapes: C base columns,
K points that a group touches, P poles, n faults, c points of one set.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Protocol, Self, TypeVar

import numpy as np

from halfsplit.circuit.cuts import Cut, lay
from halfsplit.circuit.meshes import Gone, at_poles, eliminate
from halfsplit.circuit.neighbours import Group, Index
from halfsplit.circuit.singles import Suspects, admittances, together
from halfsplit.circuit.starmesh import Complex, Numbers


class Rows(Protocol):
    """What is asked of a network, told by the points that are left."""

    def after(self, cut: Cut, gone: Gone) -> Self:
        """The same, told by the points that are left after a cut."""


Asked = TypeVar("Asked", bound=Rows)


def leaves(made: Suspects, rows: Asked) -> Iterator[tuple[Cut, Numbers, Asked]]:
    """Every leaf of the cuts with the mesh that is left there, and what is asked told by its points.

    Args:
        made: The faults.
        rows: What is asked, told by all points in order of the first cuts: free ones, then poles.

    Raises:
        CircuitError: A point floats.
    """
    layout = made.layout
    free = np.arange(len(layout.pole_volts), len(layout.points))
    mesh = np.zeros((len(free), len(layout.points), made.base.shape[1]), dtype=made.base.dtype)
    touched = np.concatenate([np.zeros(0, dtype=np.intp), *(group.branches for group in made.groups)])
    lay(layout, np.setdiff1d(np.arange(len(made.base)), touched), free).add(mesh, made.base)
    for cut in made.cuts:
        yield from _follow(made, cut, mesh, rows)


def _follow(made: Suspects, cut: Cut, mesh: Numbers, rows: Asked) -> Iterator[tuple[Cut, Numbers, Asked]]:
    """Make a cut, and all that follow from it."""
    before = mesh
    if len(cut.laying.rows):
        before = mesh.copy()
        cut.laying.add(before, made.base)
    gone = eliminate(before[cut.order[: len(mesh), None], cut.order], cut.gone)
    left = rows.after(cut, gone)
    if not cut.parts:
        yield cut, gone.rest, left
    for part in cut.parts:
        yield from _follow(made, part, gone.rest, left)


def two_of(made: Suspects, cut: Cut, mesh: Numbers, first: Index, second: Index) -> tuple[Numbers, Complex]:
    """Pairs of one group put into the mesh of its points, (K, K + 2, pairs, C), and volts of the poles, (P, pairs)."""
    (group,) = cut.groups
    many = np.repeat(mesh[:, :, None], len(first), axis=2)
    own = replace(cut.first, branches=np.searchsorted(group.branches, cut.first.branches))
    own.add(many, _of_both(made, group, first, second))
    scale = made.singles.pole_scale
    poles = np.where(first == second, scale[:, first], scale[:, first] * scale[:, second])
    held = np.asarray(made.layout.pole_volts[:, None] * poles)
    return at_poles(many, len(mesh), held[:, :, None]), held


def _of_both(made: Suspects, group: Group, first: Index, second: Index) -> Numbers:
    """Admittances of a group's branches under two of its faults at once, shape (F, pairs, C)."""
    mine = made.touches[group.branches][:, first, None]
    changed = made.changed[group.branches]
    siemens = np.where(mine, changed[:, first], changed[:, second])
    shared = (made.touches[:, first] & made.touches[:, second]).any(axis=0) & (first != second)
    if shared.any():
        both = admittances(together(made.singles, first[shared], second[shared]), made.states, made.direct)
        siemens[:, shared] = both[group.branches]
    return siemens


def with_each(made: Suspects, cut: Cut, mesh: Numbers, held: Complex) -> Numbers:
    """The mesh with each fault of the first group in it, the poles put together, shape (f, f + 2, C, n)."""
    group, free = cut.groups[0], len(mesh)
    where = cut.first
    changed = made.changed[where.branches[:, None], group.suspects].swapaxes(1, 2)
    put = at_poles(mesh[..., None], free, held[:, None])
    laid: Numbers = np.array(np.broadcast_to(put, (*put.shape[:3], len(group.suspects))))
    own = np.zeros((free, len(held), mesh.shape[2], len(group.suspects)), dtype=mesh.dtype)
    values = np.add.reduceat(changed, where.starts, axis=0) if len(where.rows) else changed[:0]
    inside = where.columns < free
    edges = (where.rows[inside], where.columns[inside])
    laid[edges] = laid[edges] + values[inside]
    own[where.rows[~inside], where.columns[~inside] - free] = values[~inside]
    np.add(laid[:, free:], at_poles(own, 0, held[:, None]), out=laid[:, free:])
    return laid


def held_by(made: Suspects, group: Group) -> Complex:
    """Volts of the poles under each fault of a group, shape (P, n), or (P, 1) where none of them moves any."""
    scale = made.singles.pole_scale[:, group.suspects]
    return np.asarray(made.layout.pole_volts[:, None] * (scale if (scale != 1).any() else 1.0))


@dataclass(frozen=True, slots=True, eq=False)
class Places:
    """What the branches of a group are in the sets of points its faults touch.

    Attributes:
        standing: What no fault of a set touches, in the set's order, shape (K, K + P, sets, C).
        changed: What each fault makes of the rest, shape (c, c + P, faults, C).
        own: Volts of the poles where no fault moves them, shape (P, 1).
        put: Both with the poles put together at those.
        columns: Where in the group's mesh the columns of each set are, shape (K + 2, sets).
        back: Where each point of the group is in the set of each fault, shape (K, faults).
    """

    standing: Numbers
    changed: Numbers
    own: Complex
    put: tuple[Numbers, Numbers]
    columns: Index
    back: Index

    def at(self, held: Complex) -> tuple[Numbers, Numbers]:
        """Both with the poles put together at volts of shape (P, n), or (P, 1) for all."""
        if held.shape[1] == 1 and (held == self.own).all():
            return self.put
        size, touched = len(self.standing), len(self.changed)
        volts = held[:, None, None]
        return at_poles(self.standing[..., None], size, volts), at_poles(self.changed[..., None], touched, volts)


def places_of(made: Suspects, group: Group) -> Places:
    """What the branches of a group are in each set, worked out once for all blocks."""
    size, touched, poles = len(group.points), group.touched, len(made.layout.pole_volts)
    columns = made.base.shape[1]
    standing = np.zeros((size, size + poles, len(group.sets), columns), dtype=made.base.dtype)
    changed = np.zeros((touched, touched + poles, len(group.suspects), columns), dtype=made.base.dtype)
    for number, order in enumerate(group.sets):
        mine = group.set_of == number
        suspects = group.suspects[mine]
        moves = np.asarray(made.touches[:, suspects].any(axis=1))
        left = group.branches[~moves[group.branches]]
        lay(made.layout, left, group.points[order]).add(standing[:, :, number], made.base)
        part = np.zeros((touched, touched + poles, len(suspects), columns), dtype=made.base.dtype)
        inner = group.points[order[size - touched :]]
        laying = lay(made.layout, np.flatnonzero(moves), inner)
        own = replace(laying, branches=np.arange(len(laying.branches)))
        own.add(part, made.changed[laying.branches[:, None], suspects])
        changed[:, :, mine] = part
    still = made.layout.pole_volts[:, None]
    volts = still[:, None, None]
    put = (at_poles(standing[..., None], size, volts), at_poles(changed[..., None], touched, volts))
    columns_of = np.concatenate([group.sets, np.tile([size, size + 1], (len(group.sets), 1))], axis=1).T
    return Places(standing, changed, still, put, columns_of, np.argsort(group.sets, axis=1)[group.set_of].T)


@dataclass(frozen=True, slots=True, eq=False)
class There:
    """The other group's points eliminated, for each set of them and then for each fault.

    Attributes:
        outer: All but the set's own points, columns (sets, C, n).
        inner: The set's own, columns (faults, C, n).
    """

    outer: Gone
    inner: Gone


def put_in(group: Group, places: Places, mesh: Numbers, held: Complex) -> There:
    """Each fault of a group put into a mesh of the group's points, shape (K, K + 2, C, n), poles put together."""
    size, touched = len(group.points), group.touched
    standing, changed = places.at(held)
    sets = mesh[group.sets.T[:, None], places.columns[None]]
    np.add(sets, standing, out=sets)
    outer = eliminate(sets, size - touched, 1)
    inner = outer.rest[:, :, group.set_of]
    np.add(inner, changed, out=inner)
    return There(outer, eliminate(inner, touched, 1))

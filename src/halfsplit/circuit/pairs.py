"""All pairs of many single faults, in many states at once: what is common to a group of pairs is eliminated once.

What may live here: the sharing out of the work. Shapes: C base columns, R rows (points or whatever is asked of them), K
points that a group of faults touches, P poles. For two groups g and h of faults all points are first eliminated that
neither touches, in the base columns only; then each fault of g is put in and g's own points go; then, for each set of
points that a fault of h touches, the rest of h; last, each pair has two points or so of its own. What was eliminated
is a weighted mean of what stays, and these weights are put together by matrix products. See docs/decisions/0012.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

import numpy as np

from halfsplit.circuit.cuts import Cut, lay
from halfsplit.circuit.meshes import Gone, at_poles, eliminate, share_of_rest
from halfsplit.circuit.neighbours import Group, Index
from halfsplit.circuit.singles import Suspects, admittances, together
from halfsplit.circuit.starmesh import Complex, Numbers, point_volts, reduce

_PLAIN_COLUMNS = 1024


@dataclass(frozen=True, slots=True)
class Block:
    """Volts of some pairs. The pair of a fault with itself is the single fault.

    Attributes:
        base: The base column of each, shape (n,).
        first: Number of one fault, shape (n,).
        second: Number of the other, shape (n,).
        volts: Of every row, shape (n, R).
    """

    base: Index
    first: Index
    second: Index
    volts: Numbers


def pair_volts(made: Suspects, rows: Index | None = None, *, reuse: bool = False) -> Iterator[Block]:
    """Volts of every point under every pair of faults and every single one, block by block, each pair once.

    Args:
        made: The faults and the base columns, from `suspects`.
        rows: Numbers of the points wanted; all when None.
        reuse: Write each block over the one before, which is quicker; copy what is to be kept.

    Raises:
        CircuitError: A point floats.
    """
    wanted = np.arange(len(made.layout.points)) if rows is None else rows
    if made.groups:
        mesh, weights = _whole(made, wanted)
        run = _Run(made, {id(group): _places(made, group) for group in made.groups}, reuse)
        for cut in made.cuts:
            yield from _follow(run, cut, mesh, weights)
    yield from _plain(made, wanted)


def _whole(made: Suspects, wanted: Index) -> tuple[Numbers, Numbers]:
    """The mesh of all points without the groups' branches, (f, f + P, C), and the rows by all points, (C, f + P, R)."""
    layout, columns = made.layout, made.base.shape[1]
    poles, points = len(layout.pole_volts), len(layout.points)
    free = np.arange(poles, points)
    mesh = np.zeros((len(free), points, columns), dtype=made.base.dtype)
    touched = np.concatenate([group.branches for group in made.groups])
    lay(layout, np.setdiff1d(np.arange(len(made.base)), touched), free).add(mesh, made.base)
    weights = np.zeros((columns, points, len(wanted)), dtype=made.base.dtype)
    order = np.concatenate([free, np.arange(poles)])
    weights[:] = order[:, None] == wanted
    return mesh, weights


@dataclass(frozen=True, slots=True, eq=False)
class _Places:
    """What the branches of a group are in the sets of points its faults touch.

    Attributes:
        standing: What no fault of a set touches, in the set's order, shape (K, K + P, sets, C).
        changed: What each fault makes of the rest, shape (c, c + P, faults, C).
        put: Both with the poles put together at their own volts.
        columns: Where in the group's mesh the columns of each set are, shape (K + 2, sets).
        back: Where each point of the group is in the set of each fault, shape (K, faults).
    """

    standing: Numbers
    changed: Numbers
    put: tuple[Numbers, Numbers]
    columns: Index
    back: Index

    def at(self, held: Complex) -> tuple[Numbers, Numbers]:
        """Both with the poles put together at volts of shape (P, n), or (P, 1) for their own."""
        if held.shape[1] == 1:
            return self.put
        size, touched = len(self.standing), len(self.changed)
        volts = held[:, None, None]
        return at_poles(self.standing[..., None], size, volts), at_poles(self.changed[..., None], touched, volts)


def _places(made: Suspects, group: Group) -> _Places:
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
        lay(made.layout, np.flatnonzero(moves), inner).add(part, made.changed[:, suspects])
        changed[:, :, mine] = part
    own = made.layout.pole_volts[:, None, None, None]
    put = (at_poles(standing[..., None], size, own), at_poles(changed[..., None], touched, own))
    columns_of = np.concatenate([group.sets, np.tile([size, size + 1], (len(group.sets), 1))], axis=1).T
    return _Places(standing, changed, put, columns_of, np.argsort(group.sets, axis=1)[group.set_of].T)


@dataclass(frozen=True, slots=True, eq=False)
class _Run:
    """One run over all cuts: what is worked out once, and room used again, or the system would clear it anew."""

    made: Suspects
    places: dict[int, _Places]
    reuse: bool
    rooms: dict[str, Numbers] = field(default_factory=dict)

    def room(self, name: str, shape: tuple[int, ...]) -> Numbers:
        """Room of this name for numbers of this shape; what was there before goes."""
        size = int(np.prod(shape))
        if name not in self.rooms or len(self.rooms[name]) < size:
            self.rooms[name] = np.empty(size, dtype=self.made.base.dtype)
        return self.rooms[name][:size].reshape(shape)


def _follow(run: _Run, cut: Cut, mesh: Numbers, weights: Numbers) -> Iterator[Block]:
    """Make a cut, and all that follow from it."""
    before = mesh
    if len(cut.laying.rows):
        before = mesh.copy()
        cut.laying.add(before, run.made.base)
    eliminated = eliminate(before[cut.order[: len(mesh), None], cut.order], cut.gone)
    left = weights[:, cut.order[cut.gone :]]
    if cut.gone:
        # Last axis first and whole, or numpy multiplies without BLAS.
        means = np.ascontiguousarray(share_of_rest(eliminated).transpose(2, 1, 0))
        np.add(left, means @ weights[:, cut.order[: cut.gone]], out=left)
    if cut.parts:
        for part in cut.parts:
            yield from _follow(run, part, eliminated.rest, left)
    elif len(cut.groups) == 1:
        yield _within(run.made, cut, eliminated.rest, left)
    else:
        yield _between(run, cut, eliminated.rest, left)


def _within(made: Suspects, cut: Cut, mesh: Numbers, weights: Numbers) -> Block:
    """Pairs inside one group, single faults included: all its points stand for every pair."""
    (group,), free, columns = cut.groups, len(cut.points), made.base.shape[1]
    one, other = np.triu_indices(len(group.suspects))
    first, second = group.suspects[one], group.suspects[other]
    many = np.repeat(mesh[:, :, None], len(first), axis=2)
    laying = cut.first
    own = replace(laying, branches=np.searchsorted(group.branches, laying.branches))
    own.add(many, _of_both(made, group, first, second))
    scale = made.singles.pole_scale
    poles = np.where(first == second, scale[:, first], scale[:, first] * scale[:, second])
    held = made.layout.pole_volts[:, None] * poles
    found = share_of_rest(eliminate(at_poles(many, free, held[:, :, None]), free, 1))[:, 1]
    volts = np.ascontiguousarray(found.transpose(2, 1, 0)) @ weights[:, :free]
    volts += held.T @ weights[:, free:]
    base = np.repeat(np.arange(columns), len(first))
    return Block(base, np.tile(first, columns), np.tile(second, columns), volts.reshape(len(base), -1))


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


def _between(run: _Run, cut: Cut, mesh: Numbers, weights: Numbers) -> Block:
    """Every fault of one group with every fault of another."""
    made, (group, other) = run.made, cut.groups
    columns, many, rows = made.base.shape[1], len(group.suspects), weights.shape[2]
    held = _held(made, group)
    eliminated = eliminate(_with_each(made, cut, mesh, held), len(cut.points) - len(other.points), 1)
    mixed = _by_points_there(run, eliminated, weights, held)
    there = _volts_there(other, run.places[id(other)], eliminated.rest, held)
    shape = (columns, many, len(other.suspects), rows)
    volts = np.matmul(there, mixed, out=run.room("volts", shape)) if run.reuse else there @ mixed
    base = np.repeat(np.arange(columns), many * len(other.suspects))
    first = np.tile(np.repeat(group.suspects, len(other.suspects)), columns)
    second = np.tile(other.suspects, columns * many)
    return Block(base, first, second, volts.reshape(len(base), rows))


def _by_points_there(run: _Run, eliminated: Gone, weights: Numbers, held: Complex) -> Numbers:
    """The rows by what is left after `eliminated`, and by the poles as they stand, shape (C, n, K + 1, R)."""
    gone, (kept, _, columns, many) = len(eliminated.shares), eliminated.rest.shape
    means = share_of_rest(eliminated)
    passed = np.empty((columns, many, kept + 1, gone), dtype=weights.dtype)
    passed[:, :, :kept] = means[:, :kept].transpose(2, 3, 1, 0)
    passed[:, :, kept] = means[:, kept + 1].transpose(1, 2, 0)
    mixed = run.room("mixed", (columns, many * (kept + 1), weights.shape[2]))
    np.matmul(passed.reshape(columns, many * (kept + 1), gone), weights[:, :gone], out=mixed)
    mixed = mixed.reshape(columns, many, kept + 1, weights.shape[2])
    np.add(mixed[:, :, :kept], weights[:, None, gone : gone + kept], out=mixed[:, :, :kept])
    np.add(mixed[:, :, kept], held.T @ weights[:, gone + kept :], out=mixed[:, :, kept])
    return mixed


def _with_each(made: Suspects, cut: Cut, mesh: Numbers, held: Complex) -> Numbers:
    """The mesh with each fault of the first group in it, the poles put together, shape (f, f + 2, C, n)."""
    group, free = cut.groups[0], len(mesh)
    where = cut.first
    changed = made.changed[:, group.suspects].swapaxes(1, 2)
    put = at_poles(mesh[..., None], free, held[:, None])
    laid: Numbers = np.array(np.broadcast_to(put, (*put.shape[:3], len(group.suspects))))
    own = np.zeros((free, len(held), *changed.shape[1:]), dtype=mesh.dtype)
    values = np.add.reduceat(changed[where.branches], where.starts, axis=0) if len(where.rows) else changed[:0]
    inside = where.columns < free
    edges = (where.rows[inside], where.columns[inside])
    laid[edges] = laid[edges] + values[inside]
    own[where.rows[~inside], where.columns[~inside] - free] = values[~inside]
    np.add(laid[:, free:], at_poles(own, 0, held[:, None]), out=laid[:, free:])
    return laid


def _held(made: Suspects, group: Group) -> Complex:
    """Volts of the poles under each fault of a group, shape (P, n), or (P, 1) where none of them moves any."""
    scale = made.singles.pole_scale[:, group.suspects]
    return np.asarray(made.layout.pole_volts[:, None] * (scale if (scale != 1).any() else 1.0))


def _volts_there(group: Group, places: _Places, mesh: Numbers, held: Complex) -> Numbers:
    """Volts of a group's points under each of its faults, in each column of `mesh`, and a last 1.

    Args:
        group: Whose points are all that is left.
        places: Its branches.
        mesh: Shape (K, K + 2, C, n), poles put together.
        held: Volts of the poles, shape (P, n).

    Returns:
        Shape (C, n, faults, K + 1).
    """
    size, touched, many = len(group.points), group.touched, len(group.suspects)
    standing, changed = places.at(held)
    sets = mesh[group.sets.T[:, None], places.columns[None]]
    np.add(sets, standing, out=sets)
    outer = eliminate(sets, size - touched, 1)
    inner = outer.rest[:, :, group.set_of]
    np.add(inner, changed, out=inner)
    volts = share_of_rest(eliminate(inner, touched, 1))[:, 1]
    means = share_of_rest(outer)[:, :, group.set_of]
    rest = means[:, touched + 1] + (means[:, :touched] * volts).sum(axis=1)
    found = np.empty((*mesh.shape[2:], many, size + 1), dtype=mesh.dtype)
    found[..., size] = 1.0
    found[..., :size] = np.concatenate([rest, volts])[places.back, np.arange(many)].transpose(2, 3, 1, 0)
    return found


def _plain(made: Suspects, rows: Index) -> Iterator[Block]:
    """Pairs with a wide fault in them, column by column."""
    size = max(1, _PLAIN_COLUMNS // made.base.shape[1])
    narrow = np.setdiff1d(np.arange(made.singles.count), made.wide)
    for number, fault in enumerate(made.wide):
        others = np.concatenate([narrow, made.wide[number:]])
        for start in range(0, len(others), size):
            yield _one_by_one(made, rows, int(fault), others[start : start + size])


def _one_by_one(made: Suspects, rows: Index, fault: int, others: Index) -> Block:
    layout, columns = made.layout, made.base.shape[1]
    both = together(made.singles, np.full(len(others), fault), others)
    alone = made.singles.take(np.array([fault]))
    siemens = admittances(both, made.states, made.direct)
    siemens[:, others == fault] = admittances(alone, made.states, made.direct)
    scale = np.where(others == fault, alone.pole_scale, both.pole_scale)
    held = np.repeat(layout.pole_volts[:, None] * scale, columns, axis=1)
    reduced = reduce(layout.plan, layout.points, siemens.reshape(len(siemens), -1))
    base = np.tile(np.arange(columns), len(others))
    second = np.repeat(others, columns)
    return Block(base, np.full(len(base), fault), second, point_volts(reduced, held)[rows].T)

"""All pairs of many single faults, in many states at once: what is common to a group of pairs is eliminated once.

What may live here: the sharing out of the work. Shapes: C base columns, R rows (points or whatever is asked of them), K
points that a group of faults touches, P poles. For two groups g and h of faults all points are first eliminated that
neither touches, in the base columns only; then each fault of g is put in and g's own points go; then, for each set of
points that a fault of h touches, the rest of h; last, each pair has two points or so of its own. What was eliminated
is a weighted mean of what stays, and these weights are put together by matrix products. See docs/decisions/0012.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from halfsplit.circuit.cuts import Cut
from halfsplit.circuit.meshes import Gone, eliminate, share_of_rest
from halfsplit.circuit.neighbours import Group, Index
from halfsplit.circuit.putin import Places, There, held_by, leaves, places_of, put_in, two_of, with_each
from halfsplit.circuit.singles import Suspects, admittances, together
from halfsplit.circuit.starmesh import Numbers, point_volts, reduce

_PLAIN_COLUMNS = 1024
_PAIRS_WITHIN = 120


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
    run = _Run(made, {id(group): places_of(made, group) for group in made.groups}, reuse)
    for cut, mesh, weights in leaves(made, _Weights.of(made, wanted)):
        if len(cut.groups) == 1:
            yield from _within(made, cut, mesh, weights.by_points)
        else:
            yield _between(run, cut, mesh, weights.by_points)
    yield from _plain(made, wanted)


@dataclass(frozen=True, slots=True, eq=False)
class _Weights:
    """Rows as weighted means of the points that are left, poles last, shape (C, f + P, R)."""

    by_points: Numbers

    @classmethod
    def of(cls, made: Suspects, wanted: Index) -> _Weights:
        """The volts of single points."""
        poles, points = len(made.layout.pole_volts), len(made.layout.points)
        order = np.concatenate([np.arange(poles, points), np.arange(poles)])
        weights = np.zeros((made.base.shape[1], points, len(wanted)), dtype=made.base.dtype)
        weights[:] = order[:, None] == wanted
        return cls(weights)

    def after(self, cut: Cut, gone: Gone) -> _Weights:
        """See `Rows`."""
        left = self.by_points[:, cut.order[cut.gone :]]
        if cut.gone:
            # Last axis first and whole, or numpy multiplies without BLAS.
            means = np.ascontiguousarray(share_of_rest(gone).transpose(2, 1, 0))
            np.add(left, means @ self.by_points[:, cut.order[: cut.gone]], out=left)
        return _Weights(left)


@dataclass(frozen=True, slots=True, eq=False)
class _Run:
    """One run over all cuts: what is worked out once, and room used again, or the system would clear it anew."""

    made: Suspects
    places: dict[int, Places]
    reuse: bool
    rooms: dict[str, Numbers] = field(default_factory=dict)

    def room(self, name: str, shape: tuple[int, ...]) -> Numbers:
        """Room of this name for numbers of this shape; what was there before goes."""
        size = int(np.prod(shape))
        if name not in self.rooms or len(self.rooms[name]) < size:
            self.rooms[name] = np.empty(size, dtype=self.made.base.dtype)
        return self.rooms[name][:size].reshape(shape)


def _within(made: Suspects, cut: Cut, mesh: Numbers, weights: Numbers) -> Iterator[Block]:
    """Pairs inside one group, single faults included: all its points stand for every pair."""
    (group,), free, columns = cut.groups, len(cut.points), made.base.shape[1]
    one, other = np.triu_indices(len(group.suspects))
    for start in range(0, len(one), _PAIRS_WITHIN):
        some = slice(start, start + _PAIRS_WITHIN)
        first, second = group.suspects[one[some]], group.suspects[other[some]]
        put, held = two_of(made, cut, mesh, first, second)
        found = share_of_rest(eliminate(put, free, 1))[:, 1]
        volts = np.ascontiguousarray(found.transpose(2, 1, 0)) @ weights[:, :free]
        np.add(volts, held.T @ weights[:, free:], out=volts)
        at = np.repeat(np.arange(columns), len(first))
        yield Block(at, np.tile(first, columns), np.tile(second, columns), volts.reshape(len(at), weights.shape[2]))


def _between(run: _Run, cut: Cut, mesh: Numbers, weights: Numbers) -> Block:
    """Every fault of one group with every fault of another."""
    made, (group, other) = run.made, cut.groups
    columns, many, rows = made.base.shape[1], len(group.suspects), weights.shape[2]
    held = held_by(made, group)
    eliminated = eliminate(with_each(made, cut, mesh, held), len(cut.points) - len(other.points), 1)
    places = run.places[id(other)]
    there = _volts_there(other, places, put_in(other, places, eliminated.rest, held))
    shape = (columns, many, len(other.suspects), rows)
    volts = run.room("volts", shape) if run.reuse else np.empty(shape, dtype=there.dtype)
    passed = _by_points_there(eliminated)
    gone, kept = passed.shape[3], there.shape[3] - 1
    mixed = run.room("mixed", (many * (kept + 1), rows))
    by_place = mixed.reshape(many, kept + 1, rows)
    for base in range(columns):  # one after the other, so that what is between stays in the processor's cache
        own = weights[base]
        np.matmul(passed[base].reshape(len(mixed), gone), own[:gone], out=mixed)
        np.add(by_place[:, :kept], own[gone : gone + kept], out=by_place[:, :kept])
        np.add(by_place[:, kept], held.T @ own[gone + kept :], out=by_place[:, kept])
        np.matmul(there[base], by_place, out=volts[base])
    at = np.repeat(np.arange(columns), many * len(other.suspects))
    first = np.tile(np.repeat(group.suspects, len(other.suspects)), columns)
    second = np.tile(other.suspects, columns * many)
    return Block(at, first, second, volts.reshape(len(at), rows))


def _by_points_there(eliminated: Gone) -> Numbers:
    """What went, by what is left and by the poles as they stand, shape (C, n, K + 1, gone)."""
    gone, (kept, _, columns, many) = len(eliminated.shares), eliminated.rest.shape
    means = share_of_rest(eliminated)
    passed = np.empty((columns, many, kept + 1, gone), dtype=means.dtype)
    passed[:, :, :kept] = means[:, :kept].transpose(2, 3, 1, 0)
    passed[:, :, kept] = means[:, kept + 1].transpose(1, 2, 0)
    return passed


def _volts_there(group: Group, places: Places, there: There) -> Numbers:
    """Volts of a group's points under each of its faults, and a last 1, shape (C, n, faults, K + 1)."""
    size, touched, many = len(group.points), group.touched, len(group.suspects)
    volts = share_of_rest(there.inner)[:, 1]
    means = share_of_rest(there.outer)[:, :, group.set_of]
    rest = means[:, touched + 1] + (means[:, :touched] * volts).sum(axis=1)
    found = np.empty((*volts.shape[2:], many, size + 1), dtype=volts.dtype)
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

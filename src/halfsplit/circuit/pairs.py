"""All pairs of many single faults, in many states at once: what is common to a group of pairs is eliminated once.

What may live here: the sharing out of the work. Shapes: C base columns, R rows (points or whatever is asked of them), K
points that a group of faults touches, P poles. In two groups g and h of faults all points are first eliminated that
neither touches, in the base columns only; then each fault of g is put in and g's own points go; then, for each set of
points that a fault of h touches, the rest of h; last, each pair has two points or so of its own. What was eliminated
is a weighted mean of what stays, and these weights are put together by matrix products. See docs/decisions/0012.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.meshes import at_poles, eliminate, share_of_rest
from halfsplit.circuit.starmesh import Complex, Numbers, point_volts, reduce
from halfsplit.circuit.suspects import Group, Index, Suspects, admittances, together

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


def pair_volts(made: Suspects, rows: Index | None = None) -> Iterator[Block]:
    """Volts of every point under every pair of faults and every single one, block by block, each pair once.

    Args:
        made: The faults and the base columns, from `suspects`.
        rows: Numbers of the points wanted; all when None.

    Raises:
        CircuitError: A point floats.
    """
    wanted = np.arange(len(made.layout.points)) if rows is None else rows
    weights = np.zeros((made.states.shape[1], len(wanted), len(made.layout.points)))
    weights[:, np.arange(len(wanted)), wanted] = 1.0
    for node in _leaves(_root(made, weights.astype(made.base.dtype)), list(made.groups), list(made.groups)):
        yield from _within(node) if len(node.groups) == 1 else _between(node)
    yield from _plain(made, wanted)


@dataclass(frozen=True, slots=True)
class _Node:
    """What is left when all points are eliminated but those of some groups.

    Attributes:
        made: The faults.
        groups: Those groups; the admittances of what they touch are not in the mesh yet.
        points: The free points that are left, shape (f,).
        mesh: Shape (f, f + P, C).
        weights: The rows by the points that are left, poles last, shape (C, R, f + P).
    """

    made: Suspects
    groups: tuple[Group, ...]
    points: Index
    mesh: Numbers
    weights: Numbers


def _root(made: Suspects, weights: Numbers) -> _Node:
    """All points left, the groups' branches left out."""
    layout = made.layout
    poles, columns = len(layout.pole_volts), made.base.shape[1]
    points = np.arange(poles, len(layout.points))
    mesh = np.zeros((len(points), len(layout.points), columns), dtype=made.base.dtype)
    touched = np.concatenate([group.branches for group in made.groups] or [np.zeros(0, np.intp)])
    order = np.concatenate([points, np.arange(poles)])
    _lay(mesh, made, np.setdiff1d(np.arange(len(made.base)), touched), points, made.base)
    return _Node(made, made.groups, points, mesh, weights[:, :, order])


def _lay(
    mesh: Numbers, made: Suspects, branches: Index, points: Index, siemens: Mapping[int, Numbers] | Numbers
) -> None:
    """Add branches, of `siemens` by branch number, to a mesh of `points` and the poles."""
    layout = made.layout
    poles, free = len(layout.pole_volts), len(points)
    place = np.full(len(layout.points), -1)
    place[points] = np.arange(free)
    place[:poles] = free + np.arange(poles)
    for branch in branches:
        a, b = place[layout.a[branch]], place[layout.b[branch]]
        if a < free and a != b:
            mesh[a, b] += siemens[branch]
        if b < free and a != b:
            mesh[b, a] += siemens[branch]


def _leaves(node: _Node, first: list[Group], second: list[Group]) -> Iterator[_Node]:
    """Every group with itself and every two groups, each once; halves are eliminated together."""
    if first == second:
        if len(first) == 1:
            yield _only(node, first)
            return
        half = len(first) // 2
        for part in (first[:half], first[half:]):
            yield from _leaves(_only(node, part), part, part)
        yield from _leaves(node, first[:half], first[half:])
    elif len(first) == len(second) == 1:
        yield _only(node, first + second)
    else:
        long, short = (first, second) if len(first) >= len(second) else (second, first)
        half = len(long) // 2
        for part in (long[:half], long[half:]):
            mine = (part, short) if long is first else (short, part)
            yield from _leaves(_only(node, part + short), *mine)


def _only(node: _Node, groups: list[Group]) -> _Node:
    """Eliminate all but the points of `groups`."""
    made, stay = node.made, {id(group) for group in groups}
    kept = np.unique(np.concatenate([group.points for group in groups]))
    going = ~np.isin(node.points, kept)
    free, poles = len(node.points), len(made.layout.pole_volts)
    order = np.concatenate([np.flatnonzero(going), np.flatnonzero(~going)])
    mesh = node.mesh.copy()
    for group in node.groups:
        if id(group) not in stay:
            _lay(mesh, made, group.branches, node.points, made.base)
    with_poles = np.concatenate([order, free + np.arange(poles)])
    gone = int(going.sum())
    eliminated = eliminate(mesh[order][:, with_poles], gone)
    means = np.moveaxis(share_of_rest(eliminated), 2, 0)
    weights = node.weights[:, :, with_poles]
    mixed = weights[:, :, gone:] + weights[:, :, :gone] @ means
    return _Node(made, tuple(groups), node.points[order[gone:]], eliminated.rest, mixed)


def _within(node: _Node) -> Iterator[Block]:
    """Pairs inside one group, single faults included: all its points stand for every pair."""
    made, (group,) = node.made, node.groups
    columns, free = made.base.shape[1], len(node.points)
    one, other = np.triu_indices(len(group.suspects))
    first, second = group.suspects[one], group.suspects[other]
    siemens = _of_both(made, group, first, second)
    mesh = np.repeat(node.mesh[:, :, None], len(first), axis=2)
    _lay(mesh, made, group.branches, node.points, dict(zip(group.branches, siemens, strict=True)))
    scale = made.singles.pole_scale
    poles = np.where(first == second, scale[:, first], scale[:, first] * scale[:, second])
    held = made.layout.pole_volts[:, None] * poles
    found = share_of_rest(eliminate(at_poles(mesh, free, held[:, :, None]), free, 1))[:, 1]
    volts = np.moveaxis(found, 2, 0).swapaxes(1, 2) @ node.weights[:, :, :free].swapaxes(1, 2)
    volts += held.T @ node.weights[:, :, free:].swapaxes(1, 2)
    base = np.repeat(np.arange(columns), len(first))
    yield Block(base, np.tile(first, columns), np.tile(second, columns), volts.reshape(len(base), -1))


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


def _between(node: _Node) -> Iterator[Block]:
    """Every fault of one group with every fault of another."""
    made, (group, other) = node.made, node.groups
    own = np.setdiff1d(group.points, other.points)
    points = np.concatenate([own, other.points])
    gone, kept, free, poles = len(own), len(other.points), len(points), len(made.layout.pole_volts)
    order = np.array([int(np.flatnonzero(node.points == point)[0]) for point in points], dtype=np.intp)
    order = np.concatenate([order, free + np.arange(poles)])
    many, columns = len(group.suspects), made.base.shape[1]

    mesh = np.repeat(node.mesh[order[:free]][:, order][:, :, :, None], many, axis=3)
    changed = made.changed[:, group.suspects].swapaxes(1, 2)
    _lay(mesh, made, group.branches, points, changed)
    held = _held(made, group)
    eliminated = eliminate(at_poles(mesh, free, held[:, None]), gone, 1)
    means = np.delete(share_of_rest(eliminated), kept, axis=1)
    weights = node.weights[:, :, order].swapaxes(1, 2)
    passed = means.transpose(2, 3, 1, 0).reshape(columns, many * (kept + 1), gone)
    mixed = (passed @ weights[:, :gone]).reshape(columns, many, kept + 1, weights.shape[2])
    mixed[:, :, :kept] += weights[:, None, gone:free]
    mixed[:, :, kept] += held.T @ weights[:, free:]

    there = _volts_there(made, other, eliminated.rest, held)
    volts = there @ mixed
    base = np.repeat(np.arange(columns), many * len(other.suspects))
    first = np.tile(np.repeat(group.suspects, len(other.suspects)), columns)
    second = np.tile(other.suspects, columns * many)
    yield Block(base, first, second, volts.reshape(len(base), -1))


def _volts_there(made: Suspects, group: Group, mesh: Numbers, held: Complex) -> Numbers:
    """Volts of a group's points under each of its faults, in each column of `mesh`, and a last 1.

    Args:
        made: The faults.
        group: Whose points are all that is left.
        mesh: Shape (K, K + 2, C, n), poles put together.
        held: Volts of the poles, shape (P, n).

    Returns:
        Shape (C, n, faults, K + 1).
    """
    size, touched = len(group.points), group.touched
    rest = size - touched
    wide = np.concatenate([group.sets, np.tile([size, size + 1], (len(group.sets), 1))], axis=1)
    sets = mesh[group.sets.T[:, None], wide.T[None]] + _standing(made, group, held)
    outer = eliminate(sets, rest, 1)
    inner = outer.rest[:, :, group.set_of] + _changed(made, group, held)
    volts = share_of_rest(eliminate(inner, touched, 1))[:, 1]
    means = share_of_rest(outer)[:, :, group.set_of]
    columns, many = mesh.shape[2:]
    found = np.empty((columns, many, len(group.suspects), size + 1), dtype=mesh.dtype)
    found[..., size] = 1.0
    all_places = means[:, touched + 1] + (means[:, :touched] * volts).sum(axis=1)
    placed = np.concatenate([all_places, volts])
    back = np.argsort(group.sets, axis=1)[group.set_of].T
    found[..., :size] = placed[back, np.arange(len(group.suspects))].transpose(2, 3, 1, 0)
    return found


def _held(made: Suspects, group: Group) -> Complex:
    """Volts of the poles under each fault of a group, shape (P, n), or (P, 1) where none of them moves any."""
    scale = made.singles.pole_scale[:, group.suspects]
    return np.asarray(made.layout.pole_volts[:, None] * (scale if (scale != 1).any() else 1.0))


def _standing(made: Suspects, group: Group, held: Complex) -> Numbers:
    """What of a group's branches no fault of a set touches, in that set's order, shape (K, K + 2, sets, C, 1 or n)."""
    size, poles = len(group.points), len(made.layout.pole_volts)
    mesh = np.zeros((size, size + poles, len(group.sets), made.base.shape[1]), dtype=made.base.dtype)
    for number, order in enumerate(group.sets):
        its = np.asarray(made.touches[:, group.suspects[group.set_of == number]].any(axis=1))
        standing = group.branches[~its[group.branches]]
        _lay(mesh[:, :, number], made, standing, group.points[order], made.base)
    return at_poles(mesh[..., None], size, held[:, None, None])


def _changed(made: Suspects, group: Group, held: Complex) -> Numbers:
    """What each fault makes of the branches of its set, shape (c, c + 2, faults, C, 1 or n)."""
    touched, poles = group.touched, len(made.layout.pole_volts)
    mesh = np.zeros((touched, touched + poles, len(group.suspects), made.base.shape[1]), dtype=made.base.dtype)
    for number, order in enumerate(group.sets):
        mine = np.flatnonzero(group.set_of == number)
        its = np.flatnonzero(made.touches[:, group.suspects[mine]].any(axis=1))
        part = np.zeros_like(mesh[:, :, mine])
        _lay(part, made, its, group.points[order[len(order) - touched :]], made.changed[:, group.suspects[mine]])
        mesh[:, :, mine] = part
    return at_poles(mesh[..., None], touched, held[:, None, None])


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

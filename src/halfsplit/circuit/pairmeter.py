"""What meters show between many pairs of points under all pairs of faults: open-circuit volts and source impedance.

What may live here: the meter at scale. Shapes: R pairs of points, C base columns, K points that are left, M meters.

One ampere in at one probe and out at the other is passed on at each elimination, and the two halves cancel as soon as
they meet (see `starmesh`). At each point k, where i_k arrives and Y_k leaves, Z takes i_k² / Y_k; the open-circuit
volts take i_k times the volts that what is held would feed there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.columns import Real
from halfsplit.circuit.cuts import Cut
from halfsplit.circuit.meshes import Gone, eliminate, passed_on
from halfsplit.circuit.neighbours import Group, Index
from halfsplit.circuit.putin import Places, held_by, leaves, places_of, put_in, two_of, with_each
from halfsplit.circuit.singles import Suspects
from halfsplit.circuit.starmesh import Complex, Numbers

_AT_ONCE = 64
"""Columns worked on together: more leave the processor's cache."""


@dataclass(frozen=True, slots=True)
class Sources:
    """Each pair of points as a Thévenin source under some pairs of faults.

    Attributes:
        base: The base column of each, shape (m,).
        first: Number of one fault, shape (m,).
        second: Number of the other, shape (m,).
        volts: With nothing connected, shape (m, R).
        ohms: Source impedance, shape (m, R).
    """

    base: Index
    first: Index
    second: Index
    volts: Numbers
    ohms: Numbers

    def shown(self, meters: tuple[float, ...]) -> Real:
        """Volts that meters of these impedances, ohm, show, shape (M, m, R)."""
        square = np.square(self.volts.real) + np.square(self.volts.imag)
        real, reactive = self.ohms.real, np.square(self.ohms.imag)
        found = np.empty((len(meters), *square.shape))
        for number, meter in enumerate(meters):
            row = found[number]  # in place: these are the largest arrays of all
            np.square(np.add(real, meter, out=row), out=row)
            np.divide(square, np.add(row, reactive, out=row), out=row)
            np.multiply(np.sqrt(row, out=row), meter, out=row)
        return found


def pair_sources(made: Suspects, ends: Index) -> Iterator[Sources]:
    """Every pair of points as a source, under every pair of faults and every single one, a few columns at a time.

    Pairs with a fault that touches many points (`made.wide`) are left out.

    Args:
        made: The faults and the base columns, from `suspects`.
        ends: Numbers of the two points of each, shape (R, 2).

    Raises:
        CircuitError: A point floats.
    """
    places = {id(group): places_of(made, group) for group in made.groups}
    for cut, mesh, dipoles in leaves(made, _Dipoles.of(made, ends)):
        if len(cut.groups) == 1:
            yield from _within(made, cut, mesh, dipoles)
        else:
            yield from _between(made, cut, mesh, dipoles, places[id(cut.groups[1])])


@dataclass(frozen=True, slots=True, eq=False)
class _Passing:
    """What becomes of amps at all points of a mesh when its first points are eliminated, any columns in front.

    Attributes:
        matrix: From amps at all points to: amps that reached each eliminated point; amps at those that stay; and in a
            last row volts, from the poles put together; shape (…, f + 1, f).
        inverse: One over what leaves each eliminated point, shape (…, gone).
    """

    matrix: Numbers
    inverse: Numbers

    @classmethod
    def by(cls, gone: Gone) -> _Passing:
        """The passing of an elimination with poles put together."""
        count, kept = len(gone.shares), len(gone.rest)
        comes = np.moveaxis(passed_on(gone), (0, 1), (-2, -1))
        on = np.moveaxis(gone.shares[:, count:], (0, 1), (-1, -2))
        matrix = np.zeros((*comes.shape[:-2], count + kept + 1, count + kept), dtype=comes.dtype)
        matrix[..., :count, :count] = comes
        matrix[..., count:, :count] = np.delete(on, kept, axis=-2) @ comes
        stay = np.arange(count, count + kept)
        matrix[..., stay, stay] = 1.0
        return cls(matrix, np.moveaxis(gone.inverse, 0, -1))

    def ohms(self, reached: Numbers) -> Numbers:
        """What the eliminated points add to the impedance, for amps of shape (…, gone, R) that reached them."""
        return np.asarray((self.inverse[..., None, :] @ np.square(reached))[..., 0, :])


@dataclass(frozen=True, slots=True, eq=False)
class _Dipoles:
    """One ampere in and out for each pair of points: at the points that are left, and the impedance so far, (C, R)."""

    amps: Numbers
    ohms: Numbers

    @classmethod
    def of(cls, made: Suspects, ends: Index) -> _Dipoles:
        """Nothing passed on yet, shape (C, f + P, R)."""
        poles, points, columns = len(made.layout.pole_volts), len(made.layout.points), made.base.shape[1]
        order = np.concatenate([np.arange(poles, points), np.arange(poles)])[:, None]
        one = (order == ends[:, 0]).astype(made.base.dtype) - (order == ends[:, 1])
        return cls(np.repeat(one[None], columns, axis=0), np.zeros((columns, len(ends)), dtype=made.base.dtype))

    def after(self, cut: Cut, gone: Gone) -> _Dipoles:
        """See `Rows`."""
        left = self.amps[:, cut.order[cut.gone :]]
        if not cut.gone:
            return _Dipoles(left, self.ohms)
        comes = np.ascontiguousarray(passed_on(gone).transpose(2, 0, 1))
        here = comes @ self.amps[:, cut.order[: cut.gone]]
        on = np.ascontiguousarray(gone.shares[:, cut.gone :].transpose(2, 1, 0))
        return _Dipoles(left + on @ here, self.ohms + (gone.inverse.T[:, None] @ np.square(here))[:, 0])

    def volts(self, base: int, free: int, held: Complex) -> Numbers:
        """What the poles make of amps that have come to them, shape (n or 1, R)."""
        return np.asarray(held.T @ self.amps[base, free:])


def _between(made: Suspects, cut: Cut, mesh: Numbers, dipoles: _Dipoles, places: Places) -> Iterator[Sources]:
    """Every fault of one group with every fault of another."""
    group, other = cut.groups
    held, free, many = held_by(made, group), len(cut.points), len(group.suspects)
    gone = eliminate(with_each(made, cut, mesh, held), free - len(other.points), 1)
    there = put_in(other, places, gone.rest, held)
    first, outer = _Passing.by(gone), _Passing.by(there.outer)
    sets = np.empty_like(outer.matrix)
    for number, order in enumerate(other.sets):
        sets[number][..., order] = outer.matrix[number]  # by the group's own order of points
    count = len(gone.shares)
    step = max(1, _AT_ONCE // len(other.suspects))
    for base in range(mesh.shape[2]):
        held_volts = np.broadcast_to(dipoles.volts(base, free, held), (many, dipoles.amps.shape[2]))
        for start in range(0, many, step):
            some = slice(start, start + step)
            amps = first.matrix[base, some] @ dipoles.amps[base, :free]
            ohms = dipoles.ohms[base] + _Passing(amps, first.inverse[base, some]).ohms(amps[:, :count])
            volts = held_volts[some] + amps[:, free]
            left = _Passing(sets[:, base, some], outer.inverse[:, base, some])
            found = _at_sets(left, amps[:, count:free], other)
            yield _at_faults(other, there.inner, found, (volts, ohms), (group.suspects[some], base, some))


def _at_sets(left: _Passing, amps: Numbers, group: Group) -> tuple[Numbers, Numbers, Numbers]:
    """At each set of points, (sets, n, …): amps at its own points (c, R); volts and ohms on the way there (R)."""
    count = len(group.points) - group.touched
    reached = left.matrix @ amps
    return reached[:, :, count:-1], reached[:, :, -1], left.ohms(reached[:, :, :count])


def _at_faults(
    group: Group,
    inner: Gone,
    found: tuple[Numbers, Numbers, Numbers],
    before: tuple[Numbers, Numbers],
    which: tuple[Index, int, slice],
) -> Sources:
    """Each fault put in at its own set of points."""
    at_set, set_volts, set_ohms = found
    first, base, some = which
    set_of, touched = group.set_of, group.touched
    volts = (before[0] + set_volts)[set_of]
    ohms = (before[1] + set_ohms)[set_of]
    amps = [at_set[:, :, k][set_of] for k in range(touched)]
    room = np.empty_like(volts)
    for k, here in enumerate(amps):
        share = inner.shares[k, :, :, base, some, None]
        volts += np.multiply(here, share[touched + 1], out=room)
        for other in range(k + 1, touched):
            amps[other] += np.multiply(here, share[other], out=room)
        np.multiply(here, here, out=here)
        ohms += np.multiply(here, inner.inverse[k, :, base, some, None], out=here)
    faults, many, rows = volts.shape
    return Sources(
        np.full(faults * many, base),
        np.tile(first, faults),
        np.repeat(group.suspects, many),
        volts.reshape(faults * many, rows),
        ohms.reshape(faults * many, rows),
    )


def _within(made: Suspects, cut: Cut, mesh: Numbers, dipoles: _Dipoles) -> Iterator[Sources]:
    """Pairs inside one group, single faults included."""
    (group,), columns = cut.groups, made.base.shape[1]
    one, other = np.triu_indices(len(group.suspects))
    first, second = group.suspects[one], group.suspects[other]
    put, held = two_of(made, cut, mesh, first, second)
    through = _Passing.by(eliminate(put, len(mesh), 1))
    free = len(mesh)
    for base in range(columns):
        held_volts = dipoles.volts(base, free, held)
        for start in range(0, len(first), _AT_ONCE):
            some = slice(start, start + _AT_ONCE)
            amps = through.matrix[some, base] @ dipoles.amps[base, :free]
            ohms = dipoles.ohms[base] + _Passing(amps, through.inverse[some, base]).ohms(amps[:, :free])
            at = np.full(len(amps), base)
            yield Sources(at, first[some], second[some], held_volts[some] + amps[:, free], ohms)

"""What meters show between many pairs of points under all pairs of faults: open-circuit volts and source impedance.

What may live here: the meter at scale. Shapes: R pairs of points, C base columns, K points that are left, M meters.

One ampere in at one probe and out at the other is passed on at each elimination, and the two halves cancel as soon as
they meet (see `starmesh`). At each point k, where i_k arrives and Y_k leaves, Z takes i_k² / Y_k; the open-circuit
volts take i_k times the volts that what is held would feed there.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.columns import Real
from halfsplit.circuit.cuts import Cut
from halfsplit.circuit.meshes import Gone, eliminate, passed_on
from halfsplit.circuit.neighbours import Index
from halfsplit.circuit.putin import There, held_by, leaves, places_of, put_in, two_of, with_each
from halfsplit.circuit.singles import Suspects
from halfsplit.circuit.starmesh import Complex, Numbers

_AT_ONCE = 32
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
            continue
        group, other = cut.groups
        held = held_by(made, group)
        gone = eliminate(with_each(made, cut, mesh, held), len(cut.points) - len(other.points), 1)
        there = put_in(other, places[id(other)], gone.rest, held)
        columns, many = gone.rest.shape[2:]
        base, fault = np.divmod(np.arange(columns * many), many)
        for start in range(0, columns * many, _AT_ONCE):
            some = slice(start, start + _AT_ONCE)
            arrived = dipoles.put(_columns(gone, some), base[some], held, fault[some])
            for number in range(len(other.sets)):
                mine = np.flatnonzero(other.set_of == number)
                volts, ohms = _at_set(arrived, there, other.sets[number], number, mine, some)
                yield Sources(
                    np.repeat(base[some], len(mine)),
                    np.repeat(group.suspects[fault[some]], len(mine)),
                    np.tile(other.suspects[mine], len(base[some])),
                    volts.reshape(-1, len(ends)),
                    ohms.reshape(-1, len(ends)),
                )


@dataclass(frozen=True, slots=True, eq=False)
class _Arrived:
    """What has been passed on to the points that are left.

    Attributes:
        amps: At each, shape (columns, K, R).
        volts: Volts so far, shape (columns, R).
        ohms: Impedance so far, shape (columns, R).
    """

    amps: Numbers
    volts: Numbers
    ohms: Numbers

    def passed(self, gone: Gone) -> _Arrived:
        """Passed on through points, the first ones of `amps`, in as many columns (poles put together)."""
        count, kept = len(gone.shares), gone.rest.shape[0]
        if not count:
            return self
        comes = np.ascontiguousarray(passed_on(gone).transpose(2, 0, 1))
        here = comes @ self.amps[:, :count]
        on = np.ascontiguousarray(gone.shares[:, count:].transpose(2, 1, 0))
        amps = on[:, :kept] @ here + self.amps[:, count:]
        volts = self.volts + (on[:, kept + 1 :] @ here)[:, 0]
        ohms = self.ohms + (gone.inverse.T[:, None] @ np.square(here))[:, 0]
        return _Arrived(amps, volts, ohms)


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

    def put(self, gone: Gone, base: Index, held: Complex, fault: Index) -> _Arrived:
        """In columns of faults, passed on through points of the first group."""
        free = len(gone.shares) + len(gone.rest)
        volts = held.T[np.minimum(fault, held.shape[1] - 1)][:, None] @ self.amps[base, free:]
        return _Arrived(self.amps[base, :free], volts[:, 0], self.ohms[base]).passed(gone)


def _columns(gone: Gone, some: slice) -> Gone:
    """Some of the columns (C, n), laid in one row."""
    return Gone(_laid(gone.shares, 2)[..., some], _laid(gone.inverse, 1)[..., some], _laid(gone.rest, 2)[..., some])


def _laid(array: Numbers, kept: int) -> Numbers:
    """All axes but the first `kept` laid in one."""
    return array.reshape(*array.shape[:kept], math.prod(array.shape[kept:]))


def _at_set(
    arrived: _Arrived, there: There, order: Index, number: int, mine: Index, some: slice
) -> tuple[Numbers, Numbers]:
    """Volts and ohms under each fault of one set of points, shape (columns, faults, R) both."""
    outer, inner = there.outer, there.inner
    at = _columns(Gone(outer.shares[:, :, number], outer.inverse[:, number], outer.rest[:, :, number]), some)
    left = _Arrived(arrived.amps[:, order], arrived.volts, arrived.ohms).passed(at)
    shares = _laid(inner.shares[:, :, mine], 3)[..., some]
    inverse = _laid(inner.inverse[:, mine], 2)[..., some]
    touched = len(inverse)
    amps = [left.amps[:, None, k] for k in range(touched)]
    volts, ohms = left.volts[:, None], left.ohms[:, None]
    for k in range(touched):
        here = amps[k]
        ohms = ohms + np.square(here) * inverse[k].T[:, :, None]
        volts = volts + here * shares[k, touched + 1].T[:, :, None]
        for other in range(k + 1, touched):
            amps[other] = amps[other] + here * shares[k, other].T[:, :, None]
    return volts, ohms


def _within(made: Suspects, cut: Cut, mesh: Numbers, dipoles: _Dipoles) -> Iterator[Sources]:
    """Pairs inside one group, single faults included."""
    (group,), columns = cut.groups, made.base.shape[1]
    one, other = np.triu_indices(len(group.suspects))
    first, second = group.suspects[one], group.suspects[other]
    put, held = two_of(made, cut, mesh, first, second)
    gone = eliminate(put, len(mesh), 1)
    pair, base = np.divmod(np.arange(len(first) * columns), columns)
    for start in range(0, len(pair), _AT_ONCE):
        some = slice(start, start + _AT_ONCE)
        found = dipoles.put(_columns(gone, some), base[some], held, pair[some])
        yield Sources(base[some], first[pair[some]], second[pair[some]], found.volts, found.ohms)

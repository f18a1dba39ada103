"""What a solve found: volts of every point, and what a quantity does over one cycle of the mains.

What may live here: reading a solution. Shapes: N points, B branches, S columns.

Where nothing conducts one way only, one phasor and one steady (direct) value tell all. With a diode the two halves of
the cycle are two networks: each half then has a phasor and a steady value of its own. Within a half a quantity is
√2 Re(turn · X) sin θ + D, taken as in phase with the voltage that drives the diode (exact where all is resistive), so
its mean over that half is D ± (2√2/π) Re(turn · X) and its mean square |X|² + D² ± 2 D (2√2/π) Re(turn · X).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.columns import Indices, Layout, Real
from halfsplit.circuit.starmesh import Complex, Numbers

_MEAN_OF_A_HALF = 2.0 * math.sqrt(2.0) / math.pi
"""Mean of √2 sin over half a cycle: what 1 V RMS is worth to a meter that averages."""

Values = TypeVar("Values", bound=NDArray[Any])


@dataclass(frozen=True, slots=True)
class Part:
    """A quantity in one half of the cycle, or (`sign` 0) in the whole of it."""

    sign: int
    phasor: Complex
    steady: Real

    @property
    def mean(self) -> Real:
        """Mean over this part of the cycle."""
        return np.asarray(self.steady + self.sign * _MEAN_OF_A_HALF * self.phasor.real)

    def mean_product(self, other: Part) -> Real:
        """Mean of this quantity times another one over this part of the cycle."""
        steady = self.steady * other.steady
        crossed = self.steady * other.phasor.real + other.steady * self.phasor.real
        return np.asarray((self.phasor * other.phasor.conj()).real + steady + self.sign * _MEAN_OF_A_HALF * crossed)


@dataclass(frozen=True, slots=True)
class Wave:
    """A quantity over one cycle: one part, or one for each half."""

    parts: tuple[Part, ...]

    @property
    def mean(self) -> Real:
        """What a meter set to direct current shows, with its sign."""
        return np.asarray(sum(part.mean for part in self.parts) / len(self.parts))

    @property
    def rms(self) -> Real:
        """True RMS, direct current included (AC+DC)."""
        return np.sqrt(self._mean_square())

    @property
    def ac(self) -> Real:
        """True RMS of what is left when the mean is taken away (AC-coupled)."""
        if len(self.parts) == 1:
            return np.asarray(np.abs(self.parts[0].phasor))
        return np.sqrt(np.maximum(self._mean_square() - self.mean**2, 0.0))

    def _mean_square(self) -> Real:
        return np.asarray(sum(part.mean_product(part) for part in self.parts) / len(self.parts))

    def plus(self, other: Wave) -> Wave:
        """The sum of two quantities."""
        both = zip(self.parts, other.parts, strict=True)
        return Wave(tuple(Part(a.sign, a.phasor + b.phasor, np.asarray(a.steady + b.steady)) for a, b in both))

    def mean_product(self, other: Wave) -> Real:
        """Mean of the product of two quantities: watts from volts and amps."""
        both = [mine.mean_product(theirs) for mine, theirs in zip(self.parts, other.parts, strict=True)]
        return np.asarray(sum(both) / len(both))


@dataclass(frozen=True, slots=True)
class Half:
    """The network solved for one half of the cycle, or for the whole of it.

    Attributes:
        sign: 1 and -1 for the halves, 0 for the whole.
        volts: Phasors of every point, shape (N, S).
        admittance: Of every branch, shape (B, S).
        steady: Direct volts of every point, shape (N, S); None where the network has no direct source.
        conductance: For direct current, shape (B, S); None likewise.
    """

    sign: int
    volts: Numbers
    admittance: Numbers
    steady: Real | None = None
    conductance: Real | None = None


@dataclass(frozen=True, slots=True)
class Solution:
    """One solve of every column.

    Attributes:
        layout: The network's shape.
        halves: One for the whole cycle, or both.
        turn: What brings the driving voltage of each column's diodes to phase 0, shape (S,).
    """

    layout: Layout
    halves: tuple[Half, ...]
    turn: Complex

    @property
    def volts(self) -> Numbers:
        """Phasors of every point, shape (N, S): of the whole cycle, or of its first half."""
        return self.halves[0].volts

    @property
    def admittance(self) -> Numbers:
        """Admittance of every branch, shape (B, S): over the whole cycle, or in its first half."""
        return self.halves[0].admittance

    def with_columns(self, which: Indices, part: Solution) -> Solution:
        """The same solution with the columns numbered `which` taken from `part`."""
        turn = self.turn.copy()
        turn[which] = part.turn
        halves = (_with_columns(mine, which, theirs) for mine, theirs in zip(self.halves, part.halves, strict=True))
        return Solution(self.layout, tuple(halves), turn)

    def across(self, branch: str) -> Complex:
        """Volts across a branch, a against b, shape (S,): a phasor of the whole cycle, or of its first half."""
        index = self.layout.branch_index[branch]
        return np.asarray(self.volts[self.layout.a[index]] - self.volts[self.layout.b[index]])

    def through(self, branch: str) -> Complex:
        """Amps through a branch from a to b, shape (S,): a phasor of the whole cycle, or of its first half."""
        return np.asarray(self.across(branch) * self.admittance[self.layout.branch_index[branch]])

    def volts_across(self, branch: str) -> Wave:
        """Volts across a branch, a against b, shape (S,)."""
        index = self.layout.branch_index[branch]
        return self.volts_between(self.layout.a[[index]], self.layout.b[[index]], row=0)

    def amps_through(self, branch: str) -> Wave:
        """Amps through a branch from a to b, shape (S,)."""
        index = self.layout.branch_index[branch]
        a, b = self.layout.a[index], self.layout.b[index]
        return self._wave(
            lambda half: (half.volts[a] - half.volts[b]) * half.admittance[index],
            lambda steady, conductance: (steady[a] - steady[b]) * conductance[index],
        )

    def watts(self, branch: str) -> Real:
        """Power that a branch takes, shape (S,)."""
        return self.volts_across(branch).mean_product(self.amps_through(branch))

    def volts_between(self, first: Indices, second: Indices, row: int | None = None) -> Wave:
        """Volts of the points numbered `first` against `second`, shape (pairs, S); with `row` only that one, (S,)."""
        pick = slice(None) if row is None else row
        return self._wave(
            lambda half: (half.volts[first] - half.volts[second])[pick],
            lambda steady, _: (steady[first] - steady[second])[pick],
        )

    def rms_volts(self) -> Real:
        """True RMS volts of every point against the reference, shape (N, S)."""
        return self._wave(lambda half: half.volts, lambda steady, _: steady).rms

    def _wave(self, phasor: Callable[[Half], Numbers], steady: Callable[[Real, Real], Real]) -> Wave:
        parts = []
        for half in self.halves:
            swing = np.asarray(phasor(half) * self.turn if half.sign else phasor(half), dtype=np.complex128)
            still = np.zeros(swing.shape)
            if half.steady is not None and half.conductance is not None:
                still = steady(half.steady, half.conductance)
            parts.append(Part(half.sign, swing, still))
        return Wave(tuple(parts))


def _with_columns(mine: Half, which: Indices, theirs: Half) -> Half:
    volts, admittance = _mixed(mine.volts, which, theirs.volts), _mixed(mine.admittance, which, theirs.admittance)
    mixed = replace(mine, volts=volts, admittance=admittance)
    if mine.steady is None or mine.conductance is None or theirs.steady is None or theirs.conductance is None:
        return mixed
    steady, conductance = (
        _mixed(mine.steady, which, theirs.steady),
        _mixed(mine.conductance, which, theirs.conductance),
    )
    return replace(mixed, steady=steady, conductance=conductance)


def _mixed(mine: Values, which: Indices, theirs: Values) -> Values:
    both = mine.copy()
    both[:, which] = theirs
    return both

"""Nodal analysis of the plainest kind: the reference that star-mesh elimination is compared with.

Two of them. `dense_volts` is numpy on all variants abreast, quick, and wrong where admittances lie far apart, because
the diagonal sums swallow the small ones. `exact_volts` is Gaussian elimination on decimals of 90 digits, of which
more than 50 survive any network here; it is slow, and for a few variants only.

Y v = i with the poles' rows struck out (any textbook of circuits). A complex system of n unknowns is solved as the
real one of 2n: [[G, -B], [B, G]] [Re v, Im v] = [Re i, Im i].
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from decimal import Context, Decimal, localcontext

import numpy as np
from numpy.typing import NDArray

from tests.oracle.plain import Conductor

Complex = NDArray[np.complex128]
Big = tuple[Decimal, Decimal]
"""Real and imaginary part."""

DIGITS = 90
PI = Decimal("3.1415926535897932384626433832795028841971693993751058209749445923078164062862089986280348253421")


def dense_volts(
    points: Sequence[str], variants: Sequence[Sequence[Conductor]], poles: Sequence[Mapping[str, complex]], hertz: float
) -> Complex:
    """Volts of every point, shape (N, S), of each variant with its own pole volts."""
    matrices = np.stack([_matrix(points, variant, hertz) for variant in variants])
    held = [row for row, point in enumerate(points) if point in poles[0]]
    free = [row for row, point in enumerate(points) if point not in poles[0]]
    volts = np.zeros((len(variants), len(points)), dtype=np.complex128)
    volts[:, held] = [[pole[points[row]] for row in held] for pole in poles]
    currents = -np.einsum("sij,sj->si", matrices[:, free][:, :, held], volts[:, held])
    volts[:, free] = np.linalg.solve(matrices[:, free][:, :, free], currents[:, :, None])[:, :, 0]
    return volts.T


def _matrix(points: Sequence[str], variant: Sequence[Conductor], hertz: float) -> Complex:
    matrix = np.zeros((len(points), len(points)), dtype=np.complex128)
    omega = 2.0 * np.pi * hertz
    for one in variant:
        siemens = 1.0 / (one.ohm + 1j * omega * one.henry) + 1j * omega * one.farad
        a, b = points.index(one.a), points.index(one.b)
        matrix[a, a] += siemens
        matrix[b, b] += siemens
        matrix[a, b] -= siemens
        matrix[b, a] -= siemens
    return matrix


def exact_volts(
    points: Sequence[str], variant: Sequence[Conductor], poles: Mapping[str, complex], hertz: float
) -> dict[str, Big]:
    """Volts of every point to more than 50 digits."""
    free = _fewest_first([point for point in points if point not in poles], variant)
    with localcontext(Context(prec=DIGITS)):
        held = {point: (Decimal(volts.real), Decimal(volts.imag)) for point, volts in poles.items()}
        currents = dict.fromkeys(free, (Decimal(0), Decimal(0)))
        for one in variant:
            siemens = exact_siemens(one, hertz)
            for here, there in ((one.a, one.b), (one.b, one.a)):
                if here in currents and there in held:
                    currents[here] = _plus(currents[here], _times(siemens, held[there]))
        return held | _solve(_exact_rows(free, variant, hertz), free, currents)


def exact_ohms(
    points: Sequence[str], variant: Sequence[Conductor], poles: Sequence[str], pair: tuple[str, str]
) -> Decimal:
    """Direct-current resistance between two points with the poles at 0 V, to more than 50 digits."""
    free = _fewest_first([point for point in points if point not in poles], variant)
    with localcontext(Context(prec=DIGITS)):
        currents = dict.fromkeys(free, (Decimal(0), Decimal(0)))
        for point, ampere in zip(pair, (1, -1), strict=True):
            if point in currents:
                currents[point] = _plus(currents[point], (Decimal(ampere), Decimal(0)))
        nothing = (Decimal(0), Decimal(0))
        volts = _solve(_exact_rows(free, variant, 0.0), free, currents)
        return volts.get(pair[0], nothing)[0] - volts.get(pair[1], nothing)[0]


def exact_siemens(one: Conductor, hertz: float) -> Big:
    """1/(R + jωL) + jωC."""
    omega = 2 * PI * Decimal(hertz)
    ohm, reactance = Decimal(one.ohm), omega * Decimal(one.henry)
    square = ohm * ohm + reactance * reactance
    return ohm / square, omega * Decimal(one.farad) - reactance / square


def _plus(a: Big, b: Big) -> Big:
    return a[0] + b[0], a[1] + b[1]


def _times(a: Big, b: Big) -> Big:
    return a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]


def _fewest_first(free: Sequence[str], variant: Sequence[Conductor]) -> list[str]:
    """Points with few conductors first: it keeps the elimination sparse and changes nothing else."""
    ends = Counter(end for one in variant for end in (one.a, one.b))
    return sorted(free, key=lambda point: ends[point])


def _exact_rows(free: Sequence[str], variant: Sequence[Conductor], hertz: float) -> list[list[Decimal]]:
    """The real matrix of 2n, row by row."""
    place, size = {point: row for row, point in enumerate(free)}, len(free)
    rows = [[Decimal(0)] * (2 * size) for _ in range(2 * size)]
    for one in variant:
        conductance, susceptance = exact_siemens(one, hertz)
        ends = [place[point] for point in (one.a, one.b) if point in place]
        for row in ends:
            for column in ends:
                sign = 1 if row == column else -1
                rows[row][column] += sign * conductance
                rows[row + size][column + size] += sign * conductance
                rows[row][column + size] -= sign * susceptance
                rows[row + size][column] += sign * susceptance
    return rows


def _solve(rows: list[list[Decimal]], free: Sequence[str], currents: Mapping[str, Big]) -> dict[str, Big]:
    """Gaussian elimination with the largest pivot of each column; zeros are passed over."""
    size = len(free)
    right = [currents[point][0] for point in free] + [currents[point][1] for point in free]
    table = [[*row, value] for row, value in zip(rows, right, strict=True)]
    for pivot in range(2 * size):
        best = max(range(pivot, 2 * size), key=lambda row: abs(table[row][pivot]))
        table[pivot], table[best] = table[best], table[pivot]
        used = [column for column in range(pivot, 2 * size + 1) if table[pivot][column]]
        for row in range(pivot + 1, 2 * size):
            if table[row][pivot]:
                share = table[row][pivot] / table[pivot][pivot]
                for column in used:
                    table[row][column] -= share * table[pivot][column]
    volts = [Decimal(0)] * (2 * size)
    for row in reversed(range(2 * size)):
        known = sum((table[row][column] * volts[column] for column in range(row + 1, 2 * size)), Decimal(0))
        volts[row] = (table[row][-1] - known) / table[row][row]
    return {point: (volts[row], volts[row + size]) for row, point in enumerate(free)}

"""Columns of two faults each, solved together where many of them stand alike, and one by one where few do.

What may live here: sorting columns by how they stand. Shapes: V variables, m columns, R points asked for.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.columns import UNPINNED, Columns, Positions
from halfsplit.circuit.neighbours import Index
from halfsplit.circuit.pairs import pair_volts
from halfsplit.circuit.singles import Suspects, suspects, together
from halfsplit.circuit.solve import conducting
from halfsplit.circuit.starmesh import Complex, point_volts, reduce

_MANY = 0.15
"""From this share of all pairs on, columns that stand alike are solved as pairs; below it one by one is quicker."""
_CHUNK = 1024


@dataclass(frozen=True, slots=True)
class PairColumns:
    """Two faults in each column, or one (when both numbers are the same).

    Attributes:
        like: The single faults, grouped.
        first: Number of one, shape (m,).
        second: Number of the other, shape (m,).
        apart: Columns of one pair that may stand alike have different numbers here, shape (m,).
    """

    like: Suspects
    first: Index
    second: Index
    apart: Index

    @property
    def singles(self) -> Columns:
        """The single faults, one column each."""
        return self.like.singles

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.first)

    @property
    def pinned(self) -> Positions:
        """Where faults pin variables, shape (V, m); the second wins."""
        one, other = self.singles.pinned[:, self.first], self.singles.pinned[:, self.second]
        return np.where(other == UNPINNED, one, other)

    def take(self, which: Index) -> PairColumns:
        """Only the columns with these numbers, in this order."""
        return PairColumns(self.like, self.first[which], self.second[which], self.apart[which])

    def admittance(self, branch: int, state: Positions) -> Complex:
        """Admittance of one branch in every column, siemens, shape (m,)."""
        made, it = self.singles, self.singles.layout.network.branches[branch]
        alone = self.first == self.second
        forced = [row[branch][self.first] | row[branch][self.second] for row in (made.forced_open, made.forced_closed)]
        added = made.added_ohm[branch][self.first] + np.where(alone, 0.0, made.added_ohm[branch][self.second])
        scale = made.branch_scale[branch][self.first] * np.where(alone, 1.0, made.branch_scale[branch][self.second])
        omega = 2.0 * np.pi * made.layout.network.hertz
        siemens = 1.0 / ((it.ohm + 1j * omega * it.henry) * scale + added) + 1j * omega * it.farad / scale
        conducts = (made.layout.holds(it.condition, state) | forced[1]) & ~forced[0]
        return np.asarray(np.where(conducts, siemens, 0.0))

    def columns(self) -> Columns:
        """As arrays of every branch."""
        made, single = self.singles, self.first == self.second
        both, alone = together(made, self.first, self.second), made.take(self.first)
        return Columns(
            made.layout,
            both.forced_open,
            both.forced_closed,
            np.where(single, alone.added_ohm, both.added_ohm),
            np.where(single, alone.branch_scale, both.branch_scale),
            both.pinned,
            np.where(single, alone.pole_scale, both.pole_scale),
            both.source_scale,
        )


def volts_of(columns: PairColumns, state: Positions, points: Index) -> Complex:
    """Volts of some points in every column as it stands, shape (m, R).

    Raises:
        CircuitError: A point floats, or the network is not plain.
    """
    faults = columns.singles.count
    found = np.empty((columns.count, len(points)), dtype=np.complex128)
    stands = _but_for_pins(columns, state)
    kinds, kind, counts = np.unique(_numbered(columns, stands), return_inverse=True, return_counts=True)
    many = np.flatnonzero(counts > _MANY * faults * (faults + 1) / 2)
    if len(many):
        place = np.full(len(kinds), -1)
        place[many] = np.arange(len(many))
        alike = np.flatnonzero(place[kind] >= 0)
        column_of = np.full((len(many), faults, faults), -1)
        column_of[place[kind[alike]], columns.first[alike], columns.second[alike]] = alike
        column_of[place[kind[alike]], columns.second[alike], columns.first[alike]] = alike
        example = stands[:, [int((kind == one).argmax()) for one in many]]
        for block in pair_volts(suspects(columns.singles, example, like=columns.like), points, reuse=True):
            at = column_of[block.base, block.first, block.second]
            found[at[at >= 0]] = block.volts[at >= 0]
    rest = np.flatnonzero(np.isin(kind, many, invert=True))
    for start in range(0, len(rest), _CHUNK):
        which = rest[start : start + _CHUNK]
        found[which] = _one_by_one(columns.take(which), state[:, which], points)
    return found


def _but_for_pins(columns: PairColumns, state: Positions) -> Positions:
    """How columns stand but for what faults pin, which stands as in most columns of its setup, shape (V, m)."""
    pinned = columns.pinned != UNPINNED
    stands = state.copy()
    for row in np.flatnonzero(pinned.any(axis=1)):
        for apart in np.unique(columns.apart):
            mine = columns.apart == apart
            stands[row, mine & pinned[row]] = np.bincount(state[row, mine]).argmax()
    return stands


def _numbered(columns: PairColumns, stands: Positions) -> Index:
    """One number for each way to stand, setups apart, shape (m,)."""
    number = columns.apart.astype(np.int64)
    for row, positions in zip(stands, columns.singles.layout.positions.values(), strict=True):
        number = number * len(positions) + row
    return number


def _one_by_one(columns: PairColumns, state: Positions, points: Index) -> Complex:
    made, layout = columns.columns(), columns.singles.layout
    siemens = np.where(conducting(made, state), layout.admittance(made.branch_scale, made.added_ohm), 0.0)
    reduced = reduce(layout.plan, layout.points, siemens)
    return np.asarray(point_volts(reduced, layout.pole_volts[:, None] * made.pole_scale)[points].T)

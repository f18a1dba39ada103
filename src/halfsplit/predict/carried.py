"""Near a threshold both contact states are carried, each with its weight.

Whether a relay pulls in, a motor starts or a breaker trips is decided by a voltage or a current. Where that lies within
its spread of the limit, nobody can say which way it goes: supply voltage and what the part was made to decide. Such a
column is settled again with the supply two deviations lower and higher, and where its contacts end otherwise, that end
stands beside the first one. The supply at which it first changes over is found by trying two dozen in between, and the
weight is the share of supplies beyond.

Raising the supply by a share does to a decision what lowering its limit by as much does, so one deviation here is that
of the supply and of the part together. Columns in which no decision was that near end the same way and are left alone.
Shapes: S suspects, K columns, of which the first S are the suspects as they stand at the nominal supply.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit import Settled, Step, replay, solve, take_step
from halfsplit.trade import SERVICE_A

Real = NDArray[np.float64]
Indices = NDArray[np.intp]
Positions = NDArray[np.int8]

SUPPLY_SPREAD = (120.0 - SERVICE_A.least) / 120.0 / 2.0
"""One standard deviation of supply voltage: ANSI C84.1 range A, 114 to 126 V, taken as two deviations."""
_LIMIT_SPREAD = 0.04
"""One standard deviation of what a coil pulls in at, a rotor starts at, a breaker trips at (from memory, no source)."""
_DECIDING_SPREAD = float(np.hypot(SUPPLY_SPREAD, _LIMIT_SPREAD))
_EDGE = 2.0 * _DECIDING_SPREAD
_SUPPLIES = 24
"""How many supplies are tried on each side where something changes over: they are solved abreast."""
_LOGISTIC = 1.702


@dataclass(frozen=True, slots=True)
class Carried:
    """Where every suspect's machine came to rest, and where it might have come to rest as well.

    Attributes:
        settled: All K columns; what chatters is numbered likewise.
        owner: Which suspect each column belongs to, shape (K,).
        weight: How likely that suspect's machine stands so, shape (K,); those of one suspect add up to one.
    """

    settled: Settled
    owner: Indices
    weight: Real

    @property
    def suspects(self) -> int:
        """S."""
        return int(self.owner.max(initial=-1)) + 1

    def mixed(self, values: Real) -> Real:
        """Values of every column, shape (…, K), as those of every suspect, shape (…, S)."""
        if len(self.owner) == self.suspects:
            return values
        found = np.zeros((*values.shape[:-1], self.suspects))
        for column, (owner, weight) in enumerate(zip(self.owner, self.weight, strict=True)):
            found[..., owner] += weight * values[..., column]
        return found

    def regrouped(self, owner: Indices, weight: Real) -> Carried:
        """The same columns with these suspects taken as ways in which others may be: of which, and how likely."""
        return Carried(self.settled, owner[self.owner], weight[self.owner] * self.weight)

    def of(self, suspect: int) -> Indices:
        """The columns of one suspect, the likeliest first."""
        columns = np.flatnonzero(self.owner == suspect)
        return np.asarray(columns[np.argsort(-self.weight[columns], kind="stable")])

    def moved(self, column: int) -> tuple[str, ...]:
        """What stands otherwise in a column than in its suspect's first one, by name of the variable."""
        state, names = self.settled.state, self.settled.columns.layout.variable_index
        first = int(self.owner[column])
        return tuple(name for name, row in names.items() if state[row, column] != state[row, first])


def carry(path: tuple[Settled, ...], steps: tuple[Step, ...]) -> Carried:
    """A settled machine with the other ends of those columns in which something was decided by a hair.

    Args:
        path: The machine at rest, and after each of the steps.
        steps: The steps.
    """
    settled = path[-1]
    count = settled.columns.count
    near = np.flatnonzero(_margin(settled) < _EDGE)
    near = near[~np.isin(near, [*settled.chatters])]
    if not len(near):
        return Carried(settled, np.arange(count), np.ones(count))
    decided = [at for at, after in enumerate(path) if (_margin(after)[near] < _EDGE).any()]
    others, state, weight = _other_ends(_Replay(path, steps, min(decided)), near)
    weights = np.concatenate([np.ones(count), weight])
    np.subtract.at(weights, others, weight)
    owner = np.concatenate([np.arange(count), others])
    if len(others):
        made, state = settled.columns.take(owner), np.concatenate([settled.state, state], axis=1)
        settled = Settled(made, state, solve(made, state), settled.chatters)
    return Carried(settled, owner, weights)


def _margin(settled: Settled) -> Real:
    return np.full(settled.columns.count, np.inf) if settled.margin is None else settled.margin


@dataclass(frozen=True, slots=True)
class _Replay:
    """The steps from the first on in which anything was decided by a hair; before it every supply ends alike."""

    path: tuple[Settled, ...]
    steps: tuple[Step, ...]
    first: int

    def state_at(self, columns: Indices, raised: Real) -> Positions:
        """Where columns come to rest with the supply of each raised by its share, shape (V, columns)."""
        made = self.path[-1].columns.take(columns)
        made = replace(made, pole_scale=made.pole_scale * (1.0 + raised))
        if self.first == 0:
            return replay(made, self.steps).state
        before = self.path[self.first - 1]
        now = Settled(made, before.state[:, columns], before.solution, {})
        for step in self.steps[self.first - 1 :]:
            now = take_step(now, step)
        return now.state


def _other_ends(again: _Replay, near: Indices) -> tuple[Indices, Positions, Real]:
    """Columns that end otherwise with the supply lower or higher, how they stand then, and how likely that is."""
    nominal = again.path[-1].state
    columns, sign = np.tile(near, 2), np.repeat([-1.0, 1.0], len(near))
    other = (again.state_at(columns, sign * _EDGE) != nominal[:, columns]).any(axis=0)
    columns, sign = columns[other], sign[other]
    if not len(columns):
        return columns, nominal[:, columns], np.zeros(0)
    shares = np.linspace(0.0, _EDGE, _SUPPLIES + 1)[1:]
    there = again.state_at(np.repeat(columns, _SUPPLIES), np.outer(sign, shares).ravel())
    there = there.reshape(len(there), len(columns), _SUPPLIES)
    first = (there != nominal[:, columns, None]).any(axis=0).argmax(axis=1)
    deviations = (shares[first] - 0.5 * shares[0]) / _DECIDING_SPREAD
    return columns, there[:, np.arange(len(columns)), first], 1.0 / (1.0 + np.exp(_LOGISTIC * deviations))

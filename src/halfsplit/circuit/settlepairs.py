"""Settling of all pairs of many single faults in many setups: the same order of events as `settle`, at scale.

What may live here: the order of events for pairs. Shapes: V variables, T setups, n pairs (a fault with itself is the
single fault), m columns, a pair in a setup each.

After the first look most pairs stand as a sound machine would, so most columns stand alike and are solved together;
after that only those are solved again in which something moved. Only points that some drive watches are worked out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.alike import PairColumns, volts_of
from halfsplit.circuit.columns import UNPINNED, Columns, Layout, Positions, Real
from halfsplit.circuit.neighbours import Index
from halfsplit.circuit.network import Step, Threshold
from halfsplit.circuit.settle import first_to_move
from halfsplit.circuit.singles import Suspects, suspects
from halfsplit.circuit.starmesh import Complex
from halfsplit.errors import CircuitError

Chatters = dict[tuple[int, int], tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class SettledPairs:
    """Where every pair came to rest in every setup.

    Attributes:
        like: The single faults, grouped.
        first: Number of one fault of each pair, shape (n,).
        second: Number of the other, shape (n,).
        state: Position of every variable, shape (V, T, n).
        chatters: By (setup, pair), the drives that went round and round; see `Settled`.
    """

    like: Suspects
    first: Index
    second: Index
    state: Positions
    chatters: Chatters

    def volts(self, points: Index, setups: Sequence[int] | None = None) -> Complex:
        """Volts of the points with these numbers under every pair, shape (setups, n, points)."""
        state = self.state if setups is None else self.state[:, list(setups)]
        found = volts_of(_columns(self.like, self.first, self.second, state), _flat(state), points)
        return found.reshape(*state.shape[1:], len(points))


def settle_pairs(singles: Columns, setups: Sequence[tuple[Step, ...]]) -> SettledPairs:
    """Replay the steps of every setup under every pair of faults, from rest; setups that begin alike go there together.

    Args:
        singles: The faults, one column each.
        setups: The steps of each.

    Raises:
        CircuitError: A step names no setting or position, a point floats, or the network is not plain.
    """
    layout = singles.layout
    first, second = np.triu_indices(singles.count)
    like = suspects(singles, layout.start(1))
    rest, chatters = _settle(like, first, second, layout.start(len(first))[:, None])
    stands: dict[tuple[Step, ...], tuple[Positions, Chatters]] = {(): (rest[:, 0], chatters)}
    for number in range(1, 1 + max(map(len, setups), default=0)):
        begun = list(dict.fromkeys(steps[:number] for steps in setups if number <= len(steps)))
        state = np.stack([_stepped(layout, stands[steps[:-1]][0], steps[-1]) for steps in begun], axis=1)
        state, chatters = _settle(like, first, second, state)
        for place, steps in enumerate(begun):
            mine = {(0, pair): names for (at, pair), names in chatters.items() if at == place}
            stands[steps] = state[:, place], _both(stands[steps[:-1]][1], mine)
    ended = np.stack([stands[steps][0] for steps in setups], axis=1)
    told = {(at, pair): names for at, steps in enumerate(setups) for (_, pair), names in stands[steps][1].items()}
    return SettledPairs(like, first, second, ended, told)


def _both(before: Chatters, now: Chatters) -> Chatters:
    """What chattered in an earlier step or in this one."""
    return {
        key: tuple(dict.fromkeys((*before.get(key, ()), *now.get(key, ())))) for key in dict.fromkeys((*before, *now))
    }


def _stepped(layout: Layout, state: Positions, step: Step) -> Positions:
    """The state after a person's step, before anything follows from it."""
    variable, position = step
    moved = state.copy()
    at = _position(layout, variable, position)
    moved[layout.variable_index[variable]] = at
    return moved


def _position(layout: Layout, variable: str, position: str) -> int:
    positions = layout.network.variables.get(variable)
    if positions is None or position not in positions:
        raise CircuitError(f"There is no setting {variable!r} with a position {position!r}.")
    return positions.index(position)


def _columns(like: Suspects, first: Index, second: Index, state: Positions) -> PairColumns:
    """Every pair in every setup of `state`, shape (V, T, n), side by side."""
    setups = state.shape[1]
    apart = np.repeat(np.arange(setups), len(first))
    return PairColumns(like, np.tile(first, setups), np.tile(second, setups), apart)


def _flat(state: Positions) -> Positions:
    return state.reshape(len(state), state.shape[1] * state.shape[2])


def _settle(like: Suspects, first: Index, second: Index, began: Positions) -> tuple[Positions, Chatters]:
    """Switch the quickest, solve again where something moved, and so on; a column that goes round stops there."""
    layout = like.layout
    columns = _columns(like, first, second, began)
    pinned = columns.pinned
    state = np.where(pinned == UNPINNED, _flat(began), pinned)
    rows = np.array([layout.variable_index[drive.name] for drive in layout.network.drives], dtype=np.intp)
    watch = np.arange(columns.count)  # the only ones that may still move
    chatters: Chatters = {}
    seen = np.zeros((0, len(rows), columns.count), dtype=np.int8)
    while rows.size and watch.size:
        some = columns.take(watch)
        moving, _ = first_to_move(layout, pinned[:, watch], state[:, watch], _Watched(some, state[:, watch]).rms)
        moves = moving.any(axis=0)
        watch, moving, seen = watch[moves], moving[:, moves], seen[:, :, moves]
        before = state[np.ix_(rows, watch)]
        seen = np.concatenate([seen, before[None]])
        now = np.where(moving, 1 - before, before)
        state[np.ix_(rows, watch)] = now
        again = (seen == now).all(axis=1)
        back = again.any(axis=0)
        for column in np.flatnonzero(back):
            since = seen[again[:, column].argmax() :, :, column]
            went = (since != now[:, column]).any(axis=0)
            names = tuple(layout.network.drives[drive].name for drive in np.flatnonzero(went))
            chatters[divmod(int(watch[column]), len(first))] = names
        watch, seen = watch[~back], seen[:, :, ~back]
    return state.reshape(began.shape), chatters


@dataclass(slots=True)
class _Watched:
    """What thresholds see in some columns."""

    columns: PairColumns
    state: Positions
    _volts: Complex | None = None

    def rms(self, threshold: Threshold) -> Real:
        """Volts or amps that a threshold watches, shape (m,)."""
        layout = self.columns.singles.layout
        points = self._points(layout)
        if self._volts is None:
            self._volts = volts_of(self.columns, self.state, points)
        place = {int(point): row for row, point in enumerate(points)}
        total = np.zeros(self.columns.count, dtype=np.complex128)
        for name in (threshold.branch, *threshold.beside):
            branch = layout.branch_index[name]
            seen = self._volts[:, place[int(layout.a[branch])]] - self._volts[:, place[int(layout.b[branch])]]
            total += seen if threshold.quantity == "volts" else seen * self.columns.admittance(branch, self.state)
        return np.abs(total)

    def _points(self, layout: Layout) -> Index:
        thresholds = [it for drive in layout.network.drives for them in (*drive.on, drive.hold or ()) for it in them]
        names = {name for it in thresholds for name in (it.branch, *it.beside)}
        rows = [layout.branch_index[name] for name in sorted(names)]
        return np.unique(np.concatenate([layout.a[rows], layout.b[rows]]))

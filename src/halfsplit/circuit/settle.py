"""Settling: replay what the person does, and after each step let the machine switch until nothing more moves.

What may live here: the order of events. Quick things move before slow ones (a rotor starts before its overload trips
before a breaker warms up); a state that comes back while nothing else changed is chattering, and is named.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np

from halfsplit.circuit.columns import UNPINNED, Columns, Layout, Mask, Positions, Real
from halfsplit.circuit.network import Drive, Step, Threshold
from halfsplit.circuit.solution import Solution
from halfsplit.circuit.solve import solve
from halfsplit.errors import CircuitError

_NEXT_TO_NOTHING = 1e-12


@dataclass(frozen=True, slots=True)
class Settled:
    """Where every column came to rest.

    Attributes:
        columns: What was replayed.
        state: Position of every variable, shape (V, S).
        solution: The live solution in that state.
        chatters: By column, the drives that went round and round in the last step or an earlier one. Such a column
            stands at an arbitrary point of its round, and so does whatever was done to it afterwards.
        margin: The least share, shape (S,), by which a quantity that decided anything in these steps would have had to
            be larger or smaller for another decision; infinity where nothing was decided. Where it is wide, another
            supply voltage changes what is read, but not which contacts are closed.
    """

    columns: Columns
    state: Positions
    solution: Solution
    chatters: dict[int, tuple[str, ...]]
    margin: Real | None = None


def at_rest(made: Columns) -> Settled:
    """The defined start: every setting at its first position, everything that switches at "no"."""
    state = made.layout.start(made.count)
    return _settle(made, _with_pins(made, state), {}, np.full(made.count, np.inf))


def take_step(settled: Settled, step: Step) -> Settled:
    """Do one step and settle again.

    Raises:
        CircuitError: The network has no such setting or position.
    """
    variable, position = step
    layout = settled.columns.layout
    positions = layout.network.variables.get(variable)
    if positions is None or position not in positions:
        raise CircuitError(f"There is no setting {variable!r} with a position {position!r}.")
    state = settled.state.copy()
    state[layout.variable_index[variable]] = positions.index(position)
    margin = np.full(state.shape[1], np.inf) if settled.margin is None else settled.margin
    return _settle(settled.columns, _with_pins(settled.columns, state), settled.chatters, margin)


def replay(made: Columns, steps: tuple[Step, ...]) -> Settled:
    """Start at rest and take every step in turn."""
    settled = at_rest(made)
    for step in steps:
        settled = take_step(settled, step)
    return settled


def _with_pins(made: Columns, state: Positions) -> Positions:
    return np.where(made.pinned == UNPINNED, state, made.pinned)


def _settle(made: Columns, state: Positions, chattered: dict[int, tuple[str, ...]], margin: Real) -> Settled:
    """Switch the quickest, solve again where something moved, and so on; a column that goes round stops there."""
    rows = [made.layout.variable_index[drive.name] for drive in made.layout.network.drives]
    solution = solve(made, state)
    chatters = dict(chattered)
    frozen = np.zeros(made.count, dtype=bool)
    seen: list[Positions] = []
    while True:
        moving, near = first_to_move(made.layout, made.pinned, state, partial(_rms, solution))
        moving &= ~frozen
        margin = np.minimum(margin, near)
        moved = np.flatnonzero(moving.any(axis=0))
        if not len(moved):
            return Settled(made, state, solution, chatters, margin)
        seen.append(state[rows])
        state = state.copy()
        state[rows] = np.where(moving, 1 - state[rows], state[rows])
        for column in moved[_was_seen(seen, state[rows])[moved]]:
            frozen[column] = True
            names = _movers(made, [positions[:, column] for positions in seen], state[rows, column])
            chatters[int(column)] = tuple(dict.fromkeys((*chatters.get(int(column), ()), *names)))
        solution = solution.with_columns(moved, solve(made.take(moved), state[:, moved]))


def _was_seen(seen: list[Positions], now: Positions) -> Mask:
    """In which columns all drives stand as they once stood in this step, shape (S,)."""
    return np.asarray(np.any([(old == now).all(axis=0) for old in seen], axis=0))


def _movers(made: Columns, seen: list[Positions], now: Positions) -> tuple[str, ...]:
    """Names of the drives that moved since one column last stood as `now` (the rest of its past is no part of it)."""
    start = next(index for index, old in enumerate(seen) if (old == now).all())
    moves = (np.stack(seen[start:]) != now).any(axis=0)
    return tuple(drive.name for drive, moved in zip(made.layout.network.drives, moves, strict=True) if moved)


def _rms(solution: Solution, threshold: Threshold) -> Real:
    """What a threshold watches, shape (S,)."""
    look = solution.volts_across if threshold.quantity == "volts" else solution.amps_through
    wave = look(threshold.branch)
    for name in threshold.beside:
        wave = wave.plus(look(name))
    return wave.rms


def first_to_move(
    layout: Layout, pinned: Positions, state: Positions, rms: Callable[[Threshold], Real]
) -> tuple[Mask, Real]:
    """Which drives switch next, only the quickest of each column, shape (drives, S); by how little it was so, (S,).

    Args:
        layout: The network's shape.
        pinned: Where faults pin variables, shape (V, S).
        state: Where all variables stand, shape (V, S).
        rms: What a threshold watches, in every column, shape (S,).
    """
    drives, count = layout.network.drives, state.shape[1]
    if not drives:
        return np.zeros((0, count), dtype=bool), np.full(count, np.inf)
    decided = [_wants_to_move(drive, layout, pinned, state, rms) for drive in drives]
    pending = np.stack([wants for wants, _ in decided])
    delay = np.where(pending, np.array([[drive.delay_s] for drive in drives]), np.inf)
    return np.asarray(pending & (delay == delay.min(axis=0))), np.min([near for _, near in decided], axis=0)


def _wants_to_move(
    drive: Drive, layout: Layout, pinned: Positions, state: Positions, rms: Callable[[Threshold], Real]
) -> tuple[Mask, Real]:
    """Where a drive wants to move, and how near that decision was (infinity where no threshold could change it)."""
    count = state.shape[1]
    row = layout.variable_index[drive.name]
    is_on = state[row] == 1
    may_go = layout.holds(drive.condition, state)
    goes = np.max([_sureness(thresholds, count, rms) for thresholds in drive.on], axis=0)
    stays, may_stay = np.full(count, np.inf), np.ones(count, dtype=bool)
    if drive.hold is not None:
        stays, may_stay = _sureness(drive.hold, count, rms), layout.holds(drive.hold_condition, state)
    free = pinned[row] == UNPINNED
    wants = np.where(is_on, ~((stays > 0) & may_stay), (goes > 0) & may_go) & free
    near = np.where(free & np.where(is_on, may_stay, may_go), np.abs(np.where(is_on, stays, goes)), np.inf)
    return np.asarray(wants), near


def _sureness(thresholds: tuple[Threshold, ...], count: int, rms: Callable[[Threshold], Real]) -> Real:
    """Above zero where all thresholds hold: how far, as a share, what decides is from its limit, shape (S,)."""
    least = np.full(count, np.inf)
    for threshold in thresholds:
        value = rms(threshold)
        holds = (value >= threshold.at_least) == threshold.above
        away = np.abs(value - threshold.at_least) / np.maximum(value, threshold.at_least)
        least = np.minimum(least, np.where(holds, 1.0, -1.0) * np.maximum(away, _NEXT_TO_NOTHING))
    return least

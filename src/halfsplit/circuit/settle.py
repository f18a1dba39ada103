"""Settling: replay what the person does, and after each step let the machine switch until nothing more moves.

What may live here: the order of events. Quick things move before slow ones (a rotor starts before its overload trips
before a breaker warms up); a state that comes back while nothing else changed is chattering, and is named.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.columns import UNPINNED, Columns, Mask, Positions
from halfsplit.circuit.network import Drive, Step, Threshold
from halfsplit.circuit.solution import Solution
from halfsplit.circuit.solve import solve
from halfsplit.errors import CircuitError


@dataclass(frozen=True, slots=True)
class Settled:
    """Where every column came to rest.

    Attributes:
        columns: What was replayed.
        state: Position of every variable, shape (V, S).
        solution: The live solution in that state.
        chatters: By column, the drives that went round and round in the last step or an earlier one. Such a column
            stands at an arbitrary point of its round, and so does whatever was done to it afterwards.
    """

    columns: Columns
    state: Positions
    solution: Solution
    chatters: dict[int, tuple[str, ...]]


def at_rest(made: Columns) -> Settled:
    """The defined start: every setting at its first position, everything that switches at "no"."""
    state = made.layout.start(made.count)
    return _settle(made, _with_pins(made, state), {})


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
    return _settle(settled.columns, _with_pins(settled.columns, state), settled.chatters)


def replay(made: Columns, steps: tuple[Step, ...]) -> Settled:
    """Start at rest and take every step in turn."""
    settled = at_rest(made)
    for step in steps:
        settled = take_step(settled, step)
    return settled


def _with_pins(made: Columns, state: Positions) -> Positions:
    return np.where(made.pinned == UNPINNED, state, made.pinned)


def _settle(made: Columns, state: Positions, chattered: dict[int, tuple[str, ...]]) -> Settled:
    """Switch the quickest, solve again where something moved, and so on; a column that goes round stops there."""
    rows = [made.layout.variable_index[drive.name] for drive in made.layout.network.drives]
    solution = solve(made, state)
    chatters = dict(chattered)
    frozen = np.zeros(made.count, dtype=bool)
    seen: list[Positions] = []
    while True:
        moving = _first_to_move(made, state, solution) & ~frozen
        moved = np.flatnonzero(moving.any(axis=0))
        if not len(moved):
            return Settled(made, state, solution, chatters)
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


def _first_to_move(made: Columns, state: Positions, solution: Solution) -> Mask:
    """Which drives switch next, shape (drives, S): only the quickest of each column."""
    layout = made.layout
    drives = layout.network.drives
    if not drives:
        return np.zeros((0, made.count), dtype=bool)
    pending = np.stack([_wants_to_move(drive, made, state, solution) for drive in drives])
    delay = np.where(pending, np.array([[drive.delay_s] for drive in drives]), np.inf)
    return np.asarray(pending & (delay == delay.min(axis=0)))


def _wants_to_move(drive: Drive, made: Columns, state: Positions, solution: Solution) -> Mask:
    row = made.layout.variable_index[drive.name]
    is_on = state[row] == 1
    goes_on = made.layout.holds(drive.condition, state)
    goes_on &= np.any([_all(thresholds, solution, made.count) for thresholds in drive.on], axis=0)
    stays_on = np.ones(made.count, dtype=bool)
    if drive.hold is not None:
        stays_on = _all(drive.hold, solution, made.count) & made.layout.holds(drive.hold_condition, state)
    free = made.pinned[row] == UNPINNED
    return np.asarray(np.where(is_on, ~stays_on, goes_on) & free)


def _all(thresholds: tuple[Threshold, ...], solution: Solution, count: int) -> Mask:
    holds = np.ones(count, dtype=bool)
    for threshold in thresholds:
        look = solution.volts_across if threshold.quantity == "volts" else solution.amps_through
        wave = look(threshold.branch)
        for name in threshold.beside:
            wave = wave.plus(look(name))
        holds &= (wave.rms >= threshold.at_least) == threshold.above
    return holds

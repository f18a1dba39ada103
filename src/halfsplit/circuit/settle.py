"""Settling: replay what the person does, and after each step let the machine switch until nothing more moves.

What may live here: the order of events. Quick things move before slow ones (a rotor starts before its overload trips
before a breaker warms up); a state that comes back while nothing else changed is chattering, and is named.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.columns import UNPINNED, Columns, Mask, Positions, Solution, solve
from halfsplit.circuit.network import Drive, Step, Threshold
from halfsplit.errors import CircuitError


@dataclass(frozen=True, slots=True)
class Settled:
    """Where every column came to rest: its state (V, S), the live solution, and what chatters by column."""

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
    return _settle(settled.columns, _with_pins(settled.columns, state), dict(settled.chatters))


def replay(made: Columns, steps: tuple[Step, ...]) -> Settled:
    """Start at rest and take every step in turn."""
    settled = at_rest(made)
    for step in steps:
        settled = take_step(settled, step)
    return settled


def _with_pins(made: Columns, state: Positions) -> Positions:
    return np.where(made.pinned == UNPINNED, state, made.pinned)


def _settle(made: Columns, state: Positions, chatters: dict[int, tuple[str, ...]]) -> Settled:
    drives = made.layout.network.drives
    seen: list[Positions] = []
    frozen = np.zeros(made.count, dtype=bool)
    while True:
        solution = solve(made, state)
        moving = _first_to_move(made, state, solution) & ~frozen
        if not moving.any():
            return Settled(made, state, solution, chatters)
        rows = [made.layout.variable_index[drive.name] for drive in drives]
        seen.append(state[rows])
        state = state.copy()
        state[rows] = np.where(moving, 1 - state[rows], state[rows])
        back = np.any([(old == state[rows]).all(axis=0) for old in seen], axis=0) & moving.any(axis=0)
        for column in np.flatnonzero(back):
            chatters[int(column)] = tuple(drive.name for drive, moves in zip(drives, moving[:, column], strict=True) if moves)
        frozen |= back


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
    stays_on = np.ones(made.count, dtype=bool) if drive.hold is None else _all(drive.hold, solution, made.count)
    free = made.pinned[row] == UNPINNED
    return np.asarray(np.where(is_on, ~stays_on, goes_on) & free)


def _all(thresholds: tuple[Threshold, ...], solution: Solution, count: int) -> Mask:
    holds = np.ones(count, dtype=bool)
    for threshold in thresholds:
        value = solution.across(threshold.branch) if threshold.quantity == "volts" else solution.through(threshold.branch)
        holds &= np.abs(value) >= threshold.at_least
    return holds

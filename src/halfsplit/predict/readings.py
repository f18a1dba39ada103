"""What a meter would read under each suspect, and how far it may stray.

The spread is first-order propagation (JCGM 100, GUM, 5.1.2): one deviation of supply, of each part made to a
tolerance, and of the meter, added as squares. For dead ohms all tolerances go up together, which bounds them (Rayleigh:
raising any resistance raises every reading).

A fault that adds ohms (a bad joint, a drifted heater) stands for all around it: within a factor of 1.6 in two of three.

A ghost (volts of a point that hangs on stray capacitance; a low-impedance meter shows little of it) depends on how the
harness lies, which no sheet tells: its spread is at least half of it and 20 V (common practice, from memory).

Meter accuracy: 1 % + 0.3 V, 1 % + 0.3 Ω (leads included), 2 % + 0.1 A (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit import (
    HIGH_IMPEDANCE_OHM,
    LOW_IMPEDANCE_OHM,
    Columns,
    Settled,
    read_amps,
    read_ohms,
    read_volts_loaded,
    solve,
)
from halfsplit.errors import InputError
from halfsplit.predict.predictor import SUPPLY_SPREAD, Predictor, Real
from halfsplit.predict.untouchable import refuse_untouchable
from halfsplit.trade import Mode, Setup

AS_GOOD_AS_OPEN_OHM = 5e6
"""Above this an ohms reading is damp, dust or fingers: it is taken as open (common practice, no source)."""
_ACCURACY = {"volts": (0.01, 0.3), "low-z": (0.01, 0.3), "ohms": (0.01, 0.3), "amps": (0.02, 0.1)}
_LIVE_VOLTS = 2.0
_DEGREE_TIMES = 10.0**0.2
"""One deviation of the ohms that a fault adds: degrees of a joint, ten times apart, still part and leave no gap."""
_CHATTER_SHARE, _CHATTER_FLOOR = 0.5, 60.0
_GHOST_SHARE, _GHOST_FLOOR = 0.5, 20.0
_LEFT_OF_A_GHOST = 0.1
"""A low-impedance meter shows less than this share of a ghost."""

Pairs = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Expected:
    """Readings of several pairs under every suspect: mean and standard deviation, shape (pairs, S).

    A mean of infinity is OL. Volts, ohms or amps by mode.
    """

    mean: Real
    spread: Real


def expected(predictor: Predictor, pairs: Pairs, mode: Mode, setup: Setup) -> Expected:
    """Readings of `pairs` in a setup.

    Raises:
        InputError: Ohms on a live machine, anything but dead ohms at a point for those only, or amps between points
            with no single wire or part between them.
    """
    if predictor.machine.dead_only:
        refuse_untouchable(predictor.machine, pairs, mode, dead=is_dead(predictor, setup))
    missing = tuple(pair for pair in dict.fromkeys(pairs) if not predictor.has((pair, mode, setup.steps)))
    found: dict[tuple[str, str], tuple[Real, Real]] = {}
    if missing:
        worked = _work(predictor, missing, mode, setup)
        found = {pair: (worked.mean[row], worked.spread[row]) for row, pair in enumerate(missing)}
    rows = [predictor.kept((pair, mode, setup.steps), partial(found.__getitem__, pair)) for pair in pairs]
    return Expected(np.stack([mean for mean, _ in rows]), np.stack([spread for _, spread in rows]))


def _work(predictor: Predictor, pairs: Pairs, mode: Mode, setup: Setup) -> Expected:
    if mode == "ohms":
        refuse_live_ohms(predictor, pairs, setup)
        return _ohms(predictor, pairs, setup)
    settled = predictor.settled(setup)
    blocks = [settled, *_deviations(predictor, settled)]
    if mode == "amps":
        branches = tuple(branch_between(predictor, pair) for pair in pairs)
        values = np.stack([read_amps(block, branches) for block in blocks])
    else:
        meter = HIGH_IMPEDANCE_OHM if mode == "volts" else LOW_IMPEDANCE_OHM
        values = read_volts_loaded(settled, tuple(block.solution for block in blocks), pairs, meter)
    deviation = np.sqrt(((values[1:] - values[0]) ** 2).sum(axis=0))
    if mode == "volts":
        deviation = np.where(
            _ghosts(settled, pairs, values[0]), np.hypot(_GHOST_SHARE * values[0], _GHOST_FLOOR), deviation
        )
    return _with_meter(Expected(values[0], deviation), mode, settled)


def ghosts(predictor: Predictor, pair: tuple[str, str], setup: Setup) -> NDArray[np.bool_]:
    """Under which suspects volts between two points are a ghost, shape (S,)."""
    volts = expected(predictor, (pair,), "volts", setup).mean
    return np.asarray(_ghosts(predictor.settled(setup), (pair,), volts)[0])


def _ghosts(settled: Settled, pairs: Pairs, volts: Real) -> NDArray[np.bool_]:
    """Which readings are ghosts, shape (pairs, S)."""
    loaded = read_volts_loaded(settled, (settled.solution,), pairs, LOW_IMPEDANCE_OHM)[0]
    return np.asarray((volts > _LIVE_VOLTS) & (loaded < _LEFT_OF_A_GHOST * volts))


def refuse_live_ohms(predictor: Predictor, pairs: Pairs, setup: Setup) -> None:
    """Ohms are for a dead machine.

    Raises:
        InputError: A sound machine has voltage at one of the points.
    """
    live = live_points(predictor, setup)
    for point in (point for pair in pairs for point in pair):
        if point in live:
            raise InputError(
                f"{point} is live when it is {setup.says}: ohms there would harm the meter or you.",
                "Read ohms in a setup with the plug out.",
            )


def live_points(predictor: Predictor, setup: Setup) -> frozenset[str]:
    """Points with more than 2 V to earth in a sound machine, as it stands or with what has tripped set again.

    What opens by itself makes nothing safe to touch: a person may set it again while another has his hands inside.
    """
    return predictor.healthy.kept(("live", setup.steps), lambda: _live_points(predictor.healthy.settled(setup)))


def _live_points(settled: Settled) -> frozenset[str]:
    layout = settled.columns.layout
    tripped = [layout.variable_index[drive.name] for drive in layout.network.drives if drive.hold is None]
    state = settled.state.copy()
    state[tripped] = 0
    points = layout.points
    volts = np.maximum(settled.solution.rms_volts(), solve(settled.columns, state).rms_volts())[:, 0]
    return frozenset(point for point, value in zip(points, volts, strict=True) if value > _LIVE_VOLTS)


def is_dead(predictor: Predictor, setup: Setup) -> bool:
    """Whether a person has cut a sound machine off: no part inside has voltage (the outlet may).

    A setup in which it trips its own breaker is not dead.
    """
    live = live_points(predictor, setup)
    inside = [element for element in predictor.machine.elements if element.symbol not in ("plug", "breaker")]
    return not any(end in live for element in inside for end in (element.a, element.b))


def _deviations(predictor: Predictor, settled: Settled) -> list[Settled]:
    """The settled columns solved again at one deviation of supply and of each tolerance, contacts as they stand."""
    made = settled.columns
    branch_ones, pole_ones = np.ones(len(predictor.machine.network.branches)), np.ones(len(made.pole_scale))
    scales = [(branch_ones, pole_ones * (1 + SUPPLY_SPREAD))]
    scales += [(group, pole_ones) for group in predictor.tolerance_groups]
    blocks = []
    for scale in scales:
        moved = made.repeat([scale])
        blocks.append(Settled(moved, settled.state, solve(moved, settled.state), settled.chatters))
    if made.added_ohm.any():
        milder = _milder(made)
        blocks.append(Settled(milder, settled.state, solve(milder, settled.state), settled.chatters))
    return blocks


def _milder(made: Columns) -> Columns:
    """The same columns with the ohms that their faults add at one deviation less, where they stay above nothing."""
    return replace(made, added_ohm=made.added_ohm / _DEGREE_TIMES)


def _ohms(predictor: Predictor, pairs: Pairs, setup: Setup) -> Expected:
    settled = predictor.settled(setup)
    mean = read_ohms(settled, pairs)
    upwards = np.maximum.reduce(predictor.tolerance_groups) if predictor.tolerance_groups else None
    spread = np.zeros_like(mean)
    if upwards is not None:
        made = settled.columns.repeat([(upwards, np.ones(len(settled.columns.pole_scale)))])
        raised = read_ohms(Settled(made, settled.state, settled.solution, settled.chatters), pairs)
        both = np.isfinite(mean) & np.isfinite(raised)
        spread[both] = raised[both] - mean[both]
    spread = np.hypot(spread, _spread_of_degrees(settled, pairs, mean))
    mean[mean > AS_GOOD_AS_OPEN_OHM] = np.inf
    return _with_meter(Expected(mean, spread), "ohms", settled)


def _spread_of_degrees(settled: Settled, pairs: Pairs, mean: Real) -> Real:
    """One deviation of dead ohms from that of the ohms which faults add, shape (pairs, S)."""
    spread = np.zeros_like(mean)
    which = np.flatnonzero(settled.columns.added_ohm.any(axis=0))
    if len(which):
        milder = _milder(settled.columns.take(which))
        less = read_ohms(Settled(milder, settled.state[:, which], settled.solution, {}), pairs)
        both = np.isfinite(mean[:, which]) & np.isfinite(less)
        spread[:, which] = np.where(both, np.where(both, mean[:, which], 0.0) - np.where(both, less, 0.0), 0.0)
    return spread


def _with_meter(value: Expected, mode: Mode, settled: Settled) -> Expected:
    share, floor = _ACCURACY[mode]
    size = np.where(np.isfinite(value.mean), value.mean, 0.0)
    spread = np.sqrt(value.spread**2 + (share * size) ** 2 + floor**2)
    for column in settled.chatters:
        spread[:, column] += _CHATTER_SHARE * size[:, column] + _CHATTER_FLOOR
    return Expected(value.mean, spread)


def branch_between(predictor: Predictor, pair: tuple[str, str]) -> str:
    """The one wire or element a clamp can go around between two points.

    Raises:
        InputError: There is none.
    """
    machine = predictor.machine
    for wire in machine.wires.values():
        if {wire.a, wire.b} == set(pair):
            return wire.name
    for element in machine.elements:
        if {element.a, element.b} == set(pair):
            return element.branch
    raise InputError(
        f"No one wire or part joins {pair[0]} and {pair[1]}.", "Give the two ends of the wire in the clamp."
    )

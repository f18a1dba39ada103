"""What a meter would read under each suspect, and how far it may stray.

The spread is first-order propagation (JCGM 100, GUM, 5.1.2): one deviation of supply, of each part made to a
tolerance, and of the meter, added as squares. For dead ohms all tolerances go up together, which bounds them (Rayleigh:
raising any resistance raises every reading).

A fault that adds ohms (a bad joint, a drifted heater) stands for all around it: within a factor of 1.6 in two of three.

A ghost (volts of a point that hangs on stray capacitance; a low-impedance meter shows little of it) depends on how the
harness lies, which no sheet tells: its spread is at least half of it and 20 V (common practice, from memory).

The meter's own accuracy stands in `units.METER_MODES`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit import LOW_IMPEDANCE_OHM, Columns, Settled, read_ohms, read_volts_loaded, solve
from halfsplit.predict.carried import SUPPLY_SPREAD, Carried
from halfsplit.predict.functions import below
from halfsplit.predict.live import LIVE_VOLTS, is_dead, refuse_live
from halfsplit.predict.meters import READERS
from halfsplit.predict.predictor import Predictor, Real
from halfsplit.predict.untouchable import refuse_untouchable
from halfsplit.trade import Mode, Setup
from halfsplit.units import BEEP_OHM, BEEP_SPREAD_OHM, METER_MODES, MeterMode

AS_GOOD_AS_OPEN_OHM = METER_MODES["ohms"].damp[1]
_RAIL_SPREAD = 0.03
"""One standard deviation of a board's direct volts (common practice, no source)."""
_DEGREE_TIMES = 10.0**0.2
"""One deviation of the ohms that a fault adds: degrees of a joint, ten times apart, still part and leave no gap."""
_CHATTER_SHARE, _CHATTER_FLOOR = 0.5, 60.0
_GHOST_SHARE, _GHOST_FLOOR = 0.5, 20.0
_LEFT_OF_A_GHOST = 0.1
"""A low-impedance meter shows less than this share of a ghost."""

Pairs = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Expected:
    """Readings of several pairs under every suspect: mean and standard deviation, shape (pairs, K).

    The first S columns are the suspects; those that follow are suspects again, with a contact the other way, as
    `carried` tells.

    A mean of infinity is OL. In the mode's unit; of a tone the mean is the chance that it sounds, without a spread.
    """

    mean: Real
    spread: Real
    carried: Carried | None = None

    def mixed(self, values: Real) -> Real:
        """Values of every column, shape (…, K), as those of every suspect, shape (…, S)."""
        return values if self.carried is None else self.carried.mixed(values)

    def columns_of(self, suspect: int) -> tuple[int, ...]:
        """The columns of one suspect, the likeliest first."""
        return (suspect,) if self.carried is None else tuple(self.carried.of(suspect).tolist())


def expected(predictor: Predictor, pairs: Pairs, mode: Mode, setup: Setup) -> Expected:
    """Readings of `pairs` in a setup.

    Raises:
        InputError: A dead mode on a live machine, a live one at a point for dead ones only, or amps between points with
            no single wire or part between them.
    """
    if predictor.machine.dead_only:
        refuse_untouchable(predictor.machine, pairs, mode, dead=is_dead(predictor, setup))
    missing = tuple(pair for pair in dict.fromkeys(pairs) if not predictor.has((pair, mode, setup.steps)))
    found: dict[tuple[str, str], tuple[Real, Real]] = {}
    if missing:
        worked = _work(predictor, missing, mode, setup)
        found = {pair: (worked.mean[row], worked.spread[row]) for row, pair in enumerate(missing)}
    rows = [predictor.kept((pair, mode, setup.steps), partial(found.__getitem__, pair)) for pair in pairs]
    carried = predictor.carried(setup)
    return Expected(np.stack([mean for mean, _ in rows]), np.stack([spread for _, spread in rows]), carried)


def _work(predictor: Predictor, pairs: Pairs, mode: Mode, setup: Setup) -> Expected:
    meter = METER_MODES[mode]
    settled = predictor.carried(setup).settled
    if meter.needs == "dead":
        refuse_live(predictor, pairs, meter, setup)
        return _with_meter(_ohms(predictor, pairs, settled), meter, settled)
    blocks = (settled, *_deviations(predictor, settled))
    values = READERS[mode](predictor, blocks, pairs)
    deviation = np.sqrt(((values[1:] - values[0]) ** 2).sum(axis=0))
    if meter.shows_ghosts:
        ghost = _ghosts(settled, pairs, values[0])
        deviation = np.where(ghost, np.hypot(_GHOST_SHARE * values[0], _GHOST_FLOOR), deviation)
    return _with_meter(Expected(values[0], deviation), meter, settled)


def ghosts(predictor: Predictor, pair: tuple[str, str], mode: Mode, setup: Setup) -> NDArray[np.bool_]:
    """Under which suspects a reading is a ghost, shape (S,); never in a mode that shows none."""
    if not METER_MODES[mode].shows_ghosts:
        return np.zeros(len(predictor.suspects), dtype=bool)
    volts = expected(predictor, (pair,), mode, setup).mean[:, : len(predictor.suspects)]
    settled = predictor.settled(setup)
    return predictor.kept(("ghosts", pair, mode, setup.steps), lambda: _ghosts(settled, (pair,), volts)[0])


def _ghosts(settled: Settled, pairs: Pairs, volts: Real) -> NDArray[np.bool_]:
    """Which readings are ghosts, shape (pairs, S)."""
    loaded = read_volts_loaded(settled, (settled.solution,), pairs, LOW_IMPEDANCE_OHM)[0]
    return np.asarray((volts > LIVE_VOLTS) & (loaded < _LEFT_OF_A_GHOST * volts))


def _deviations(predictor: Predictor, settled: Settled) -> list[Settled]:
    """The settled columns solved again at one deviation of supply and of each tolerance, contacts as they stand."""
    made = settled.columns
    branch_ones, pole_ones = np.ones(len(predictor.machine.network.branches)), np.ones(len(made.pole_scale))
    scales = [(branch_ones, pole_ones * (1 + SUPPLY_SPREAD))]
    scales += [(group, pole_ones) for group in predictor.tolerance_groups]
    blocks = []
    if made.layout.source_direct.any():
        raised = replace(made, source_scale=made.source_scale * (1 + _RAIL_SPREAD))
        blocks.append(Settled(raised, settled.state, solve(raised, settled.state), settled.chatters))
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


def _ohms(predictor: Predictor, pairs: Pairs, settled: Settled) -> Expected:
    """Ohms of the dead network, however high, and what tolerances make of them."""
    mean = read_ohms(settled, pairs, np.inf)
    upwards = np.maximum.reduce(predictor.tolerance_groups) if predictor.tolerance_groups else None
    spread = np.zeros_like(mean)
    if upwards is not None:
        made = settled.columns.repeat([(upwards, np.ones(len(settled.columns.pole_scale)))])
        raised = read_ohms(Settled(made, settled.state, settled.solution, settled.chatters), pairs, np.inf)
        both = np.isfinite(mean) & np.isfinite(raised)
        spread[both] = raised[both] - mean[both]
    return Expected(mean, np.hypot(spread, _spread_of_degrees(settled, pairs, mean)))


def _spread_of_degrees(settled: Settled, pairs: Pairs, mean: Real) -> Real:
    """One deviation of dead ohms from that of the ohms which faults add, shape (pairs, S)."""
    spread = np.zeros_like(mean)
    which = np.flatnonzero(settled.columns.added_ohm.any(axis=0))
    if len(which):
        milder = _milder(settled.columns.take(which))
        less = read_ohms(Settled(milder, settled.state[:, which], settled.solution, {}), pairs, np.inf)
        both = np.isfinite(mean[:, which]) & np.isfinite(less)
        spread[:, which] = np.where(both, np.where(both, mean[:, which], 0.0) - np.where(both, less, 0.0), 0.0)
    return spread


def _with_meter(value: Expected, meter: MeterMode, settled: Settled) -> Expected:
    """The spread with the meter's own; an open reading, and what never settles, made such."""
    if meter.opens:
        value = Expected(np.where(value.mean > meter.damp[1], np.inf, value.mean), value.spread)
    share, floor = meter.accuracy
    size = np.where(np.isfinite(value.mean), np.abs(value.mean), 0.0)
    spread = np.sqrt(value.spread**2 + (share * size) ** 2 + floor**2)
    for column in settled.chatters:
        spread[:, column] += _CHATTER_SHARE * size[:, column] + _CHATTER_FLOOR
    return _tone(value.mean, spread) if meter.is_tone else Expected(value.mean, spread)


def _tone(ohm: Real, spread: Real) -> Expected:
    """How likely a continuity tester sounds: the mean is that chance, and there is no spread."""
    chance = below((BEEP_OHM - ohm) / np.hypot(spread, BEEP_SPREAD_OHM))
    return Expected(np.where(ohm > AS_GOOD_AS_OPEN_OHM, 0.0, chance), np.zeros_like(ohm))

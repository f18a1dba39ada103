"""The checks worth thinking of: where a technician would put the probes, in which setup.

On a dead machine: across every part (both ways where it conducts one way only) and along every wire, and from each
terminal-block screw to every point it reaches through closed contacts (so a string can be split in half). What the
paper's own table of readings asks for, as between the pins of a connector, is always among them. On a live
one: the supply at outlet and terminal block, and across every part, with the meter on direct volts where those stand;
and along every wire under load, since a joint of 0.2 Ω hides in the leads of an ohmmeter but drops 4.5 V at 22.5 A.
Amps, with a clamp, where a part acts on its current (the safety valve of a gas oven): volts and ohms hardly tell an
aged igniter from a good one. Everything else the technician is free to read; it is only not proposed.
"""

from __future__ import annotations

from collections import Counter, deque
from itertools import combinations

import numpy as np

from halfsplit.predict.live import LIVE_VOLTS, is_dead
from halfsplit.predict.predictor import Predictor
from halfsplit.predict.readings import expected
from halfsplit.predict.untouchable import is_untouchable
from halfsplit.trade import Action, Look, Measure, Mode, Setup

_BRIDGE_OHM = 0.5
DROP_AMPS = 2.0
"""A wire with less is no load to find a bad joint by (common practice, no source)."""
_AS_GOOD_AS_MOST = 0.9
_EITHER: tuple[Mode, Mode] = ("dc", "volts")
_PAPER_MODES: tuple[Mode, ...] = ("ohms", "volts", "dc")
_SUPPLY_KINDS = ("outlet", "terminal block")
_ON_CURRENT_KINDS = ("gas valve",)
"""Kinds that act on the current through them."""

Pair = tuple[str, str]


def candidates(predictor: Predictor) -> tuple[Action, ...]:
    """Every check to consider, looks first, then dead ohms, then live volts."""
    machine = predictor.machine
    looks: list[Action] = [Look(function.name, function.setup) for function in machine.functions.values()]
    setups = [*machine.setups.values()]
    dead = [setup for setup in setups if is_dead(predictor, setup)]
    ohms = [Measure(pair, "ohms", setup.name) for setup in dead for pair in _dead_pairs(predictor, setup)]
    live = [setup for setup in setups if setup not in dead]
    pairs = _live_pairs(predictor)
    direct = _direct_pairs(predictor, pairs, live)
    volts = [Measure(pair, "dc" if pair in direct else "volts", setup.name) for setup in live for pair in pairs]
    measured = [*ohms, *volts]
    return (*looks, *measured, *_on_paper(predictor, measured), *_under_load(predictor, live))


def _on_paper(predictor: Predictor, already: list[Measure]) -> list[Action]:
    """Rows of the paper's table that are not there already, whichever way round."""
    machine = predictor.machine
    there = {(frozenset(it.points), it.mode, it.setup) for it in already}
    return [
        Measure(row.points, row.mode, row.setup)
        for row in machine.readings
        if row.mode in _PAPER_MODES
        and set(row.points) <= set(machine.points)
        and (frozenset(row.points), row.mode, row.setup) not in there
    ]


def _under_load(predictor: Predictor, live: list[Setup]) -> list[Action]:
    """Volts along each loaded wire, and amps in one wire of each part that acts on its current."""
    found = _loaded(predictor, live)
    clamped: dict[str, Action] = {}
    for pair, setup in found:
        for part in (point.rpartition(".")[0] for point in pair):
            if predictor.machine.parts[part].kind in _ON_CURRENT_KINDS:
                clamped.setdefault(part, Measure(pair, "amps", setup))
    return [*(Measure(pair, "volts", setup) for pair, setup in found), *dict.fromkeys(clamped.values())]


def _loaded(predictor: Predictor, live: list[Setup]) -> list[tuple[Pair, str]]:
    """Each wire that carries a load in a sound machine, with the setup in which it carries about most.

    Of several such setups that in which most is looked at anyway.
    """
    machine, fixed = predictor.machine, _fixed_wiring(predictor)
    looked_at = Counter(function.setup for function in machine.functions.values())
    live = sorted(live, key=lambda setup: -looked_at[setup.name])
    wires = [
        wire for wire in machine.wires.values() if wire.name not in fixed and not is_untouchable(machine, wire.ends)
    ]
    ends = _distinct([wire.ends for wire in wires], machine.points)
    if not ends or not live:
        return []
    amps = np.array([expected(predictor.healthy, ends, "amps", setup).mean[:, 0] for setup in live])
    loads = amps.max(axis=0)
    most = (amps >= _AS_GOOD_AS_MOST * loads).argmax(axis=0)
    return [
        (pair, live[place].name)
        for pair, place, load in zip(ends, most.tolist(), loads, strict=True)
        if load >= DROP_AMPS
    ]


def _direct_pairs(predictor: Predictor, pairs: tuple[Pair, ...], live: list[Setup]) -> frozenset[Pair]:
    """Pairs at which a sound machine has more direct than alternating volts in one of its setups."""
    if not any(source.direct for source in predictor.machine.network.sources):
        return frozenset()
    found: set[Pair] = set()
    for setup in live:
        steady, swing = (expected(predictor.healthy, pairs, mode, setup).mean[:, 0] for mode in _EITHER)
        found.update(pair for pair, more in zip(pairs, np.abs(steady) > swing + LIVE_VOLTS, strict=True) if more)
    return frozenset(found)


def _dead_pairs(predictor: Predictor, setup: Setup) -> tuple[Pair, ...]:
    machine = predictor.machine
    fixed = _fixed_wiring(predictor)
    pairs = [(element.a, element.b) for element in machine.elements if element.symbol not in ("plug", "breaker")]
    pairs += [(wire.a, wire.b) for wire in machine.wires.values() if wire.name not in fixed]
    for anchor in _anchors(predictor):
        pairs += [(anchor, point) for point in _reached(predictor, setup, anchor)]
    if machine.chassis:
        loads = [element for element in machine.elements if element.symbol in ("heater", "motor", "lamp")]
        pairs += [(load.a, machine.chassis) for load in loads]
    return (*_distinct(pairs, machine.points), *_backwards(predictor))


def _backwards(predictor: Predictor) -> tuple[Pair, ...]:
    """Parts that conduct one way only, with the probes the other way round."""
    machine = predictor.machine
    one_way = {branch.name for branch in machine.network.branches if branch.one_way}
    return tuple((element.b, element.a) for element in machine.elements if element.branch in one_way)


def _live_pairs(predictor: Predictor) -> tuple[Pair, ...]:
    machine = predictor.machine
    pairs: list[Pair] = []
    for part in machine.parts.values():
        if part.kind in _SUPPLY_KINDS:
            pairs += combinations([f"{part.name}.{terminal}" for terminal in part.terminals], 2)
    pairs += [(element.a, element.b) for element in machine.elements if element.symbol not in ("plug", "breaker")]
    return tuple(pair for pair in _distinct(pairs, machine.points) if not is_untouchable(machine, pair))


def _distinct(pairs: list[Pair], points: tuple[str, ...]) -> tuple[Pair, ...]:
    """Each pair once, whichever way round, and only where a probe can go."""
    reachable = set(points)
    seen: dict[frozenset[str], Pair] = {}
    for a, b in pairs:
        if a != b and a in reachable and b in reachable:
            seen.setdefault(frozenset((a, b)), (a, b))
    return tuple(seen.values())


def _anchors(predictor: Predictor) -> list[str]:
    parts = predictor.machine.parts.values()
    return [f"{part.name}.{terminal}" for part in parts if part.kind == "terminal block" for terminal in part.terminals]


def _fixed_wiring(predictor: Predictor) -> frozenset[str]:
    """Wires of the house: not for a dead check with the machine's plug out."""
    machine = predictor.machine
    house = {part.name for part in machine.parts.values() if part.kind.endswith(("supply", "breaker"))}
    return frozenset(wire.name for wire in machine.wires.values() if wire.a.rpartition(".")[0] in house)


def _reached(predictor: Predictor, setup: Setup, anchor: str) -> list[str]:
    """Points of a sound machine that an anchor reaches through closed contacts and wires, nearest first."""
    settled = predictor.healthy.settled(setup)
    solution, network = settled.solution, predictor.machine.network
    near: dict[str, list[str]] = {}
    for branch, admittance in zip(network.branches, solution.admittance[:, 0], strict=True):
        if np.abs(admittance) * _BRIDGE_OHM > 1.0:
            near.setdefault(branch.a, []).append(branch.b)
            near.setdefault(branch.b, []).append(branch.a)
    found, queue = [], deque([anchor])
    seen = {anchor}
    while queue:
        for point in near.get(queue.popleft(), []):
            if point not in seen:
                seen.add(point)
                found.append(point)
                queue.append(point)
    return found

"""Which parts share an ohmmeter's current, and what the meter would show with a lead lifted.

Two points of a machine are seldom joined by one part alone: the meter shows all paths side by side. A part stands for
its path where a good share of the meter's volts falls across it; wires and closed contacts stand for a path only where
nothing else is on it. A lead is worth naming where lifting it changes what the meter shows.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from halfsplit.circuit import Path, measuring_paths
from halfsplit.predict.predictor import Predictor
from halfsplit.predict.readings import expected
from halfsplit.techsheet import LIFT, Machine
from halfsplit.trade import Setup

_LEAST_DROP, _LEAST_SHARE = 0.05, 0.01
"""A thing with less of the volts does not stand for its path; a path with less of the current is not named."""
_LEAST_CHANGE = 0.1
"""A lead is named where lifting it raises the reading by more than this share."""
_SAME_SHARE = 0.02
_MOST_LIFTS = 4

Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Way:
    """One way of the measuring current.

    Attributes:
        through: The parts or wires on it that make its ohms, by name, from the first point on.
        share: Of the measuring current, 0 to 1.
        ohm: What the meter would show if it were the only way.
        between: Whether it is the part between the probes and nothing else.
    """

    through: tuple[str, ...]
    share: float
    ohm: float
    between: bool


@dataclass(frozen=True, slots=True)
class Lifted:
    """What the meter would show with one wire lifted, ohm; infinity for OL."""

    wire: str
    ohm: float


def ways_between(predictor: Predictor, pair: Pair, setup: Setup, suspect: int = 0) -> tuple[Way, ...]:
    """Ways of the measuring current between two points of a dead machine under one suspect, most first; none if OL.

    Raises:
        InputError: A point is live.
    """
    key = ("ways", pair, setup.steps, suspect)
    return predictor.kept(key, lambda: _ways_between(predictor, pair, setup, suspect))


def _ways_between(predictor: Predictor, pair: Pair, setup: Setup, suspect: int) -> tuple[Way, ...]:
    ohm = _ohm(predictor, pair, setup, suspect)
    if not np.isfinite(ohm):
        return ()
    own = _own(predictor.machine, pair)
    paths = measuring_paths(predictor.settled(setup), pair, suspect)
    return _merged([_way(predictor.machine, own, path, ohm) for path in paths], ohm)


def lifts_worth(predictor: Predictor, pair: Pair, setup: Setup, suspect: int = 0) -> tuple[Lifted, ...]:
    """For each reading that lifting one wire can bring about, the wire nearest the probes; a few of them.

    None where only the part between the probes carries the current.

    Raises:
        InputError: A point is live.
    """
    ways = ways_between(predictor, pair, setup, suspect)
    if not ways or (len(ways) == 1 and ways[0].between):
        return ()
    machine, found = predictor.machine, list[Lifted]()
    ohm = _ohm(predictor, pair, setup, suspect)
    for wire in _wires_on(machine, pair, measuring_paths(predictor.settled(setup), pair, suspect)):
        lifted = _ohm(predictor, pair, replace(setup, steps=(*setup.steps, (LIFT, wire))), suspect)
        if lifted > ohm * (1 + _LEAST_CHANGE) and not any(_alike(lifted, other.ohm) for other in found):
            found.append(Lifted(wire, lifted))
    return tuple(found[:_MOST_LIFTS])


def _ohm(predictor: Predictor, pair: Pair, setup: Setup, suspect: int) -> float:
    return float(expected(predictor, (pair,), "ohms", setup).mean[0, suspect])


def _way(machine: Machine, own: set[str], path: Path, ohm: float) -> Way:
    heavy = [name for name, drop in zip(path.branches, path.drops, strict=True) if drop >= _LEAST_DROP]
    parts = [name for name in heavy if name not in machine.wires]
    through = tuple(dict.fromkeys(_thing(machine, name) for name in (parts or heavy)))
    return Way(through, path.share, ohm / path.share, {_thing(machine, name) for name in path.branches} == own)


def _own(machine: Machine, pair: Pair) -> set[str]:
    """The part that has both points, or the wire between them, by name; nothing if there is none."""
    wires = {wire.name for wire in machine.wires.values() if {wire.a, wire.b} == set(pair)}
    parts = {point.rpartition(".")[0] for point in pair}
    return wires or (parts if len(parts) == 1 else set())


def _thing(machine: Machine, branch: str) -> str:
    """The part or wire that a branch belongs to, by name."""
    return branch if branch in machine.wires else branch.partition(":")[0]


def _merged(ways: list[Way], ohm: float) -> tuple[Way, ...]:
    """Ways through the same things put together, the widest first."""
    found: dict[tuple[tuple[str, ...], bool], float] = {}
    for way in ways:
        key = (way.through, way.between)
        found[key] = found.get(key, 0.0) + way.share
    order = sorted(found.items(), key=lambda item: -item[1])
    return tuple(
        Way(through, min(share, 1.0), ohm / min(share, 1.0), between)
        for (through, between), share in order
        if between or share >= _LEAST_SHARE
    )


def _wires_on(machine: Machine, pair: Pair, paths: tuple[Path, ...]) -> list[str]:
    """Wires that carry the measuring current, those at the probes first."""
    wires = [name for path in paths for name in path.branches if name in machine.wires]
    at_probe = [name for name in wires if {machine.wires[name].a, machine.wires[name].b} & set(pair)]
    return list(dict.fromkeys((*at_probe, *wires)))


def _alike(one: float, other: float) -> bool:
    return one == other or (np.isfinite(other) and abs(one - other) <= _SAME_SHARE * other)

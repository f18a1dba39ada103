"""Why a thing is out of question, and what would change the answer: what cleared it, and on what all hangs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.call.case import Case
from halfsplit.call.ending import things_of
from halfsplit.call.engine import Engine, Weighed, engine_for
from halfsplit.call.explain import in_words
from halfsplit.techsheet import Machine
from halfsplit.trade import Seen


@dataclass(frozen=True, slots=True)
class Cleared:
    """A thing that is ruled out, and the fewest items found (in their order) that rule out each of its faults."""

    thing: str
    by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Turn:
    """An item of evidence on which the answer hangs: without it, `instead` leads; "" stands for nothing wrong."""

    item: str
    instead: str


def cleared(machine: Machine, case: Case) -> tuple[Cleared, ...]:
    """Every thing of which the technician's own evidence contradicts each single fault.

    One item that rules out all of a thing's faults is named alone; else the first that rules out each. What a customer
    said clears nothing.
    """
    engine = engine_for(machine, case)
    weighed = engine.weigh(case)
    own = [place for place, item in enumerate(case.evidence) if not (isinstance(item, Seen) and item.by == "customer")]
    if not own:
        return ()
    against = np.stack([weighed.rows[place].contradicts for place in own])
    found = []
    for thing, places in _faults_of(engine).items():
        of_it = against[:, places]
        if of_it.any(axis=0).all():
            alone = np.flatnonzero(of_it.all(axis=1))
            which = alone[:1] if len(alone) else np.unique(of_it.argmax(axis=0))
            found.append(Cleared(thing, tuple(in_words(weighed.machine, case.evidence[own[row]]) for row in which)))
    return tuple(found)


def origins(machine: Machine, case: Case) -> dict[str, tuple[str, ...]]:
    """Where the rates come from: each origin with the things that have it, those of the sheet itself by name."""
    found: dict[str, dict[str, None]] = {}
    for fault in engine_for(machine, case).machine.faults.values():
        found.setdefault(fault.origin, {})[fault.thing] = None
    return {origin: tuple(things) for origin, things in found.items()}


def _faults_of(engine: Engine) -> dict[str, list[int]]:
    """Every thing with the places of its single faults among the suspects."""
    places: dict[str, list[int]] = {}
    for fault, place in engine.place.items():
        places.setdefault(engine.machine.faults[fault].thing, []).append(place)
    return places


def turns(machine: Machine, case: Case) -> tuple[Turn, ...]:
    """The items on which the answer hangs: each alone taken back, something else leads."""
    engine = engine_for(machine, case)
    weighed = engine.weigh(case)
    leads = _leader(engine, weighed)
    found = []
    for place, item in enumerate(case.evidence):
        instead = _leader(engine, engine.weigh(case.without(place)))
        if instead != leads:
            found.append(Turn(in_words(weighed.machine, item), instead))
    return tuple(found)


def _leader(engine: Engine, weighed: Weighed) -> str:
    totals = things_of(engine, weighed)
    return max(totals, key=lambda name: totals[name])

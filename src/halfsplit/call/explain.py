"""Plain sentences: what speaks for and against a suspect, item by item, with bits."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.call.beside import GHOST, others_say
from halfsplit.call.case import Case
from halfsplit.call.engine import Engine, Weighed
from halfsplit.predict import Predictor, expected, ghosts, levels, ways_between
from halfsplit.techsheet import Machine
from halfsplit.trade import LEVELS, Evidence, Seen, Setup, Suspect
from halfsplit.units import METER_MODES, show_reading

_SPEAKS_AGAINST_BITS = -1.5


@dataclass(frozen=True, slots=True)
class Reason:
    """One item of evidence and what a suspect makes of it.

    Attributes:
        item: The item in words.
        predicted: What this suspect would give instead (or as well).
        supports: Whether the item speaks for the suspect, or at least not against it.
        bits: How strongly: log2 of its likelihood over the average of all suspects.
        contradicts: Whether the suspect cannot give this item within tolerance.
    """

    item: str
    predicted: str
    supports: bool
    bits: float
    contradicts: bool

    def __str__(self) -> str:
        if self.supports:
            return f"{self.item}: fits (it would be {self.predicted})."
        word = "cannot be" if self.contradicts else "speaks against it"
        return f"{self.item}: {word} (it would be {self.predicted})."


def in_words(machine: Machine, item: Evidence) -> str:
    """An item of evidence in words."""
    says = machine.setups[item.setup].says
    if isinstance(item, Seen):
        return f"{item.by.capitalize()}: {item.function} is {item.level}, {says}"
    a, b = item.points
    return f"{METER_MODES[item.mode].tell.format(a=a, b=b, shown=show_reading(item.value, item.mode))}, {says}"


def reasons(engine: Engine, weighed: Weighed, case: Case, index: int) -> tuple[Reason, ...]:
    """Reasons for and against the suspect at `index`, in the order of the evidence."""
    found = []
    for item, row, moment in zip(case.evidence, weighed.rows, case.moments, strict=True):
        predictor, place = _where(engine, int(engine.left_of(case.changed[:moment])[index]))
        average = max(float(row.fits @ weighed.belief.shares), row.broad * 1e-3)
        bits = float(np.log2(max(row.fits[index], 1e-12) / average))
        against = bool(row.contradicts[index])
        supports = not against and bits > _SPEAKS_AGAINST_BITS
        setup = weighed.machine.setups[item.setup]
        predicted = _predicted(predictor, place, item, setup)
        note = "" if supports else _note(predictor, place, item, setup)
        words = f"{predicted}, {note}" if note else predicted
        found.append(Reason(in_words(weighed.machine, item), words, supports, bits, against))
    return tuple(found)


def _where(engine: Engine, index: int) -> tuple[Predictor, int]:
    singles = len(engine.singles.suspects)
    return (engine.singles, index) if index < singles else (engine.pairs, index - singles)


def _predicted(predictor: Predictor, place: int, item: Evidence, setup: Setup) -> str:
    if isinstance(item, Seen):
        chances = levels(predictor, predictor.machine.functions[item.function], setup)[:, place]
        return LEVELS[int(chances.argmax())]
    value = expected(predictor, (item.points,), item.mode, setup)
    means = (float(value.mean[0, column]) for column in value.columns_of(place))
    return " or ".join(dict.fromkeys(show_reading(mean, item.mode) for mean in means))


def _note(predictor: Predictor, place: int, item: Evidence, setup: Setup) -> str:
    """Where a predicted reading comes from, if not from what is between the probes."""
    if isinstance(item, Seen):
        return ""
    if item.mode == "ohms":
        return others_say(predictor.machine, ways_between(predictor, item.points, setup, place))
    return GHOST if ghosts(predictor, item.points, item.mode, setup)[place] else ""


def suspect_says(machine: Machine, suspect: Suspect) -> str:
    """A suspect as a sentence without its full stop."""
    if not suspect.faults:
        return "nothing is wrong in the machine"
    return ", and ".join(machine.faults[fault].says for fault in suspect.faults)

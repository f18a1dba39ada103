"""A technician who knows no more than the program says, and a machine with something wrong that only the test knows.

What a meter shows and a person sees comes from the engine's own circuit, which is held to other solvers elsewhere
(tests/oracle) and to a list of symptoms written by hand (tests/sheets). What is tried here is what is made of it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.call import Advice, Case, NextCheck, advise, told
from halfsplit.predict import Predictor, expected, levels
from halfsplit.techsheet import Machine
from halfsplit.trade import LEVELS, NOTHING_WRONG, Action, Evidence, Look, Reading, Seen, Suspect

MOST_CHECKS = 25


@dataclass(frozen=True)
class Visit:
    """How a search went: the case at its end, the last advice, and every advice that a check came of."""

    case: Case
    end: Advice
    way: tuple[Advice, ...]

    @property
    def made(self) -> tuple[NextCheck, ...]:
        """The checks, in order."""
        return tuple(advice.next for advice in self.way if advice.next is not None)

    @property
    def minutes(self) -> float:
        """Time of all checks."""
        return sum(check.minutes for check in self.made)

    @property
    def kept_the_gate(self) -> bool:
        """Whether no live check was proposed while a dead one was worth making."""
        live = [advice for advice in self.way if advice.next is not None and advice.next.live]
        return all(other.live for advice in live for other in advice.others)


class HiddenTruth:
    """A machine with these faults, and a meter: without a generator it shows what it should, else it strays."""

    def __init__(self, machine: Machine, faults: tuple[str, ...], noise: np.random.Generator | None = None) -> None:
        self.machine, self.noise = machine, noise
        self.predictor = Predictor(machine, (Suspect(faults) if faults else NOTHING_WRONG,))

    def answer(self, action: Action) -> Evidence:
        """What is seen or read."""
        setup = self.machine.setups[action.setup]
        if isinstance(action, Look):
            shown = levels(self.predictor, self.machine.functions[action.function], setup)[:, 0]
            return Seen(action.function, LEVELS[int(shown.argmax())], "technician", action.setup)
        value = expected(self.predictor, (action.points,), action.mode, setup)
        reading = float(value.mean[0, 0])
        if self.noise is not None and np.isfinite(reading):
            reading = abs(reading + float(value.spread[0, 0] * self.noise.standard_normal()))
        return Reading(action.points, action.mode, action.setup, reading)


def follow(machine: Machine, case: Case, truth: HiddenTruth) -> Visit:
    """Do what is proposed until there is nothing more to do, or too much was done."""
    way: list[Advice] = []
    advice = advise(machine, case)
    while advice.next is not None and len(way) < MOST_CHECKS:
        way.append(advice)
        case = case.plus(truth.answer(advice.next.action))
        advice = advise(machine, case)
    return Visit(case, advice, tuple(way))


def complaint_of(machine: Machine, truth: HiddenTruth) -> str:
    """What a customer with this fault would say: the complaint that fits and tells most; empty if none does.

    Every level of it must be the one that shows, and it must be most unlike a sound machine.
    """
    sound = HiddenTruth(machine, ())
    told_most, best = "", 0
    for name in machine.complaints:
        items = told(machine, name)
        shown = [_level(truth, item) for item in items]
        unlike = sum(_level(sound, item) != item.level for item in items)
        if all(level == item.level for level, item in zip(shown, items, strict=True)) and unlike > best:
            told_most, best = name, unlike
    return told_most


def _level(truth: HiddenTruth, item: Seen) -> str:
    seen = truth.answer(Look(item.function, item.setup))
    assert isinstance(seen, Seen)
    return seen.level

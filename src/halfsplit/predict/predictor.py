"""Every suspect's machine, settled in any setup, kept so that nothing is solved twice.

What may live here: suspects to columns, setups to replays, and their caches. It never sees a probability.
Shapes: S suspects, in the order given.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit import Columns, Layout, Patch, Settled, Step, at_rest, columns, take_step
from halfsplit.predict.at_times import without_at_times
from halfsplit.predict.carried import Carried, carry
from halfsplit.techsheet import LIFT, PUT_BACK, Machine, wire_of
from halfsplit.trade import NOTHING_WRONG, Setup, Suspect

Real = NDArray[np.float64]
_KEPT_REPLAYS = 64
_KEPT_ANSWERS = 20_000

Result = TypeVar("Result")


@dataclass
class Predictor:
    """What each of `suspects` would do in any setup of `machine`.

    Results are kept by setup and question, so an instance is worth keeping; nothing else about it changes. One that
    does not mix takes what comes and goes (`Fault.share`) to be there always.
    """

    machine: Machine
    suspects: tuple[Suspect, ...]
    mixes: bool = True
    _replays: OrderedDict[tuple[frozenset[str], tuple[Step, ...]], Settled] = field(default_factory=OrderedDict)
    _ends: OrderedDict[tuple[frozenset[str], tuple[Step, ...]], Carried] = field(default_factory=OrderedDict)
    _answers: OrderedDict[object, object] = field(default_factory=OrderedDict)

    @cached_property
    def healthy(self) -> Predictor:
        """The same machine with nothing wrong."""
        return self if self.suspects == (NOTHING_WRONG,) else Predictor(self.machine, (NOTHING_WRONG,))

    @cached_property
    def _without(self) -> tuple[Predictor, NDArray[np.intp], Real] | None:
        """The suspects and, after them, each again without what comes and goes: of which it is one, and how often."""
        found = without_at_times(self.machine, self.suspects) if self.mixes else None
        if found is None:
            return None
        suspects, owner, weight = found
        return Predictor(self.machine, suspects, mixes=False), owner, weight

    @cached_property
    def layout(self) -> Layout:
        """The network's shape, planned once."""
        return Layout(self.machine.network)

    def settled(self, setup: Setup) -> Settled:
        """Every suspect's machine after the steps of a setup, lifted wires off throughout."""
        return self._after(lifted_wires(setup), switch_steps(setup))

    def carried(self, setup: Setup) -> Carried:
        """The same, and where a contact is near its threshold or a fault comes and goes, how it might stand as well."""
        if self._without is not None:
            wide, owner, weight = self._without
            return wide.carried(setup).regrouped(owner, weight)
        steps = switch_steps(setup)
        key = (lifted_wires(setup), steps)
        if key not in self._ends:
            path = tuple(self._after(key[0], steps[:count]) for count in range(len(steps) + 1))
            self._ends[key] = carry(path, steps)
        self._ends.move_to_end(key)
        if len(self._ends) > _KEPT_REPLAYS:
            self._ends.popitem(last=False)
        return self._ends[key]

    def _after(self, lifted: frozenset[str], steps: tuple[Step, ...]) -> Settled:
        key = (lifted, steps)
        if key in self._replays:
            self._replays.move_to_end(key)
            return self._replays[key]
        settled = take_step(self._after(lifted, steps[:-1]), steps[-1]) if steps else at_rest(self._columns(lifted))
        self._replays[key] = settled
        if len(self._replays) > _KEPT_REPLAYS:
            self._replays.popitem(last=False)
        return settled

    def _columns(self, lifted: frozenset[str]) -> Columns:
        branches = self.machine.network.branches if lifted else ()
        off = tuple(Patch("open", branch.name) for branch in branches if wire_of(branch.name) in lifted)
        faults = self.machine.faults
        variants = [
            (*off, *(patch for name in suspect.faults for patch in faults[name].patches)) for suspect in self.suspects
        ]
        return columns(self.layout, variants)

    def kept(self, key: object, work: Callable[[], Result]) -> Result:
        """The answer to a question, worked out the first time it is asked; those asked for longest ago are let go."""
        if key in self._answers:
            self._answers.move_to_end(key)
            return self._answers[key]  # type: ignore[return-value]  # the key names the question, and so its answer's type
        answer = self._answers[key] = work()
        while len(self._answers) > _KEPT_ANSWERS:
            self._answers.popitem(last=False)
        return answer

    def has(self, key: object) -> bool:
        """Whether a question was answered before."""
        return key in self._answers

    @cached_property
    def tolerance_groups(self) -> tuple[Real, ...]:
        """For each group of branches made together (a part, or all strays): scales at one deviation, shape (B,)."""
        branches = self.machine.network.branches
        groups: dict[str, Real] = {}
        for index, branch in enumerate(branches):
            if branch.tolerance:
                group = _stray_group(branch.name) or branch.name.partition(":")[0]
                groups.setdefault(group, np.ones(len(branches)))[index] += branch.tolerance
        return tuple(groups.values())


def _stray_group(branch: str) -> str:
    """Wires' strays move together; the cabinet's own stands alone, or a ghost voltage would have no spread."""
    return "" if not branch.startswith("stray ") else branch if branch == "stray cabinet" else "strays"


def lifted_wires(setup: Setup) -> frozenset[str]:
    """Wires that are off at the end of a setup."""
    lifted: set[str] = set()
    for verb, wire in setup.steps:
        if verb == LIFT:
            lifted.add(wire)
        elif verb == PUT_BACK:
            lifted.discard(wire)
    return frozenset(lifted)


def switch_steps(setup: Setup) -> tuple[Step, ...]:
    """The steps of a setup that move settings."""
    return tuple(step for step in setup.steps if step[0] not in (LIFT, PUT_BACK))

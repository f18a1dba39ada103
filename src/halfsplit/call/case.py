"""A case: everything known of one call so far. Evidence is only ever added; taking back makes a new case without it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from halfsplit.techsheet import Machine, setup_of
from halfsplit.trade import Action, Evidence, Measure, Seen, Setup


@dataclass(frozen=True, slots=True)
class Case:
    """What is known of one call.

    Attributes:
        fixed: Steps that hold for the whole call, as in (("cord", "3-wire"),).
        setups: Setups the case brings besides the sheet's.
        evidence: What was told, seen and read, in order.
        skipped: Checks not to be proposed again.
        unreachable: Points no probe can get to.
    """

    fixed: tuple[tuple[str, str], ...] = ()
    setups: Mapping[str, Setup] = field(default_factory=dict)
    evidence: tuple[Evidence, ...] = ()
    skipped: frozenset[Action] = frozenset()
    unreachable: frozenset[str] = frozenset()

    def plus(self, *items: Evidence) -> Case:
        """The case with more evidence."""
        return replace(self, evidence=(*self.evidence, *items))

    def without(self, index: int) -> Case:
        """The case with one item taken back."""
        return replace(self, evidence=(*self.evidence[:index], *self.evidence[index + 1 :]))

    def skip(self, action: Action) -> Case:
        """The case with a check not to be proposed again."""
        return replace(self, skipped=self.skipped | {action})

    def cannot_reach(self, *points: str) -> Case:
        """The case with points no probe can get to."""
        return replace(self, unreachable=self.unreachable | set(points))


def machine_for(machine: Machine, case: Case) -> Machine:
    """The machine as it stands on this call: the case's own setups added, and what is fixed done first in each."""
    setups = {**machine.setups, **case.setups}
    for item in case.evidence:
        if item.setup not in setups:
            setups[item.setup] = setup_of(machine, item.setup)
    fixed = {
        name: replace(setup, steps=(*case.fixed, *setup.steps)) if case.fixed else setup
        for name, setup in setups.items()
    }
    return replace(machine, setups=fixed)


def told(machine: Machine, complaint: str) -> tuple[Seen, ...]:
    """What the customer's complaint says, as evidence."""
    means = machine.complaints[complaint].means
    return tuple(Seen(function, level, "customer", machine.functions[function].setup) for function, level in means)


def hardest_to_reach(machine: Machine, check: Measure) -> str:
    """Of a check's two points the one behind more cover: the one meant by "cannot reach"."""
    return max(check.points, key=lambda point: machine.zones[machine.zone_of_point(point)].open_minutes)

"""A case: everything known of one call so far. Evidence is only ever added; taking back makes a new case without it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from halfsplit.circuit import Condition
from halfsplit.errors import InputError
from halfsplit.techsheet import Machine, setup_of
from halfsplit.trade import Action, Evidence, Measure, Seen, Setup

Steps = tuple[tuple[str, str], ...]
RETURN_MINUTES = 60.0
"""A second trip, if the case does not say (common practice, from memory)."""


@dataclass(frozen=True, slots=True)
class Case:
    """What is known of one call.

    Attributes:
        fixed: Steps that hold for the whole call, as in (("cord", "3-wire"),).
        setups: Setups the case brings besides the sheet's.
        evidence: What was told, seen and read, in order.
        skipped: Checks not to be proposed again.
        unreachable: Points no probe can get to.
        changed: Things changed or mended on this call, in order; what was wrong with them is so no more.
        after: For each item of evidence how many of these had been changed by then; what is left out is none.
        truck: Parts on the truck; None when nothing is known of it, and every part counts as there.
        return_minutes: What fetching a part that is not on the truck takes, a second trip included.
        limit: What the customer wants to spend at most, in the sheet's currency; None without a limit.
    """

    fixed: tuple[tuple[str, str], ...] = ()
    setups: Mapping[str, Setup] = field(default_factory=dict)
    evidence: tuple[Evidence, ...] = ()
    skipped: frozenset[Action] = frozenset()
    unreachable: frozenset[str] = frozenset()
    changed: tuple[str, ...] = ()
    after: tuple[int, ...] = ()
    truck: frozenset[str] | None = None
    return_minutes: float = RETURN_MINUTES
    limit: float | None = None

    @property
    def moments(self) -> tuple[int, ...]:
        """How many things had been changed when each item was seen or read; as long as the evidence."""
        return self.after + (0,) * (len(self.evidence) - len(self.after))

    @property
    def latest(self) -> tuple[Evidence, ...]:
        """The evidence on the machine as it stands now: all since the last change."""
        now = len(self.changed)
        return tuple(item for item, moment in zip(self.evidence, self.moments, strict=True) if moment == now)

    def plus(self, *items: Evidence) -> Case:
        """The case with more evidence, on the machine as it stands now."""
        moments = (*self.moments, *(len(self.changed) for _ in items)) if self.changed else self.after
        return replace(self, evidence=(*self.evidence, *items), after=moments)

    def without(self, index: int) -> Case:
        """The case with one item taken back."""
        moments = self.after[:index] + self.after[index + 1 :]
        return replace(self, evidence=(*self.evidence[:index], *self.evidence[index + 1 :]), after=moments)

    def change(self, thing: str) -> Case:
        """The case after a thing was changed or mended: what is seen from now on is seen without its faults.

        Raises:
            InputError: It has been changed on this call already.
        """
        if thing in self.changed:
            raise InputError(f"{thing!r} has been changed on this call already.", "Name it once.")
        return replace(self, changed=(*self.changed, thing))

    def skip(self, action: Action) -> Case:
        """The case with a check not to be proposed again."""
        return replace(self, skipped=self.skipped | {action})

    def cannot_reach(self, *points: str) -> Case:
        """The case with points no probe can get to."""
        return replace(self, unreachable=self.unreachable | set(points))


def machine_for(machine: Machine, case: Case) -> Machine:
    """The machine as it stands on this call: what is fixed, and the setups that the case brings or writes out."""
    fixed = fixed_machine(machine, case.fixed)
    written = {item.setup for item in case.evidence} - {*machine.setups, *case.setups}
    own = {**case.setups, **{text: setup_of(machine, text) for text in sorted(written)}}
    return replace(fixed, setups={**fixed.setups, **_fixed_first(own, case.fixed)})


def fixed_machine(machine: Machine, fixed: Steps) -> Machine:
    """The machine with what is fixed on a call done first in each setup, and without the wires that it leaves out."""
    settings = {setting: machine.network.variables[setting][0] for setting in machine.per_call} | dict(fixed)
    absent = {wire.name for wire in machine.wires.values() if not _may_hold(wire.condition, settings)}
    faults = {name: fault for name, fault in machine.faults.items() if fault.thing not in absent}
    return replace(machine, setups=_fixed_first(machine.setups, fixed), faults=faults)


def _fixed_first(setups: Mapping[str, Setup], fixed: Steps) -> dict[str, Setup]:
    """Setups that begin with what is fixed; those that do already stay as they are."""
    begun = {name for name, setup in setups.items() if setup.steps[: len(fixed)] == fixed}
    return {
        name: setup if name in begun else replace(setup, steps=(*fixed, *setup.steps)) for name, setup in setups.items()
    }


def _may_hold(condition: Condition, settings: Mapping[str, str]) -> bool:
    """Whether a condition can hold with these settings as they are; whatever else it asks for may stand anywhere."""
    return any(all(settings.get(name) in (None, *allowed) for name, allowed in both) for both in condition)


def told(machine: Machine, complaint: str) -> tuple[Seen, ...]:
    """What the customer's complaint says, as evidence."""
    means = machine.complaints[complaint].means
    return tuple(Seen(function, level, "customer", machine.functions[function].setup) for function, level in means)


def hardest_to_reach(machine: Machine, check: Measure) -> str:
    """Of a check's two points the one behind more cover: the one meant by "cannot reach"."""
    return max(check.points, key=lambda point: machine.zones[machine.zone_of_point(point)].open_minutes)

"""What can be done at the end of a diagnosis: change a part, mend a wire, hand the machine back, or refer it.

Costs are in the sheet's currency. Rates of a working day: common practice, from memory; a shop sets its own.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from halfsplit.nextcheck.cost import UNCURED, Remedies
from halfsplit.nextcheck.effort import act_minutes, zones_of
from halfsplit.nextcheck.licensed import mend_of
from halfsplit.techsheet import Machine
from halfsplit.trade import NOT_ON_SHEET, Action, Suspect

REFER = "refer"


@dataclass(frozen=True, slots=True)
class Rates:
    """What time and mistakes cost, in the sheet's currency.

    Attributes:
        minute: One minute of work.
        test_run_minutes: Trying the machine after a repair.
        wrong_part: What a part changed in vain costs beyond its price and time (it cannot be sold as used).
        callback: An unpaid return.
        refer: Handing the case on with nothing found: the visit is not paid, and the customer is not helped.
        missing: Parts that are not on the truck.
        return_minutes: Fetching such a part, a second trip included.
    """

    minute: float = 1.5
    test_run_minutes: float = 5.0
    wrong_part: float = 15.0
    callback: float = 120.0
    refer: float = 300.0
    missing: frozenset[str] = frozenset()
    return_minutes: float = 0.0


def remedy_name(machine: Machine, suspect: Suspect) -> str:
    """What cures a suspect: the things it blames, in order; empty if there is nothing to cure."""
    if suspect == NOT_ON_SHEET:
        return REFER
    return " + ".join(dict.fromkeys(mend_of(machine, fault).thing for fault in suspect.faults))


def remedies(machine: Machine, suspects: Sequence[Suspect], opened: frozenset[str], rates: Rates) -> Remedies:
    """One remedy for everything that is done for some suspect, none looked at any further.

    Args:
        machine: The machine.
        suspects: In the order of the shares; the last is `NOT_ON_SHEET`.
        opened: Zones already open.
        rates: What time and mistakes cost.
    """
    return _Shop(machine, opened, rates).remedies(suspects, lambda suspect: _mends(machine, suspect), {})


def looked_at_first(
    machine: Machine,
    suspects: Sequence[Suspect],
    proofs: Mapping[str, Action],
    opened: frozenset[str],
    rates: Rates,
) -> Remedies:
    """One remedy for every fault that some check proves, looked at before it is mended; the rest as in `remedies`.

    Args:
        machine: The machine.
        suspects: In the order of the shares; the last is `NOT_ON_SHEET`.
        proofs: Fault to the check that proves it, from `proofs`.
        opened: Zones already open.
        rates: What time and mistakes cost.
    """

    def remedy(suspect: Suspect) -> Hashable:
        return _mends(machine, suspect), _looks(suspect, proofs)

    return _Shop(machine, opened, rates).remedies(suspects, remedy, proofs)


@dataclass(frozen=True, slots=True)
class _Shop:
    """Prices remedies."""

    machine: Machine
    opened: frozenset[str]
    rates: Rates

    def remedies(
        self, suspects: Sequence[Suspect], remedy: Callable[[Suspect], Hashable], proofs: Mapping[str, Action]
    ) -> Remedies:
        """Suspects with the same `remedy` are cured by the same."""
        numbers: dict[Hashable, int] = {}
        place = [numbers.setdefault(remedy(s), len(numbers)) if s != NOT_ON_SHEET else UNCURED for s in suspects]
        first = [suspects[place.index(number)] for number in numbers.values()]
        looks = [_looks(suspect, proofs) for suspect in first]
        zones = [self._zones(suspect, look) for suspect, look in zip(first, looks, strict=True)]
        opening = [self._opening(zone) for zone in self.machine.zones]
        return Remedies(
            names=tuple(remedy_name(self.machine, suspect) for suspect in first),
            cured_by=np.array(place, dtype=np.intp),
            looking=np.array([self._looking(look) for look in looks]),
            costs=np.array([self._cost(suspect) for suspect in first]),
            failing=np.array([self.rates.wrong_part if suspect.faults else self.rates.callback for suspect in first]),
            behind=np.array([[zone in needed for needed in zones] for zone in self.machine.zones], dtype=bool),
            opening=np.array(opening),
            refer=self.rates.refer,
            looks=tuple(looks),
        )

    def _cost(self, suspect: Suspect) -> float:
        mends = dict.fromkeys(mend_of(self.machine, name) for name in suspect.faults)
        minutes = sum(mend.minutes for mend in mends) + self.rates.test_run_minutes
        if any(mend.thing in self.rates.missing and mend.price > 0.0 for mend in mends):
            minutes += self.rates.return_minutes
        return sum(mend.price for mend in mends) + minutes * self.rates.minute

    def _looking(self, looks: tuple[Action, ...]) -> float:
        return sum(act_minutes(self.machine, look) for look in looks) * self.rates.minute if looks else inf

    def _zones(self, suspect: Suspect, looks: tuple[Action, ...]) -> frozenset[str]:
        mended = frozenset(self.machine.faults[fault].zone for fault in suspect.faults)
        return mended.union(*(zones_of(self.machine, look) for look in looks))

    def _opening(self, name: str) -> float:
        zone = self.machine.zones[name]
        return 0.0 if name in self.opened else (zone.open_minutes + zone.close_minutes) * self.rates.minute


def _mends(machine: Machine, suspect: Suspect) -> Hashable:
    """What is done for a suspect: the same thing may be reset for one fault and changed for another."""
    return tuple(dict.fromkeys(mend_of(machine, name) for name in suspect.faults))


def _looks(suspect: Suspect, proofs: Mapping[str, Action]) -> tuple[Action, ...]:
    """The checks that prove every fault of a suspect; none if one of them cannot be proved."""
    proved = all(fault in proofs for fault in suspect.faults)
    return tuple(dict.fromkeys(proofs[fault] for fault in suspect.faults)) if proved else ()

"""What can be done at the end of a diagnosis: change a part, mend a wire, hand the machine back, or refer it.

Costs are in the sheet's currency. Rates of a working day: common practice, from memory; a shop sets its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfsplit.nextcheck.cost import Remedies
from halfsplit.techsheet import Machine
from halfsplit.trade import NOT_ON_SHEET, Suspect

REFER = "refer"


@dataclass(frozen=True, slots=True)
class Rates:
    """What time and mistakes cost, in the sheet's currency.

    Attributes:
        minute: One minute of work.
        test_run_minutes: Trying the machine after a repair.
        wrong_part: What a part changed in vain costs beyond its price and time (it cannot be sold as used).
        callback: An unpaid return.
        refer: Handing the case on with nothing found; dearer than any repair, or the search would end there.
    """

    minute: float = 1.5
    test_run_minutes: float = 5.0
    wrong_part: float = 15.0
    callback: float = 120.0
    refer: float = 700.0


def remedies(machine: Machine, suspects: Sequence[Suspect], opened: frozenset[str], rates: Rates) -> Remedies:
    """One remedy for every set of things that some suspect blames, and the two that need no part.

    Args:
        machine: The machine.
        suspects: In the order of the shares; the last is `NOT_ON_SHEET`.
        opened: Zones already open.
        rates: What time and mistakes cost.
    """
    names = list(dict.fromkeys(remedy_name(machine, suspect) for suspect in suspects))
    cures = np.array([[float(remedy_name(machine, suspect) == name) for suspect in suspects] for name in names])
    cures[names.index(REFER)] = 1.0
    first = {remedy_name(machine, suspect): suspect for suspect in reversed(suspects)}
    costs = np.array([_cost(machine, first[name], opened, rates) for name in names])
    test = rates.test_run_minutes * rates.minute
    failing = np.array([_failing(name, rates) for name in names])
    return Remedies(tuple(names), cures, costs + test, failing)


def remedy_name(machine: Machine, suspect: Suspect) -> str:
    """What cures a suspect: the things it blames, in order."""
    if suspect == NOT_ON_SHEET:
        return REFER
    return " + ".join(dict.fromkeys(machine.faults[fault].thing for fault in suspect.faults))


def _cost(machine: Machine, suspect: Suspect, opened: frozenset[str], rates: Rates) -> float:
    if suspect == NOT_ON_SHEET:
        return rates.refer
    faults = [machine.faults[name] for name in suspect.faults]
    minutes = sum(fault.minutes for fault in faults) + zone_minutes(machine, {fault.zone for fault in faults} - opened)
    return sum(fault.price for fault in faults) + minutes * rates.minute


def _failing(name: str, rates: Rates) -> float:
    if not name:  # handed back as sound, and it was not
        return rates.callback
    return 0.0 if name == REFER else rates.wrong_part


def zone_minutes(machine: Machine, zones: set[str]) -> float:
    """Minutes to open and close zones."""
    return sum(machine.zones[zone].open_minutes + machine.zones[zone].close_minutes for zone in zones)



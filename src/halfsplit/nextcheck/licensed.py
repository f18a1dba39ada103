"""What is mended on a call, and what is left to licensed practice: the fixed wiring of the house.

Up to and with the outlet the wiring belongs to the house: supply, breaker, outlet, and the wires between them. An
appliance technician proves at the outlet that it is at fault, may reset a breaker, and hands the rest on (common
practice, no source; local codes come first). So all of it is one thing to do, and no check is spent on telling apart
what the electrician finds.
"""

from __future__ import annotations

from dataclasses import dataclass

from halfsplit.techsheet import Fault, Machine

TO_ELECTRICIAN = "refer to the electricity supplier or a licensed electrician"
HANDING_ON_MINUTES = 15.0
"""Telling the customer, switching off, writing it down (common practice, from memory)."""
_HOUSE_KINDS = ("supply", "breaker", "outlet")
_RESET = "reset"


@dataclass(frozen=True, slots=True)
class Mend:
    """What is done about a fault: to which thing, in words, its price and minutes."""

    thing: str
    says: str
    price: float
    minutes: float


def mend_of(machine: Machine, name: str) -> Mend:
    """What is done about a fault, by its name."""
    fault = machine.faults[name]
    house = house_of(machine) if _is_fixed(machine, fault) else ""
    if house:
        says = fault.mend if fault.thing == house else TO_ELECTRICIAN
        return Mend(house, says, 0.0, HANDING_ON_MINUTES)
    return Mend(fault.thing, fault.mend, fault.price, fault.minutes)


def house_of(machine: Machine) -> str:
    """The part that stands for the supply of the house; empty if the sheet has none."""
    return next((part.name for part in machine.parts.values() if part.kind.endswith(_HOUSE_KINDS[0])), "")


def _is_fixed(machine: Machine, fault: Fault) -> bool:
    if fault.mend.startswith(_RESET):
        return False
    wire = machine.wires.get(fault.thing)
    ends = [point.rpartition(".")[0] for point in wire.ends] if wire else [fault.thing]
    return all(end in machine.parts and machine.parts[end].kind.endswith(_HOUSE_KINDS) for end in ends)

"""What is where: the zones in the order they come off, what is in each, and the wires to tag before they are lifted."""

from __future__ import annotations

from dataclasses import dataclass

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet import Machine, Wire, Zone, did_you_mean


@dataclass(frozen=True, slots=True)
class Access:
    """One zone: the parts in it, and every wire that ends on one of them, by terminal."""

    zone: Zone
    parts: tuple[str, ...]
    wires: tuple[tuple[str, Wire], ...]


def access_list(machine: Machine, part: str = "") -> tuple[Access, ...]:
    """Every zone in the sheet's order, or only the one of a part, with that part's wires alone.

    Raises:
        InputError: There is no such part.
    """
    if part and part not in machine.parts:
        raise InputError(f"There is no part {quoted(part)}.", did_you_mean(part, machine.parts))
    found = []
    for zone in machine.zones.values():
        inside = [name for name, one in machine.parts.items() if one.zone == zone.name and part in ("", name)]
        if inside:
            found.append(Access(zone, tuple(inside), _ends_on(machine, inside)))
    return tuple(found)


def _ends_on(machine: Machine, parts: list[str]) -> tuple[tuple[str, Wire], ...]:
    """Terminals with each wire on them, in the order of parts and terminals."""
    points = [f"{name}.{terminal}" for name in parts for terminal in machine.parts[name].terminals]
    return tuple((point, wire) for point in points for wire in machine.wires.values() if point in (wire.a, wire.b))

"""Points at which nothing is ever read on a live machine: those a kind names, and all that wires join to them."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping

from halfsplit.techsheet.kinds.base import Stamp
from halfsplit.techsheet.machine import Part, Wire


def dead_only_points(
    stamps: Mapping[str, Stamp], wires: Mapping[str, Wire], parts: Mapping[str, Part]
) -> dict[str, str]:
    """Point to why it is so.

    A wire carries it on whatever its colour and wherever a joint is. Cabinet metal takes none of it, as every part of
    a machine is joined to that.
    """
    metal = {
        f"{part.name}.{terminal}" for part in parts.values() if part.kind == "chassis" for terminal in part.terminals
    }
    why = {f"{name}.{terminal}": text for name, stamp in stamps.items() for terminal, text in stamp.dead_only.items()}
    joined: dict[str, list[str]] = {}
    for wire in wires.values():
        joined.setdefault(wire.a, []).append(wire.b)
        joined.setdefault(wire.b, []).append(wire.a)
    queue = deque(why)
    while queue:
        point = queue.popleft()
        for other in joined.get(point, []):
            if other not in why and other not in metal:
                why[other] = why[point]
                queue.append(other)
    beside = {f"{name}.{terminal}": text for name, stamp in stamps.items() for terminal, text in stamp.beside.items()}
    return beside | why

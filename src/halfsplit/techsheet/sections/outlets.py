"""Outlets whose line and neutral were landed on each other's screws: a fault of the house that no single wire has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from halfsplit.circuit import NEVER, Branch, Patch
from halfsplit.techsheet.kinds.panel import REFER
from halfsplit.techsheet.machine import Fault, Part, Wire

_CROSSED = {"L": "N", "N": "L"}
_OWN_SWAP = "single-phase supply"
"""This supply ends at the outlet and brings the swap itself."""
_RATE = 1.0


def swapped_outlets(
    parts: Mapping[str, Part], wires: Mapping[str, Wire], branches: tuple[Branch, ...]
) -> tuple[tuple[Branch, ...], dict[str, Fault]]:
    """For each outlet with a line and a neutral: its wires once more, dormant and crossed, and the fault.

    Args:
        parts: All parts.
        wires: All wires.
        branches: Those of the wires.
    """
    if any(part.kind == _OWN_SWAP for part in parts.values()):
        return (), {}
    made: list[Branch] = []
    faults = {}
    for outlet in (part for part in parts.values() if part.kind == "outlet" and {"L", "N"} <= {*part.terminals}):
        straight, crossed = _landed(outlet, wires, branches)
        if straight:
            made += crossed
            fault = _fault(outlet, straight, crossed)
            faults[fault.name] = fault
    return tuple(made), faults


def _landed(outlet: Part, wires: Mapping[str, Wire], branches: tuple[Branch, ...]) -> tuple[list[Branch], list[Branch]]:
    """The wires on the outlet's line and neutral, and the same wires each on the other's screw."""
    swap = {f"{outlet.name}.{end}": f"{outlet.name}.{other}" for end, other in _CROSSED.items()}
    straight = [branch for branch in branches if branch.name in wires and {branch.a, branch.b} & swap.keys()]
    crossed = [
        replace(
            branch,
            name=f"{outlet.name} swapped:{branch.name}",
            a=swap.get(branch.a, branch.a),
            b=swap.get(branch.b, branch.b),
            condition=NEVER,
        )
        for branch in straight
    ]
    return straight, crossed


def _fault(outlet: Part, straight: list[Branch], crossed: list[Branch]) -> Fault:
    patches = [Patch("open", branch.name) for branch in straight]
    patches += [Patch("closed", branch.name) for branch in crossed]
    return Fault(
        name=f"{outlet.name}:swapped",
        thing=outlet.name,
        says=f"the {outlet.title} has line and neutral swapped",
        rate=_RATE,
        patches=tuple(patches),
        mend=REFER,
        price=outlet.price,
        minutes=outlet.minutes,
        zone=outlet.zone,
    )

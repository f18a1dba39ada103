"""Two leads of a part put back on each other's terminals: suspected only where the sheet says `crossable`.

Each wire that ends on one of the two is there twice: as it should be, and with its end on the other terminal. A
variable of the part's own says which of them is real, so whatever else makes a wire conduct or not holds for both.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from halfsplit.circuit import Branch, Condition, Patch
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.machine import Fault, Part
from halfsplit.techsheet.sections.draft import Draft
from halfsplit.techsheet.words import did_you_mean

COPY = "~"
"""Stands between a wire's name and what its copy is for; no name of a part has it."""
_STRAIGHT, _CROSSED = "straight", "crossed"
_RATE = 0.5
_MINUTES = 5.0


def read_crossed(
    draft: Draft, parts: Mapping[str, Part], branches: tuple[Branch, ...]
) -> tuple[tuple[Branch, ...], dict[str, Fault]]:
    """The branches of the wires with their copies, and a fault for every two leads that can be crossed.

    Args:
        draft: The sheet.
        parts: All parts.
        branches: Those of the wires.
    """
    faults = {}
    for part in parts.values():
        for index, (one, other) in enumerate(draft.crossable.get(part.name, ())):
            with draft.noting("parts", part.name, "crossable", index):
                _check(part, (one, other), branches)
                fault = _fault(part, one, other)
                branches = _both_ways(branches, fault.name, {f"{part.name}.{one}", f"{part.name}.{other}"})
                draft.variables[fault.name] = (_STRAIGHT, _CROSSED)
                faults[fault.name] = fault
    return branches, faults


def wire_of(branch: str) -> str:
    """The wire of which a branch is a copy; any other branch's own name.

    >>> wire_of("door.NO-heater.1~door:crossed-NO-NC"), wire_of("door.NO-heater.1")
    ('door.NO-heater.1', 'door.NO-heater.1')
    """
    return branch.partition(COPY)[0] or branch


def with_copies(fault: Fault, branches: tuple[Branch, ...]) -> Fault:
    """The fault with what it does to a wire done to the wire's copies too: an open wire is open wherever its end is."""
    copies: dict[str, list[str]] = {}
    for branch in branches:
        if (wire := wire_of(branch.name)) != branch.name:
            copies.setdefault(wire, []).append(branch.name)
    more = [replace(patch, target=name) for patch in fault.patches for name in copies.get(patch.target, ())]
    return replace(fault, patches=(*fault.patches, *more)) if more else fault


def _check(part: Part, ends: tuple[str, str], branches: tuple[Branch, ...]) -> None:
    for end in ends:
        if end not in part.terminals:
            right = did_you_mean(end, part.terminals)
            raise InputError(f"{quoted(part.name)} has no terminal {quoted(end)}.", right)
        if not any(f"{part.name}.{end}" in (branch.a, branch.b) for branch in branches):
            raise InputError(
                f"No wire ends on {quoted(f'{part.name}.{end}')}.", "Name two terminals with leads on them."
            )


def _both_ways(branches: tuple[Branch, ...], variable: str, ends: set[str]) -> tuple[Branch, ...]:
    one, other = sorted(ends)
    swap = {one: other, other: one}
    made: list[Branch] = []
    for branch in branches:
        if not ends & {branch.a, branch.b}:
            made.append(branch)
            continue
        made.append(replace(branch, condition=_while(branch.condition, variable, _STRAIGHT)))
        crossed = _while(branch.condition, variable, _CROSSED)
        name, a, b = f"{branch.name}{COPY}{variable}", swap.get(branch.a, branch.a), swap.get(branch.b, branch.b)
        made.append(replace(branch, name=name, a=a, b=b, condition=crossed))
    return tuple(made)


def _while(condition: Condition, variable: str, position: str) -> Condition:
    return tuple((*both, (variable, frozenset({position}))) for both in condition)


def _fault(part: Part, one: str, other: str) -> Fault:
    name = f"{part.name}:crossed-{one}-{other}"
    return Fault(
        name=name,
        thing=part.name,
        says=f"the leads on {one} and {other} of the {part.title} are crossed",
        rate=_RATE,
        patches=(Patch("pin", name, position=_CROSSED),),
        mend=f"put the leads on {one} and {other} of the {part.title} the right way round",
        price=0.0,
        minutes=_MINUTES,
        zone=part.zone,
    )

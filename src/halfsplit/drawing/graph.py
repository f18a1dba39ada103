"""The machine as a graph to draw: terminals, and what stands between two of them.

What may live here: links and where the supply comes in. It must not know paths, places on paper or colours of ink.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from halfsplit.circuit import ALWAYS, NEVER, Branch, Condition, Pole
from halfsplit.techsheet import Machine

LinkKind = Literal["wire", "element", "inside", "metal"]
LOADS = frozenset({"heater", "lamp", "led", "motor", "neon", "winding", "resistor", "board"})
"""Symbols of things that use power: a rung is the way from one pole of the supply to another through one of them."""


@dataclass(frozen=True, slots=True)
class Link:
    """What stands between two terminals.

    Attributes:
        name: The wire's name, or the branch's.
        kind: A wire; a part's element; a contact `inside` a part that has no element of its own; cabinet `metal`.
        symbol: Symbol to draw (empty for wires and metal).
        a: Terminal at one end.
        b: Terminal at the other end.
        thing: The part or wire it belongs to.
        colour: The wire's insulation, as written (empty for all else).
        conducts: When it conducts.
    """

    name: str
    kind: LinkKind
    symbol: str
    a: str
    b: str
    thing: str
    colour: str = ""
    conducts: Condition = ALWAYS

    @property
    def ends(self) -> frozenset[str]:
        """Both terminals."""
        return frozenset((self.a, self.b))

    @property
    def is_load(self) -> bool:
        """Whether it uses power."""
        return self.symbol in LOADS

    def other(self, point: str) -> str:
        """The terminal at the end that is not `point`."""
        return self.b if point == self.a else self.a


def part_of(point: str) -> str:
    """Name of the part a terminal is on."""
    return point.rpartition(".")[0]


def terminal_of(point: str) -> str:
    """A terminal's name as printed on its part."""
    return point.rpartition(".")[2]


def links_of(machine: Machine) -> tuple[Link, ...]:
    """Every link of the machine: elements first, then what else is inside parts, then wires, in the sheet's order."""
    elements = tuple(_elements(machine))
    return (*elements, *_inside(machine, elements), *_metal(machine), *_wires(machine))


def supply_points(machine: Machine) -> dict[str, Pole]:
    """The terminals at which the supply comes in, each with its pole, in the order of the poles."""
    visible = set(machine.points)
    found: dict[str, Pole] = {}
    for pole in machine.network.poles:
        own = [branch for branch in machine.network.branches if branch.name.startswith(f"{part_of(pole.point)}:")]
        near = {pole.point}
        while more := {_beyond(branch, point) for point in near - visible for branch in own} - near - {""}:
            near |= more
        found.update({point: pole for point in machine.points if point in near})
    return found


def metal_points(machine: Machine) -> tuple[str, ...]:
    """The screws of the cabinet, which are one piece of metal; empty if the sheet has none."""
    if not machine.chassis:
        return ()
    part = machine.parts[part_of(machine.chassis)]
    return tuple(f"{part.name}.{terminal}" for terminal in part.terminals)


def _beyond(branch: Branch, point: str) -> str:
    if point not in (branch.a, branch.b):
        return ""
    return branch.b if point == branch.a else branch.a


def _elements(machine: Machine) -> list[Link]:
    """An element conducts when its branch does, or one beside it: a winding at rest or turning is one winding."""
    beside = _by_ends(machine)
    ends = {branch.name: _ends(branch) for branch in machine.network.branches}
    return [
        Link(
            element.branch,
            "element",
            element.symbol,
            element.a,
            element.b,
            element.branch.partition(":")[0],
            conducts=_any_of(beside[ends[element.branch]]),
        )
        for element in machine.elements
    ]


def _inside(machine: Machine, elements: tuple[Link, ...]) -> list[Link]:
    """Branches between two terminals of one part which no element stands for. Dormant ones never conduct: no link."""
    drawn = {element.ends for element in elements}
    visible = set(machine.points) - set(metal_points(machine))
    found = {}
    for ends, branches in _by_ends(machine).items():
        conducts = _any_of(branches)
        one_part = len({part_of(point) for point in ends}) == 1
        if len(ends) == 2 and ends <= visible and one_part and ends not in drawn and conducts != NEVER:
            if machine.parts[part_of(next(iter(ends)))].kind == "board":
                continue  # nobody's paper shows what is on a board: it is drawn as a box with its connectors
            first = branches[0]
            symbol = "link" if () in conducts else "contact"
            found[ends] = Link(first.name, "inside", symbol, first.a, first.b, part_of(first.a), conducts=conducts)
    return list(found.values())


def _metal(machine: Machine) -> list[Link]:
    """From screw to screw along the cabinet: which pairs stand side by side means nothing, they are one point."""
    screws = metal_points(machine)
    return [Link(f"{part_of(b)}:metal-{terminal_of(b)}", "metal", "", a, b, part_of(b)) for a, b in pairwise(screws)]


def _wires(machine: Machine) -> list[Link]:
    return [
        Link(wire.name, "wire", "", wire.a, wire.b, wire.name, wire.colour, wire.condition)
        for wire in machine.wires.values()
    ]


def _by_ends(machine: Machine) -> Mapping[frozenset[str], list[Branch]]:
    """Branches of parts, grouped by the pair of points they join; wires and stray capacitance are left out."""
    grouped: dict[frozenset[str], list[Branch]] = {}
    for branch in machine.network.branches:
        if branch.name.partition(":")[0] in machine.parts:
            grouped.setdefault(_ends(branch), []).append(branch)
    return grouped


def _ends(branch: Branch) -> frozenset[str]:
    return frozenset((branch.a, branch.b))


def _any_of(branches: list[Branch]) -> Condition:
    return tuple(alternative for branch in branches for alternative in branch.condition)

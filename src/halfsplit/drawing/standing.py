"""How the machine stands while a check is made, and what is already known of its things: what the drawing marks.

What may live here: which contacts are closed and which wires are lifted, from positions. It solves nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from halfsplit.drawing.graph import Link
from halfsplit.techsheet import LIFT, PUT_BACK, Machine
from halfsplit.trade import Setup


@dataclass(frozen=True, slots=True)
class Standing:
    """How settings and moving things stand.

    Attributes:
        positions: Variable to position; what is missing stands at the sheet's defined start.
        lifted: Names of lifted wires.
        live: Terminals that carry voltage against the cabinet, as far as whoever asks has worked out.
        flowing: Wires and branches with current in them, likewise.
    """

    positions: Mapping[str, str] = field(default_factory=dict)
    lifted: frozenset[str] = frozenset()
    live: frozenset[str] = frozenset()
    flowing: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of things, by name of part, wire or branch, and how the machine stands (None: at rest)."""

    cleared: frozenset[str] = frozenset()
    suspected: frozenset[str] = frozenset()
    standing: Standing | None = None


def standing_in(setup: Setup) -> Standing:
    """What the steps of a setup leave set and lifted. What the machine moves by itself is left at rest."""
    positions: dict[str, str] = {}
    lifted: set[str] = set()
    for what, how in setup.steps:
        if what == LIFT:
            lifted.add(how)
        elif what == PUT_BACK:
            lifted.discard(how)
        else:
            positions[what] = how
    return Standing(positions, frozenset(lifted))


def is_closed(machine: Machine, standing: Standing, link: Link) -> bool:
    """Whether a contact is closed as the machine stands."""
    return not in_its_way(machine, standing, link)


def in_its_way(machine: Machine, standing: Standing, link: Link) -> frozenset[str]:
    """The variables that would have to move for a contact to close; of several ways the one with the fewest."""
    start = {name: positions[0] for name, positions in machine.network.positions().items()}
    now = {**start, **standing.positions}
    wrong = [frozenset(name for name, allowed in every if now[name] not in allowed) for every in link.conducts]
    return min(wrong, key=len)


def marks_of(known: Known, link: Link) -> tuple[str, ...]:
    """Marks beside a link: `lifted`, `suspected`, `cleared`. What is suspected again is not called cleared."""
    names = {link.name, link.thing}
    lifted = known.standing is not None and link.name in known.standing.lifted
    suspected, cleared = bool(names & known.suspected), bool(names & known.cleared)
    marks = {"lifted": lifted, "suspected": suspected, "cleared": cleared and not suspected}
    return tuple(mark for mark, holds in marks.items() if holds)

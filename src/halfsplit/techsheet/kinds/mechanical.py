"""Mechanical things with no wire: belts, drums, wheels, ducts. Their states move contacts and gate functions."""

from __future__ import annotations

from halfsplit.circuit import Patch
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import FaultForm, Kind, Shown, Stamp, Surroundings

_RATE = 12.0


def _mechanical(part: PartValues, around: Surroundings) -> Stamp:
    """The part itself is a variable; each state but the first is a fault."""
    del around
    states = part.states("states")
    mend = f"mend the {part.title}"
    faults = tuple(
        FaultForm(name, says, _RATE, (Patch("pin", part.part, position=name),), mend, whole=True)
        for name, says in list(states.items())[1:]
    )
    shows = {"state": Shown(variable=part.part, position=next(iter(states)))}
    return Stamp(variables={part.part: tuple(states)}, faults=faults, shows=shows)


KINDS = (
    Kind(
        "mechanical",
        "Belt, wheel, duct: no terminals, but states that contacts and functions ask for.",
        (Attribute("states", "states", "States, the sound one first, each with a sentence for what is wrong."),),
        _mechanical,
        early=True,
    ),
)

"""Mechanical things with no wire: belts, drums, wheels, ducts. Their states move contacts and gate functions."""

from __future__ import annotations

from halfsplit.circuit import Patch
from halfsplit.errors import InputError
from halfsplit.techsheet.kinds.base import Attribute, FaultForm, Kind, PartValues, Shown, Stamp, Surroundings

_RATE = 12.0


def _mechanical(part: PartValues, around: Surroundings) -> Stamp:
    """The part itself is a variable; each state but the first is a fault."""
    del around
    states = part.states("states")
    if len(states) < 2:  # noqa: PLR2004 - sound, and at least one way to be wrong
        raise InputError(f"{part.part!r} has no bad state.", "Write `states: {whole: , broken: what is wrong}`.")
    wrong = list(states.items())[1:]
    faults = tuple(FaultForm(name, says, _RATE, (Patch("pin", part.part, position=name),)) for name, says in wrong)
    shows = {"state": Shown(variable=part.part, position=next(iter(states)))}
    return Stamp(variables={part.part: tuple(states)}, faults=faults, shows=shows)


KINDS = (
    Kind(
        "mechanical",
        "Belt, wheel, duct: no terminals.",
        (Attribute("states", "states", "States, the sound one first, each with a sentence for what is wrong."),),
        _mechanical,
    ),
)

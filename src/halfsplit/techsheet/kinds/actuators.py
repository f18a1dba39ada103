"""Actuators: solenoids, wax motors and door locks, which move something while they are fed and let it go after.

A wax motor's heater is a PTC: that its current falls as it gets hot is left out, and it takes its minute. A door lock
locks only with its door shut, and its contact closes only while it has locked. Shares, delays and rates: common
practice, from memory.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from halfsplit.circuit import ALWAYS, NO, YES, Branch, Condition, Drive, Patch, Threshold, when
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    CONTACT_OHM,
    Element,
    FaultForm,
    Kind,
    Shown,
    Stamp,
    Surroundings,
    closed_patch,
    impedance,
    open_patch,
)

_MOVES_SHARE, _STAYS_SHARE = 0.65, 0.3


@dataclass(frozen=True, slots=True)
class _How:
    """What is told of an actuator that has moved, how long it takes, and in words how it jams and how it stays."""

    moved: str
    seconds: float
    jams: str
    stays: str


_SOLENOID = _How("moved", 0.05, "does not move though its coil has current", "does not go back")
_WAX = _How("moved", 60.0, "does not move though its heater has current", "does not go back when it has cooled down")
_LOCK = _How("locked", 2.0, "does not lock though it is fed and its door is shut", "does not unlock")


def _mover(how: _How) -> Callable[[PartValues, Surroundings], Stamp]:
    return lambda part, around: _moving(part, around, how, ALWAYS)


def _lock(part: PartValues, around: Surroundings) -> Stamp:
    """As the others, and a contact C-NO that tells the rest of the machine that it has locked."""
    name, a, b = part.branch("C-NO"), part.point("C"), part.point("NO")
    contact = Branch(name, a, b, CONTACT_OHM, condition=when(part.branch(_LOCK.moved), YES))
    stamp = _moving(part, around, _LOCK, around.read_state(part.name("door")))
    return replace(
        stamp,
        branches=(*stamp.branches, contact),
        faults=(
            *stamp.faults,
            FaultForm("C-NO-open", "locks and does not close its contact C-NO", 6.0, open_patch(name)),
            FaultForm("C-NO-welded", "does not open its contact C-NO", 2.0, closed_patch(name)),
        ),
        elements=(*stamp.elements, Element("contact", a, b, name)),
        terminals=(*stamp.terminals, "C", "NO"),
    )


def _moving(part: PartValues, around: Surroundings, how: _How, able: Condition) -> Stamp:
    """Coil or heater 1-2 and what it moves. What moves it is its current: an open one has volts too."""
    coil, moved, volts = part.branch("coil"), part.branch(how.moved), part.number("volts")
    amps = part.number("current") if part.has("current") else volts / part.number("coil")
    ohm, henry = impedance(part.number("coil"), volts / amps, around.hertz)
    a, b = part.point("1"), part.point("2")
    moves, stays = (Threshold(coil, "amps", share * amps) for share in (_MOVES_SHARE, _STAYS_SHARE))
    return Stamp(
        (Branch(coil, a, b, ohm, henry, dc_ohm=part.number("coil"), tolerance=0.1),),
        drives=(Drive(moved, ((moves,),), (stays,), how.seconds, able),),
        faults=(
            FaultForm("coil-open", "is open inside", 8.0, open_patch(coil)),
            FaultForm("jammed", how.jams, 5.0, (Patch("pin", moved, position=NO),)),
            FaultForm("stuck", how.stays, 3.0, (Patch("pin", moved, position=YES),)),
        ),
        shows={how.moved: Shown(variable=moved, position=YES)},
        elements=(Element("winding", a, b, coil),),
        terminals=("1", "2"),
    )


_FEED = (
    Attribute("volts", "volts", "Rated voltage.", 120.0),
    Attribute("coil", "ohms", "Resistance an ohmmeter finds, 1 to 2."),
    Attribute("current", "amps", "Its current at that voltage; by its ohms if left out.", optional=True),
)
KINDS = (
    Kind("solenoid", "Solenoid 1-2 that pulls something while it is fed. It shows `moved`.", _FEED, _mover(_SOLENOID)),
    Kind(
        "wax motor",
        "Heater 1-2 in a wax element that pushes after about a minute, as on dispensers and vents. It shows `moved`.",
        _FEED,
        _mover(_WAX),
    ),
    Kind(
        "door lock",
        "Lock with its coil or heater 1-2, and a contact C-NO closed while it has locked. It shows `locked`.",
        (*_FEED, Attribute("door", "state", "State without which it cannot lock, as in `door shut`.")),
        _lock,
    ),
)

"""Shaded-pole motors: one winding, no start help; and the small pumps they drive.

Shares, power factors, delays and rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Drive, Patch, Threshold, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    CONTACT_OHM,
    Element,
    FaultForm,
    Kind,
    Shown,
    Stamp,
    Surroundings,
    impedance,
    open_patch,
)

_START_SHARE, _HOLD_SHARE, _HUM_SHARE = 0.6, 0.5, 0.3
_START_S, _HUM_S = 0.4, 1.5
_RUNNING_POWER_FACTOR, _LOCKED_POWER_FACTOR = 0.6, 0.65


def _motor(part: PartValues, around: Surroundings) -> Stamp:
    seized = FaultForm("seized", "is seized", 6.0, _still(part))
    return one_winding(part, around, seized)


def _pump(part: PartValues, around: Surroundings) -> Stamp:
    """As the motor; what stops it first is something it has swallowed, which costs nothing to take out."""
    return one_winding(part, around, *swallowed(part))


def swallowed(part: PartValues) -> tuple[FaultForm, FaultForm]:
    """How a pump comes to stand still."""
    clear = f"clear the {part.title}"
    return (
        FaultForm("jammed", "is jammed by something it swallowed", 15.0, _still(part), clear, price=0.0),
        FaultForm("seized", "is seized", 4.0, _still(part)),
    )


def _still(part: PartValues) -> tuple[Patch, ...]:
    return (Patch("pin", part.branch("running"), position=NO),)


def one_winding(part: PartValues, around: Surroundings, *stuck: FaultForm) -> Stamp:
    """Winding 1-2 behind a protector that stays closed when sound: held still, it is made to stand its own heat."""
    running, hums = part.branch("running"), part.branch("hums")
    protector, middle = part.branch("protector"), part.point("~winding")
    standing, turning = _windings(part, middle, around.hertz)
    held = Threshold(turning.name, "amps", _HOLD_SHARE * part.number("running current"))
    starts = Threshold(standing.name, "amps", _START_SHARE * part.number("locked current"))
    hum = Threshold(standing.name, "amps", _HUM_SHARE * part.number("locked current"))
    free = around.read_state(part.name("turns"))
    return Stamp(
        (standing, turning, Branch(protector, part.point("1"), middle, CONTACT_OHM)),
        drives=(
            Drive(running, ((starts,),), (held,), _START_S, free),
            Drive(hums, ((hum,),), None, _HUM_S, when(running, NO)),
        ),
        faults=(
            FaultForm("open", "has an open winding or thermal protector", 8.0, open_patch(protector)),
            *stuck,
        ),
        shows={"speed": Shown(variable=running, position=YES), "hum": Shown(variable=hums, position=YES)},
        elements=(Element("motor", part.point("1"), part.point("2"), standing.name),),
        terminals=("1", "2"),
    )


def _windings(part: PartValues, middle: str, hertz: float) -> tuple[Branch, Branch]:
    """The one winding, standing and running."""
    volts, ohm = part.number("volts"), part.number("winding")
    if part.number("locked current") < part.number("running current"):
        what = f"{quoted(part.part)} takes less current standing than running."
        raise InputError(what, "Its locked current is that of a rotor held still.")
    made = []
    for name, current, factor, how in (
        ("standing", "locked current", _LOCKED_POWER_FACTOR, NO),
        ("running", "running current", _RUNNING_POWER_FACTOR, YES),
    ):
        whole = volts / part.number(current)
        impedance(ohm, whole, hertz)  # refuses a winding whose ohms alone are more than the whole
        made.append(
            Branch(
                part.branch(f"winding-{name}"),
                middle,
                part.point("2"),
                *impedance(factor * whole, whole, hertz),
                dc_ohm=ohm,
                condition=when(part.branch("running"), how),
                tolerance=0.08,
            )
        )
    return made[0], made[1]


_ATTRIBUTES = (
    Attribute("volts", "volts", "Rated voltage.", 120.0),
    Attribute("winding", "ohms", "Resistance an ohmmeter finds."),
    Attribute("running current", "amps", "Its current, running."),
    Attribute("locked current", "amps", "Its current, rotor held still."),
    Attribute("turns", "state", "State without which it cannot turn, as in `fan free`."),
)
KINDS = (
    Kind("shaded-pole motor", "Small fan motor with one winding 1-2 and no start help.", _ATTRIBUTES, _motor),
    Kind(
        "pump",
        "Drain or circulation pump, a shaded-pole motor 1-2; what its water needs stands in `needs` of a function.",
        _ATTRIBUTES,
        _pump,
    ),
)

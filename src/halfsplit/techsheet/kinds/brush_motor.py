"""Brush motors for the mains: field and armature apart, put in series (and turned round) by the wiring.

Standing and running are two impedances of the armature, since its back voltage goes with its speed. Shares, power
factors, delays and rates: common practice, from memory.
"""

from __future__ import annotations

import math

from halfsplit.circuit import NEVER, NO, YES, Branch, Drive, Patch, Threshold, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    Element,
    FaultForm,
    Kind,
    Shown,
    Stamp,
    Surroundings,
    closed_patch,
    open_patch,
)
from halfsplit.units import show

_POWER_FACTOR = 0.9
_START_SHARE, _HOLD_SHARE, _HUM_SHARE = 0.5, 0.4, 0.3
_START_S, _HUM_S = 0.3, 1.5
_FIELD_REACTANCE = 2.0
"""Reactance of a field at the mains' frequency, in times its ohms."""
_GROUND_FAULT_OHM = 0.5


def _motor(part: PartValues, around: Surroundings) -> Stamp:
    """Field 1-2, armature A-B through its brushes, case G."""
    running, hums = part.branch("running"), part.branch("hums")
    field, standing, turning = _branches(part, around.hertz)
    locked = _locked_amps(part)
    starts = (
        Threshold(field.name, "amps", _START_SHARE * locked),
        Threshold(standing.name, "amps", _START_SHARE * locked),
    )
    holds = (Threshold(turning.name, "amps", _HOLD_SHARE * part.number("running current")),)
    hum = Threshold(field.name, "amps", _HUM_SHARE * locked)
    grounded = Branch(
        part.branch("field-to-case"), part.point("1"), part.point("G"), _GROUND_FAULT_OHM, condition=NEVER
    )
    return Stamp(
        (field, standing, turning, grounded),
        drives=(
            Drive(running, (starts,), holds, _START_S, around.read_state(part.name("turns"))),
            Drive(hums, ((hum,),), None, _HUM_S, when(running, NO)),
        ),
        faults=(
            FaultForm("brushes", "has brushes that are worn out", 20.0, open_patch(standing.name, turning.name)),
            FaultForm("field-open", "has an open field", 2.0, open_patch(field.name)),
            FaultForm("seized", "is seized", 2.0, (Patch("pin", running, position=NO),)),
            FaultForm("grounded", "has its field touching its case", 1.5, closed_patch(grounded.name)),
        ),
        shows={"speed": Shown(variable=running, position=YES), "hum": Shown(variable=hums, position=YES)},
        elements=(
            Element("winding", field.a, field.b, field.name),
            Element("motor", standing.a, standing.b, standing.name),
        ),
        terminals=("1", "2", "A", "B", "G"),
    )


def _locked_amps(part: PartValues) -> float:
    """What field and armature let through with the rotor still."""
    field, armature = part.number("field"), part.number("armature")
    return part.number("volts") / abs(complex(field + armature, _FIELD_REACTANCE * field))


def _branches(part: PartValues, hertz: float) -> tuple[Branch, Branch, Branch]:
    """Field, armature standing, armature running: with the field in series it takes its running current."""
    field, armature = part.number("field"), part.number("armature")
    whole = part.number("volts") / part.number("running current")
    turning = _POWER_FACTOR * whole - field
    if turning <= armature:
        raise InputError(
            f"{quoted(part.part)} would run slower than standing still: {show(whole, 'Ω')} is all its running current "
            "leaves.",
            "Its windings are a small part of volts by running current.",
        )
    omega = 2.0 * math.pi * hertz
    rest = max(math.sqrt(1.0 - _POWER_FACTOR**2) * whole - _FIELD_REACTANCE * field, 0.0)
    running = part.branch("running")
    a, b = part.point("A"), part.point("B")
    return (
        Branch(
            part.branch("field"),
            part.point("1"),
            part.point("2"),
            field,
            _FIELD_REACTANCE * field / omega,
            dc_ohm=field,
            tolerance=0.06,
        ),
        Branch(part.branch("armature-standing"), a, b, armature, condition=when(running, NO), tolerance=0.2),
        Branch(
            part.branch("armature-running"),
            a,
            b,
            turning,
            rest / omega,
            dc_ohm=armature,
            condition=when(running, YES),
            tolerance=0.15,
        ),
    )


KINDS = (
    Kind(
        "brush motor",
        "Mains motor with brushes: field 1-2 and armature A-B, which the wiring puts in series; case G.",
        (
            Attribute("volts", "volts", "Rated voltage of both in series.", 120.0),
            Attribute("field", "ohms", "Resistance an ohmmeter finds, 1 to 2."),
            Attribute("armature", "ohms", "Resistance an ohmmeter finds, A to B, through brushes and windings."),
            Attribute("running current", "amps", "Its current, running."),
            Attribute("turns", "state", "State without which it cannot turn, as in `drum free`."),
        ),
        _motor,
    ),
)

"""Parts for direct current: motors, pumps and indicators at 5, 12 or 24 V.

A motor standing still takes what its winding lets through; running it takes its rated current, since its back voltage
is the rest. A fan with its electronics inside is such a motor too. Which way round does not count here: a reversed fan
is not described. Shares, delays and rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Drive, Patch, Threshold, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Shown, Stamp, Surroundings, open_patch
from halfsplit.techsheet.kinds.shaded_pole import swallowed
from halfsplit.units import show

_START_SHARE, _HOLD_SHARE, _START_S = 0.5, 0.4, 0.3
_SEEN_SHARE, _LIGHTS_S = 0.05, 0.001
_OPEN_OHM = 1e9


def _motor(part: PartValues, around: Surroundings) -> Stamp:
    return _turning(part, around, FaultForm("seized", "is seized", 5.0, _still(part)))


def _pump(part: PartValues, around: Surroundings) -> Stamp:
    return _turning(part, around, *swallowed(part))


def _still(part: PartValues) -> tuple[Patch, ...]:
    return (Patch("pin", part.branch("running"), position=NO),)


def _turning(part: PartValues, around: Surroundings, *stuck: FaultForm) -> Stamp:
    volts, ohm, running = part.number("volts"), part.number("winding"), part.branch("running")
    whole = volts / part.number("running current")
    if ohm >= whole:
        what = f"A winding of {show(ohm, 'Ω')} lets less through standing than {quoted(part.part)} takes running."
        raise InputError(what, "Check the winding's ohms and its running current.")
    a, b = part.point("1"), part.point("2")
    standing = Branch(part.branch("standing"), a, b, ohm, condition=when(running, NO), tolerance=0.1)
    turning = Branch(part.branch("turning"), a, b, whole, dc_ohm=ohm, condition=when(running, YES), tolerance=0.15)
    starts = Threshold(standing.name, "amps", _START_SHARE * volts / ohm)
    holds = Threshold(turning.name, "amps", _HOLD_SHARE * part.number("running current"))
    free = around.read_state(part.name("turns"))
    return Stamp(
        (standing, turning),
        drives=(Drive(running, ((starts,),), (holds,), _START_S, free),),
        faults=(FaultForm("open", "is open inside", 10.0, open_patch(standing.name, turning.name)), *stuck),
        shows={"speed": Shown(variable=running, position=YES)},
        elements=(Element("motor", a, b, standing.name),),
        terminals=("1", "2"),
    )


def _led(part: PartValues, around: Surroundings) -> Stamp:
    """An LED with its resistor; an ohmmeter's volts do not light it."""
    del around
    amps = part.number("current")
    glows, a, b = part.branch("glows"), part.point("1"), part.point("2")
    led = Branch(part.branch("led"), a, b, part.number("volts") / amps, dc_ohm=_OPEN_OHM, tolerance=0.1)
    seen = Threshold(led.name, "amps", _SEEN_SHARE * amps)
    return Stamp(
        (led,),
        drives=(Drive(glows, ((seen,),), (seen,), _LIGHTS_S),),
        faults=(FaultForm("open", "is dead", 4.0, open_patch(led.name)),),
        shows={"glow": Shown(variable=glows, position=YES)},
        elements=(Element("led", a, b, led.name),),
        terminals=("1", "2"),
    )


_TURNS = (
    Attribute("volts", "volts", "Rated voltage, direct.", 12.0),
    Attribute("winding", "ohms", "Resistance an ohmmeter finds."),
    Attribute("running current", "amps", "Its current, running."),
    Attribute("turns", "state", "State without which it cannot turn, as in `fan free`."),
)
KINDS = (
    Kind("DC motor", "Motor or fan 1-2 for direct current. It shows `speed`.", _TURNS, _motor),
    Kind("DC pump", "Pump 1-2 for direct current. It shows `speed`.", _TURNS, _pump),
    Kind(
        "LED indicator",
        "LED with its resistor, anode 1 and cathode 2, for direct current. It shows `glow`.",
        (
            Attribute("volts", "volts", "Voltage it is fed with.", 5.0),
            Attribute("current", "amps", "Its current at that voltage.", 0.01),
        ),
        _led,
    ),
)

"""Sensors of speed: a pulse sensor with electronics inside, and the coil of a tachogenerator.

A meter on a pulse sensor shows the mean of its pulses, about half its supply while it is moved; standing still it is
taken to stand low (it may stand either way). Both follow the motor that the sheet names. Shares and rates: common
practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Source, when
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Stamp, Surroundings, open_patch

_HALF_OHM, _LOW_OHM, _TAKES_OHM = 2e3, 50.0, 5e3
_BARE_OHM = 1e-3


def _pulses(part: PartValues, around: Surroundings) -> Stamp:
    """Supply + and -, output S: half of the supply while its motor runs."""
    del around
    runs = f"{part.name('motor')}:running"
    high, out, low = part.point("+"), part.point("S"), part.point("-")
    upper, lower, still = (part.branch(name) for name in ("upper", "lower", "still"))
    takes = Branch(part.branch("takes"), high, low, _TAKES_OHM, dc_ohm=1e6, tolerance=0.3)
    pulses = when(runs, YES)
    return Stamp(
        (
            takes,
            Branch(upper, high, out, _HALF_OHM, dc_ohm=1e6, condition=pulses, tolerance=0.1),
            Branch(lower, out, low, _HALF_OHM, dc_ohm=1e6, condition=pulses, tolerance=0.1),
            Branch(still, out, low, _LOW_OHM, dc_ohm=1e6, condition=when(runs, NO)),
        ),
        faults=(FaultForm("dead", "gives no pulses", 8.0, open_patch(takes.name, upper, lower, still)),),
        elements=(Element("sensor", out, low, lower),),
        terminals=("+", "S", "-"),
        asks=(runs,),
    )


def _tacho(part: PartValues, around: Surroundings) -> Stamp:
    """A coil 1-2 that gives alternating volts while its motor runs."""
    del around
    runs, coil = f"{part.name('motor')}:running", part.branch("coil")
    middle, high, low, end = part.point("~middle"), part.point("~high"), part.point("~low"), part.point("2")
    return Stamp(
        (
            Branch(coil, part.point("1"), middle, part.number("coil"), tolerance=0.1),
            Branch(part.branch("turning"), middle, high, _BARE_OHM, condition=when(runs, YES)),
            Branch(part.branch("standing"), middle, end, _BARE_OHM, condition=when(runs, NO)),
            Branch(part.branch("lead"), low, end, _BARE_OHM),
        ),
        sources=(Source(part.branch("gives"), high, low, complex(part.number("volts"))),),
        faults=(
            FaultForm("open", "has an open coil", 4.0, open_patch(coil)),
            FaultForm("loose", "has lost its magnet, or slips on the shaft", 5.0, open_patch(part.branch("turning"))),
        ),
        elements=(Element("winding", part.point("1"), end, coil),),
        terminals=("1", "2"),
        asks=(runs,),
    )


_MOTOR = Attribute("motor", "name", "The motor it sits on.")
KINDS = (
    Kind(
        "pulse sensor",
        "Speed or flow sensor with supply + and - and output S, which a meter shows at half its supply while its motor "
        "runs.",
        (_MOTOR,),
        _pulses,
    ),
    Kind(
        "tachogenerator",
        "Coil 1-2 on a motor's shaft that gives alternating volts while it runs.",
        (
            Attribute("coil", "ohms", "Resistance an ohmmeter finds."),
            Attribute("volts", "volts", "What it gives at working speed.", 10.0),
            _MOTOR,
        ),
        _tacho,
    ),
)

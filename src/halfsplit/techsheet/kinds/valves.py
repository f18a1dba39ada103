"""Solenoid valves for water: a coil that lifts a plunger.

Shares, delay and rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Drive, Patch, Threshold
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Shown, Stamp, Surroundings, impedance, open_patch

_OPENS_SHARE, _CLOSES_SHARE, _OPENS_S = 0.65, 0.3, 0.05


def _valve(part: PartValues, around: Surroundings) -> Stamp:
    """Coil 1-2; its iron holds most of the current back, so an ohmmeter finds less than the mains does."""
    coil, passes, a, b = part.branch("coil"), part.branch("passes"), part.point("1"), part.point("2")
    volts, dc_ohm = part.number("volts"), part.number("coil")
    amps = part.number("current") if part.has("current") else volts / dc_ohm
    ohm, henry = impedance(dc_ohm, volts / amps, around.hertz)
    opens = Threshold(coil, "amps", _OPENS_SHARE * amps)
    stays = Threshold(coil, "amps", _CLOSES_SHARE * amps)
    faults = (
        FaultForm("coil-open", "has an open coil", 8.0, open_patch(coil)),
        FaultForm("stuck-shut", "does not open though its coil has current", 4.0, (Patch("pin", passes, position=NO),)),
        FaultForm("stuck-open", "does not shut", 5.0, (Patch("pin", passes, position=YES),)),
    )
    return Stamp(
        (Branch(coil, a, b, ohm, henry, dc_ohm=dc_ohm, tolerance=0.08),),
        drives=(Drive(passes, ((opens,),), (stays,), _OPENS_S),),
        faults=faults,
        shows={"flow": Shown(variable=passes, position=YES)},
        elements=(Element("winding", a, b, coil),),
        terminals=("1", "2"),
    )


KINDS = (
    Kind(
        "water valve",
        "Solenoid valve, coil 1-2. It shows `flow`; a tap or screen that is shut stands in `needs` of the function.",
        (
            Attribute("volts", "volts", "Rated voltage of its coil.", 120.0),
            Attribute("coil", "ohms", "Resistance an ohmmeter finds."),
            Attribute("current", "amps", "Its current at that voltage; by its ohms if left out.", optional=True),
        ),
        _valve,
    ),
)

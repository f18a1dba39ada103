"""Start relays that go by current: the run winding's inrush closes the contact that feeds the start winding.

Shares, delay and rates: common practice, from memory.
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
    closed_patch,
    open_patch,
)
from halfsplit.units import show

_PULLS_S = 0.02


def _relay(part: PartValues, around: Surroundings) -> Stamp:
    """Line L, coil to the main (run) winding M, contact to the start winding S."""
    del around
    pulls, drops = part.number("pulls in at"), part.number("drops out at")
    if drops >= pulls:
        what = f"{quoted(part.part)} would let go at {show(drops, 'A')} and pull in at {show(pulls, 'A')}."
        raise InputError(what, "It lets go at less current than it pulls in at.")
    coil, contact, pulled = part.branch("coil"), part.branch("L-S"), part.branch("pulled-in")
    line = part.point("L")
    return Stamp(
        (
            Branch(coil, line, part.point("M"), part.number("coil"), tolerance=0.1),
            Branch(contact, line, part.point("S"), CONTACT_OHM, condition=when(pulled, YES)),
        ),
        drives=(Drive(pulled, ((Threshold(coil, "amps", pulls),),), (Threshold(coil, "amps", drops),), _PULLS_S),),
        faults=(
            FaultForm("coil-open", "has an open coil", 3.0, open_patch(coil)),
            FaultForm("stuck", "does not pull in on the motor's inrush", 4.0, (Patch("pin", pulled, position=NO),)),
            FaultForm("contact-open", "does not close its contact L-S", 5.0, open_patch(contact)),
            FaultForm("contact-welded", "does not open its contact L-S", 3.0, closed_patch(contact)),
        ),
        shows={"click": Shown(variable=pulled, position=YES)},
        elements=(
            Element("winding", line, part.point("M"), coil),
            Element("contact", line, part.point("S"), contact),
        ),
        terminals=("L", "M", "S"),
    )


KINDS = (
    Kind(
        "current relay",
        "Start relay of a compressor: coil L-M in series with the run winding, contact L-S closed on its inrush only.",
        (
            Attribute("coil", "ohms", "Resistance an ohmmeter finds, next to nothing.", 0.3),
            Attribute("pulls in at", "amps", "Current that closes it: below the motor's locked current."),
            Attribute("drops out at", "amps", "Current below which it opens: above the motor's running current."),
        ),
        _relay,
    ),
)

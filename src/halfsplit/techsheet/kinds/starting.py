"""What helps a motor start: run and start capacitors, PTC starters.

A capacitor that is weak has lost more than half of what is printed on it, so it is two capacitors side by side, the
larger of which a fault takes away. Shares, leakage and rates: common practice, from memory.
"""

from __future__ import annotations

import re

from halfsplit.circuit import NEVER, NO, YES, Branch, Drive, Patch, Threshold, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Stamp, Surroundings, closed_patch, open_patch

WEAK_SHARE = 0.4
"""What a weak capacitor has left (common practice, from memory: 6 % below is the limit, half gone is past starting)."""
CHARGED = "CAUTION: a capacitor holds its charge: discharge it through a resistor and prove it at 0 V before ohms."
_LEAK_OHM = 50e6
_SHORT_OHM = 0.05
_WARM_UP_S = 1.0
_FARAD = re.compile(r"([0-9]{1,6}(?:[.,][0-9]{1,3})?) ?(?:[uµμ]F|MFD|mfd)")
_MOST_MICROFARAD = 2000.0


def read_farad(text: str) -> float:
    """Capacitance in farad of a text as printed on a capacitor.

    Raises:
        InputError: It is none, or beyond anything in an appliance (above 0 and up to 2000 µF).

    >>> round(read_farad("80 µF") * 1e6, 6), round(read_farad("12,5 MFD") * 1e6, 6)
    (80.0, 12.5)
    """
    form = _FARAD.fullmatch(text.strip())
    right = "Write it as in 45 µF."
    if form is None:
        raise InputError(f"{quoted(text)} is not a capacitance.", right)
    microfarad = float(form.group(1).replace(",", "."))
    if not 0 < microfarad <= _MOST_MICROFARAD:
        raise InputError(f"{quoted(text)} is beyond any capacitor of a motor.", right)
    return microfarad * 1e-6


def _capacitor(part: PartValues, around: Surroundings) -> Stamp:
    """Between 1 and 2, leaking next to nothing; a bleed resistor across it is what an ohmmeter comes to rest at."""
    del around
    farad, a, b = read_farad(part.name("capacitance")), part.point("1"), part.point("2")
    left, lost = part.branch("left-when-weak"), part.branch("lost-when-weak")
    shorted = part.branch("shorted")
    branches = [
        Branch(left, a, b, _LEAK_OHM, farad=WEAK_SHARE * farad, tolerance=0.05),
        Branch(lost, a, b, _LEAK_OHM, farad=(1.0 - WEAK_SHARE) * farad, tolerance=0.05),
        Branch(shorted, a, b, _SHORT_OHM, condition=NEVER),
    ]
    if part.has("bleed resistor"):
        branches.append(Branch(part.branch("bleed"), a, b, part.number("bleed resistor"), tolerance=0.05))
    mend = f"discharge the {part.title} through a resistor, prove it at 0 V, and change it"
    faults = (
        FaultForm("open", "is open", 8.0, open_patch(left, lost), mend),
        FaultForm("weak", "has lost more than half its capacitance", 10.0, open_patch(lost), mend),
        FaultForm("shorted", "is shorted", 2.0, closed_patch(shorted), mend),
    )
    return Stamp(
        tuple(branches),
        faults=faults,
        elements=(Element("capacitor", a, b, left),),
        terminals=("1", "2"),
        caution=CHARGED,
    )


def _ptc(part: PartValues, around: Surroundings) -> Stamp:
    """Cold it passes the start current, which heats it; hot it passes a trickle, which keeps it hot."""
    del around
    if part.number("hot") < 10.0 * part.number("cold"):
        what = f"{quoted(part.part)} is hardly warmer hot than cold."
        raise InputError(what, "Its hot resistance is hundreds of times its cold one.")
    hot, cold, warm = part.branch("hot"), part.branch("cold"), part.branch("warm")
    a, b = part.point("1"), part.point("2")
    heats = Threshold(cold, "amps", part.number("heats at"))
    keeps = Threshold(hot, "amps", 0.3 * part.number("volts") / part.number("hot"))
    branches = (
        Branch(cold, a, b, part.number("cold"), condition=when(warm, NO), tolerance=0.2),
        Branch(hot, a, b, part.number("hot"), dc_ohm=part.number("cold"), condition=when(warm, YES), tolerance=0.3),
    )
    faults = (
        FaultForm("open", "is open", 8.0, open_patch(hot, cold)),
        FaultForm("stays-cold", "does not let go of the start winding", 1.5, (Patch("pin", warm, position=NO),)),
    )
    return Stamp(
        branches,
        drives=(Drive(warm, ((heats,),), (keeps,), _WARM_UP_S),),
        faults=faults,
        elements=(Element("resistor", a, b, cold),),
        terminals=("1", "2"),
    )


KINDS = (
    Kind(
        "capacitor",
        "Run or start capacitor between 1 and 2. It holds its charge: discharge it before it is touched or measured.",
        (
            Attribute("capacitance", "name", "What is printed on it, as in 45 µF."),
            Attribute("bleed resistor", "ohms", "Resistor across it, if it has one.", optional=True),
        ),
        _capacitor,
    ),
    Kind(
        "PTC starter",
        "Start device between 1 and 2 whose resistance jumps up as it gets hot.",
        (
            Attribute("cold", "ohms", "Resistance an ohmmeter finds when it has cooled down."),
            Attribute("hot", "ohms", "Resistance once it has jumped.", 20000.0),
            Attribute("heats at", "amps", "Current that heats it within a second.", 2.0),
            Attribute("volts", "volts", "Voltage of the motor it starts.", 120.0),
        ),
        _ptc,
    ),
)

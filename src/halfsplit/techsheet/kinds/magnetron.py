"""The magnetron of a microwave oven, for dead checks only.

It is one path at the mains' frequency; how that is meant stands in `high_voltage`.
"""

from __future__ import annotations

from halfsplit.circuit import NEVER, YES, Branch, Condition, Drive, Patch, Threshold
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
from halfsplit.techsheet.kinds.high_voltage import CAUTION, OPEN_OHM, SHORT_OHM, WHY

_FILAMENT_SHARE, _FILAMENT_S = 0.6, 2.0
_COLD_SHARE = 0.3


def _magnetron(part: PartValues, around: Surroundings) -> Stamp:
    """Filament F-FA, case G."""
    watts, volts = part.power("power")
    hot = part.number("filament volts") / part.number("filament current")
    filament, passes, shorted, glows = (part.branch(name) for name in ("filament", "passes", "shorted", "hot"))
    enough = Threshold(filament, "amps", _FILAMENT_SHARE * part.number("filament current"))
    fed = f"{part.name('diode')}:fed"
    able: Condition = (((glows, frozenset({YES})), (fed, frozenset({YES})), *_diode_works(part, around)),)
    cathode, case = part.point("F"), part.point("G")
    worn = (Patch("series", passes, volts**2 / watts),)
    return Stamp(
        (
            Branch(filament, cathode, part.point("FA"), hot, dc_ohm=_COLD_SHARE * hot, tolerance=0.1),
            Branch(passes, cathode, case, volts**2 / watts, dc_ohm=OPEN_OHM, condition=able, tolerance=0.08),
            Branch(shorted, cathode, case, SHORT_OHM, condition=NEVER),
        ),
        drives=(Drive(glows, ((enough,),), (enough,), _FILAMENT_S),),
        faults=(
            FaultForm("filament-open", "has an open filament", 4.0, open_patch(filament)),
            FaultForm("shorted", "has its filament touching its case", 5.0, closed_patch(shorted)),
            FaultForm("worn", "is worn: it heats far too little", 8.0, worn),
        ),
        shows={"power": Shown((passes,), watts)},
        elements=(
            Element("heater", cathode, part.point("FA"), filament),
            Element("magnetron", cathode, case, passes),
        ),
        terminals=("F", "FA", "G"),
        dead_only=dict.fromkeys(("F", "FA"), WHY),
        caution=CAUTION,
        asks=(fed,),
    )


def _diode_works(part: PartValues, around: Surroundings) -> tuple[tuple[str, frozenset[str]], ...]:
    """What must hold of the diode that it names."""
    try:
        (works,) = around.read_state(f"{part.name('diode')}:works yes")
    except InputError:
        what = f"{quoted(part.name('diode'))} is no high-voltage diode."
        raise InputError(what, "Name the part of kind `high-voltage diode` that feeds this one.") from None
    return works


KINDS = (
    Kind(
        "magnetron",
        "Magnetron with filament F-FA and case G. It shows `power`. Dead checks only.",
        (
            Attribute("power", "power", "What it takes in a sound oven, at the voltage it has then."),
            Attribute("filament volts", "volts", "Voltage of its filament.", 3.3),
            Attribute("filament current", "amps", "Current of its filament.", 10.0),
            Attribute("diode", "name", "The part of kind `high-voltage diode` that feeds it."),
        ),
        _magnetron,
    ),
)

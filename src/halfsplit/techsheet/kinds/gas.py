"""Hot-surface igniter and safety valve of a gas oven or dryer, in series: the valve opens on the igniter's current.

Only their wiring is here. Gas itself (pressure, orifice, leaks, combustion) belongs to a licensed person, and the mend
of every part here says so. Ratios, delays and rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Drive, Patch, Threshold, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Shown, Stamp, Surroundings, open_patch

_GLOW_S, _VALVE_S = 20.0, 10.0
_GLOWS_SHARE, _KEEPS_SHARE = 0.2, 0.15
_AGED_SHARE = 0.35
_DROPS_SHARE = 0.8
_LICENSED = "gas work is for a licensed person"
CAUTION = (
    "WARNING: gas. Shut it off before anything is loosened. At a smell of gas stop, ventilate, and call the supplier; "
    "gas work is for a licensed person."
)


def _igniter(part: PartValues, around: Surroundings) -> Stamp:
    """Cold it passes little, which heats it; hot it passes its rated current. It ages upwards, and so glows dimly."""
    del around
    watts, volts = part.power("power")
    hot_ohm = volts**2 / watts
    if part.number("cold") <= hot_ohm:
        what = f"{quoted(part.part)} would pass more cold than hot."
        raise InputError(what, "Its cold resistance is above volts squared over watts.")
    hot, cold = part.branch("hot"), part.branch("cold")
    glows, glowed = part.branch("glows"), part.branch("glowed")
    a, b = part.point("1"), part.point("2")
    warms = Threshold(cold, "amps", _GLOWS_SHARE * volts / part.number("cold"))
    keeps = Threshold(hot, "amps", _KEEPS_SHARE * volts / hot_ohm)
    branches = (
        Branch(cold, a, b, part.number("cold"), condition=when(glows, NO), tolerance=0.3),
        Branch(hot, a, b, hot_ohm, dc_ohm=part.number("cold"), condition=when(glows, YES), tolerance=0.05),
    )
    aged = tuple(Patch("series", branch.name, _AGED_SHARE * hot_ohm) for branch in branches)
    mend = f"shut off gas and power and change the {part.title}; {_LICENSED}"
    faults = (
        FaultForm("open", "is broken", 20.0, open_patch(hot, cold), mend),
        FaultForm("weak", "has aged: it glows, and passes too little current for the valve", 25.0, aged, mend),
    )
    return Stamp(
        branches,
        drives=(Drive(glows, ((warms,),), (keeps,), _GLOW_S), Drive(glowed, ((warms,),), None, _GLOW_S)),
        faults=faults,
        shows={
            "power": Shown((hot,), watts),
            "glow": Shown(variable=glows, position=YES),
            "glowed": Shown(variable=glowed, position=YES),
        },
        elements=(Element("heater", a, b, cold),),
        terminals=("1", "2"),
    )


def _valve(part: PartValues, around: Surroundings) -> Stamp:
    """A bimetal that its own current bends: enough current for long enough lets gas through."""
    del around
    coil, opened = part.branch("coil"), part.branch("passes-gas")
    opens = Threshold(coil, "amps", part.number("opens at"))
    stays = Threshold(coil, "amps", _DROPS_SHARE * part.number("opens at"))
    a, b = part.point("1"), part.point("2")
    faults = (
        FaultForm("open", "has an open coil", 3.0, open_patch(coil), f"shut off gas and power; {_LICENSED}"),
        FaultForm(
            "stuck",
            "does not pass gas though its current is right",
            3.0,
            (Patch("pin", opened, position=NO),),
            f"see that the gas is on; anything more than that is gas work, and {_LICENSED}",
        ),
    )
    return Stamp(
        (Branch(coil, a, b, part.number("coil"), tolerance=0.1),),
        drives=(Drive(opened, ((opens,),), (stays,), _VALVE_S),),
        faults=faults,
        shows={"gas": Shown(variable=opened, position=YES)},
        elements=(Element("winding", a, b, coil),),
        terminals=("1", "2"),
        caution=CAUTION,
    )


KINDS = (
    Kind(
        "igniter",
        "Hot-surface igniter 1-2 in series with its gas valve. It shows `power`, `glow`, and `glowed`: whether it has "
        "glowed at all, as where it goes out once gas burns.",
        (
            Attribute("power", "power", "What it takes when hot, at the voltage across it."),
            Attribute("cold", "ohms", "Resistance an ohmmeter finds when it is cold."),
        ),
        _igniter,
    ),
    Kind(
        "gas valve",
        "Safety valve 1-2 that opens on current through it; gas work is for a licensed person. It shows `gas`.",
        (
            Attribute("coil", "ohms", "Resistance an ohmmeter finds."),
            Attribute("opens at", "amps", "Current that opens it, as printed on it."),
        ),
        _valve,
    ),
)

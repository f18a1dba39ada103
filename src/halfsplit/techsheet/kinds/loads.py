"""Loads without moving contacts: heaters, lamps, small motors."""

from __future__ import annotations

from dataclasses import dataclass

from halfsplit.circuit import NEVER, Branch, Patch
from halfsplit.errors import InputError
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    Element,
    FaultForm,
    Kind,
    Shown,
    Stamp,
    Surroundings,
    closed_patch,
    impedance,
    leak_branch,
    leaky,
    open_patch,
)
from halfsplit.units import show

_GROUND_FAULT_OHM = 0.5
_DRIFT_SHARE = 0.4
_COLD_LAMP_SHARE = 0.1


def _heater(part: PartValues, around: Surroundings) -> Stamp:
    """An element in two halves, so that its middle can touch the case (IEC wire hardly changes with heat)."""
    del around
    watts, volts = part.power("power")
    half = volts**2 / watts / 2.0
    middle = part.point("~middle")
    upper = Branch(part.branch("upper"), part.point("1"), middle, half, tolerance=0.04)
    lower = Branch(part.branch("lower"), middle, part.point("2"), half, tolerance=0.04)
    branches = [upper, lower]
    drifted = tuple(Patch("series", branch.name, _DRIFT_SHARE * half) for branch in (upper, lower))
    faults = [
        FaultForm("open", "is open", 45.0, open_patch(lower.name)),
        FaultForm("drifted", "has about two fifths more ohms than it should", 2.0, drifted),
    ]
    if part.has("case"):
        sag = Branch(part.branch("sag"), middle, part.name("case"), _GROUND_FAULT_OHM, condition=NEVER)
        leak = leak_branch(part, part.point("1"), part.name("case"))
        branches += [sag, leak]
        faults.append(FaultForm("grounded", "touches its case in the middle", 5.0, closed_patch(sag.name)))
        faults.append(leaky(leak, 0.3))
    return Stamp(
        tuple(branches),
        faults=tuple(faults),
        shows={"power": Shown((upper.name, lower.name), watts)},
        elements=(Element("heater", part.point("1"), part.point("2"), lower.name),),
        terminals=("1", "2"),
    )


def _lamp(part: PartValues, around: Surroundings) -> Stamp:
    """A filament: about a tenth of its hot resistance when cold (common practice, from memory)."""
    del around
    watts, volts = part.power("power")
    hot = volts**2 / watts
    filament = Branch(
        part.branch("filament"), part.point("1"), part.point("2"), hot, dc_ohm=hot * _COLD_LAMP_SHARE, tolerance=0.08
    )
    return Stamp(
        (filament,),
        faults=(FaultForm("open", "is burnt out", 15.0, open_patch(filament.name)),),
        shows={"power": Shown((filament.name,), watts)},
        elements=(Element("lamp", filament.a, filament.b, filament.name),),
        terminals=("1", "2"),
    )


@dataclass(frozen=True, slots=True)
class Rated:
    """What is printed on a synchronous motor, and the ohms of its winding."""

    watts: float
    volts: float
    amps: float
    winding_ohm: float


def synchronous_winding(name: str, ends: tuple[str, str], rated: Rated, hertz: float) -> Branch:
    """A synchronous motor: its winding is its load, at a power factor from its watts and amps.

    Raises:
        InputError: Its watts, amps and ohms do not go together.
    """
    if rated.watts > rated.volts * rated.amps:
        what = f"{show(rated.watts, 'W')} needs more than {show(rated.amps, 'A')} at {show(rated.volts, 'V')}."
        raise InputError(what, "Check the power and the current.")
    whole = rated.volts / rated.amps
    resistance, henry = impedance(rated.watts / rated.amps**2, whole, hertz)
    impedance(rated.winding_ohm, whole, hertz)  # refuses a winding with more ohms than the whole
    return Branch(name, *ends, resistance, henry, dc_ohm=rated.winding_ohm, tolerance=0.06)


def _small_motor(part: PartValues, around: Surroundings) -> Stamp:
    rated = Rated(*part.power("power"), part.number("current"), part.number("winding"))
    winding = synchronous_winding(part.branch("winding"), (part.point("1"), part.point("2")), rated, around.hertz)
    return Stamp(
        (winding,),
        faults=(FaultForm("open", "has an open winding", 8.0, open_patch(winding.name)),),
        shows={"power": Shown((winding.name,), rated.watts)},
        elements=(Element("motor", winding.a, winding.b, winding.name),),
        terminals=("1", "2"),
    )


def _resistor(part: PartValues, around: Surroundings) -> Stamp:
    """Pull-ups, droppers, inrush limiters: nothing but ohms. It ages upwards, if at all."""
    del around
    ohm = Branch(part.branch("ohms"), part.point("1"), part.point("2"), part.number("resistance"), tolerance=0.03)
    doubled = (Patch("series", ohm.name, part.number("resistance")),)
    return Stamp(
        (ohm,),
        faults=(
            FaultForm("open", "is open", 3.0, open_patch(ohm.name)),
            FaultForm("drifted", "has twice its ohms", 1.0, doubled),
        ),
        elements=(Element("resistor", ohm.a, ohm.b, ohm.name),),
        terminals=("1", "2"),
    )


KINDS = (
    Kind(
        "heater",
        "Resistance element between 1 and 2.",
        (
            Attribute("power", "power", "Rated power at its voltage."),
            Attribute("case", "point", "The metal its middle can sag to.", optional=True),
        ),
        _heater,
    ),
    Kind(
        "lamp", "Filament lamp between 1 and 2.", (Attribute("power", "power", "Rated power at its voltage."),), _lamp
    ),
    Kind(
        "small motor",
        "Timer or fan motor without a start winding, between 1 and 2.",
        (
            Attribute("power", "power", "Rated power at its voltage."),
            Attribute("current", "amps", "Rated current."),
            Attribute("winding", "ohms", "Resistance an ohmmeter finds."),
        ),
        _small_motor,
    ),
    Kind(
        "resistor",
        "Resistor between 1 and 2.",
        (Attribute("resistance", "ohms", "Resistance printed on it."),),
        _resistor,
    ),
)

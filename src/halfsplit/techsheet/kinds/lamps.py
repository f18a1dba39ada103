"""Lamps that are no filament: neon indicators, and LED lamps that a series capacitor feeds from the mains.

A neon is dark below its striking voltage, glows faintly on microamperes, and shines on its rated voltage: three
impedances. A faint glow is a sign of a ghost voltage and not of a supply. Strike and shares: common practice, from
memory (a neon strikes at 90 V peak and burns at about 60; half a microampere keeps it alight).
"""

from __future__ import annotations

import math

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Threshold
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Shown, Stamp, Surroundings, open_patch
from halfsplit.units import show

_DARK_OHM, _FAINT_OHM = 1e9, 3e6
_BURNS_VOLTS, _OUT_VOLTS = 55.0, 1.5
_SHINES_SHARE = 0.7
_STRIKES_S, _SHINES_S = 0.001, 0.005
_LEAK_OHM = 50e6
_SEEN_SHARE = 0.02
"""An LED can be seen at a fiftieth of its current (common practice, from memory)."""


def _neon(part: PartValues, around: Surroundings) -> Stamp:
    """Gas and its series resistor between 1 and 2."""
    del around
    volts, strikes = part.number("volts"), part.number("strikes at")
    if not _BURNS_VOLTS < strikes <= volts * _SHINES_SHARE:
        what = f"{quoted(part.part)} would strike at {show(strikes, 'V')}."
        right = f"Above {_BURNS_VOLTS:g} V, at which the gas burns, and well below its rated {show(volts, 'V')}."
        raise InputError(what, right)
    glows, shines = part.branch("glows"), part.branch("shines")
    dark, faint, bright = _gas(part, glows, shines)
    fades = Threshold(bright.name, "volts", _fades(bright.ohm) * volts)
    return Stamp(
        (dark, faint, bright),
        drives=(
            Drive(glows, ((_at(dark, strikes),),), (Threshold(faint.name, "volts", _OUT_VOLTS),), _STRIKES_S),
            Drive(shines, ((_at(faint, _SHINES_SHARE * volts),),), (fades,), _SHINES_S),
        ),
        faults=(
            FaultForm("open", "is dead, or its resistor is open", 10.0, open_patch(dark.name, faint.name, bright.name)),
        ),
        shows={
            "glow": Shown(variable=glows, position=YES),
            "power": Shown((bright.name,), volts**2 / bright.ohm),
        },
        elements=(Element("neon", dark.a, dark.b, dark.name),),
        terminals=("1", "2"),
    )


def _gas(part: PartValues, glows: str, shines: str) -> tuple[Branch, Branch, Branch]:
    """Dark, faint and bright. An ohmmeter's few volts never strike it: it reads OL."""
    volts, ohm = part.number("volts"), part.number("resistor")
    states: tuple[tuple[str, float, Condition], ...] = (
        ("dark", _DARK_OHM, _both(glows, NO, shines, NO)),
        ("faint", _FAINT_OHM, _both(glows, YES, shines, NO)),
        ("bright", volts * ohm / (volts - _BURNS_VOLTS), _both(glows, YES, shines, YES)),
    )
    dark, faint, bright = (
        Branch(
            part.branch(name),
            part.point("1"),
            part.point("2"),
            whole,
            dc_ohm=_DARK_OHM,
            condition=condition,
            tolerance=0.2,
        )
        for name, whole, condition in states
    )
    return dark, faint, bright


def _fades(bright_ohm: float) -> float:
    """Share of its volts below which a bright one is faint again.

    Behind the stray capacitance that just lifts the faint one to shining, the bright one finds a little more than
    this, so that no ghost makes it go round and round.
    """
    reactance = _FAINT_OHM * math.sqrt(1.0 / _SHINES_SHARE**2 - 1.0)
    return 0.98 * bright_ohm / math.hypot(bright_ohm, reactance)


def _both(first: str, stands: str, second: str, too: str) -> Condition:
    return (((first, frozenset({stands})), (second, frozenset({too}))),)


def _at(branch: Branch, volts: float) -> Threshold:
    """That voltage across a branch, by its current: one that a fault opened has voltage too."""
    return Threshold(branch.name, "amps", volts / branch.ohm)


def _led(part: PartValues, around: Surroundings) -> Stamp:
    """A capacitor that drops the mains, and behind it the LEDs and their resistor as one load.

    The rectifier is left out: at the mains' frequency what the lamp takes is what its capacitor passes.
    """
    watts, volts = part.power("power")
    amps = part.number("current")
    if watts >= volts * amps:
        what = f"{show(watts, 'W')} needs more than {show(amps, 'A')} at {show(volts, 'V')}."
        raise InputError(what, "Check the power and the current: the capacitor takes most of the voltage.")
    ohm = watts / amps**2
    farad = amps / (2.0 * math.pi * around.hertz * math.sqrt(volts**2 - (ohm * amps) ** 2))
    middle, glows = part.point("~inside"), part.branch("glows")
    dropper = Branch(part.branch("dropper"), part.point("1"), middle, _bleed(part), farad=farad, tolerance=0.1)
    # Below their forward voltage LEDs pass nothing an ohmmeter would find.
    leds = Branch(part.branch("leds"), middle, part.point("2"), ohm, dc_ohm=_DARK_OHM, tolerance=0.1)
    seen = Threshold(leds.name, "amps", _SEEN_SHARE * amps)
    return Stamp(
        (dropper, leds),
        drives=(Drive(glows, ((seen,),), (seen,), _SHINES_S),),
        faults=(FaultForm("open", "is dead", 8.0, open_patch(leds.name)),),
        shows={"power": Shown((leds.name,), watts), "glow": Shown(variable=glows, position=YES)},
        elements=(Element("led", part.point("1"), part.point("2"), leds.name),),
        terminals=("1", "2"),
    )


def _bleed(part: PartValues) -> float:
    """What lies across its capacitor."""
    return part.number("bleed resistor") if part.has("bleed resistor") else _LEAK_OHM


KINDS = (
    Kind(
        "neon lamp",
        "Neon indicator 1-2 with its resistor. It shows `power` when it shines and `glow` at the faintest glow, which "
        "a ghost voltage can give: a glow proves no supply, and no glow proves nothing dead.",
        (
            Attribute("volts", "volts", "Rated voltage.", 120.0),
            Attribute("resistor", "ohms", "Its series resistor.", 100000.0),
            Attribute("strikes at", "volts", "Voltage at which it lights.", 65.0),
        ),
        _neon,
    ),
    Kind(
        "LED lamp",
        "LED lamp 1-2 for the mains, behind a series capacitor. It shows `power`, and `glow` at a fiftieth of its "
        "current, which the leakage of a triac can give.",
        (
            Attribute("power", "power", "Rated power at its voltage."),
            Attribute("current", "amps", "Rated current, most of which only charges its capacitor."),
            Attribute("bleed resistor", "ohms", "Resistor across its capacitor, if it has one.", optional=True),
        ),
        _led,
    ),
)

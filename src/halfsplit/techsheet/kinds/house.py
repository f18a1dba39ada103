"""Other house supplies: one circuit up to its outlet (120 V with ground, or 230 V), and two legs of a wye.

Rates, resistances and shares: common practice, from memory.
"""

from __future__ import annotations

import cmath
import math

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Patch, Pole, Threshold
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import FaultForm, Kind, Shown, Stamp, Surroundings, open_patch

_LOW_SHARE, _HIGH_SHARE = 0.78, 1.15
_MAGNETIC_TIMES, _MAGNETIC_S = 5.0, 0.02
_STRAIGHT, _CROSSED = "straight", "crossed"
_REFER = "refer to the electricity supplier or a licensed electrician"
_RESET = "reset it once; if it trips again, find out why"


def _circuit(part: PartValues, around: Surroundings) -> Stamp:
    """Line behind a breaker, neutral and earth, each behind the resistance of its conductor.

    The swap sits after the breaker, where it happens: behind an outlet's screws. A breaker that is off still makes a
    swapped outlet dead, and a short circuit still trips it. It is a variable and not a closed branch, because a branch
    that a fault closes would conduct past the breaker.
    """
    earth, tripped, wiring = part.name("earth"), part.branch("tripped"), part.branch("wiring")
    ends = ("L", "N", earth)
    if earth in ends[:2]:
        raise InputError(f"{quoted(part.part)} has two terminals {quoted(earth)}.", "Name its earth G or PE.")
    poles = tuple(Pole(part.point(f"~{end}"), complex(part.number("volts") if end == "L" else 0.0)) for end in ends)
    faults = (
        FaultForm("lost-line", "does not deliver its line to the outlet", 3.0, open_patch(*_leads(part, "L")), _REFER),
        FaultForm("open-neutral", "has lost its neutral to the outlet", 2.0, open_patch(*_leads(part, "N")), _REFER),
        FaultForm(
            "swapped",
            "has line and neutral swapped at the outlet",
            1.0,
            (Patch("pin", wiring, position=_CROSSED),),
            _REFER,
        ),
        FaultForm("open-earth", f"has no {earth} to the outlet", 1.5, open_patch(part.branch(earth)), _REFER),
        *_voltage_faults(part, ("L",)),
        FaultForm("tripped", "has its breaker tripped", 12.0, (Patch("pin", tripped, position=YES),), _RESET, 0.0, 2.0),
    )
    return Stamp(
        _conductors(part, around, earth),
        poles,
        (_trip(part, tripped),),
        {wiring: (_STRAIGHT, _CROSSED)},
        faults,
        shows={"holding": Shown(variable=tripped, position=NO)},
        terminals=ends,
        hertz=part.number("frequency"),
    )


def _leads(part: PartValues, end: str) -> tuple[str, str]:
    """Both branches of one conductor: to its own slot, and to the other one.

    The second is not named like the part's other branches: a drawing takes those for what the supply brings to a
    terminal of a sound house.
    """
    return part.branch(end), f"{part.part} swapped:{end}"


def _conductors(part: PartValues, around: Surroundings, earth: str) -> tuple[Branch, ...]:
    wiring, ohm = part.branch("wiring"), part.number("conductor resistance")
    breaker = _breaker(part, around)
    broken = {"L": breaker, "N": breaker if _is_two_pole(part) else ()}
    made = [Branch(part.branch(earth), part.point(f"~{earth}"), part.point(earth), ohm)]
    for end, other in (("L", "N"), ("N", "L")):
        for name, to, how in zip(_leads(part, end), (end, other), (_STRAIGHT, _CROSSED), strict=True):
            condition: Condition = ((*broken[end], (wiring, frozenset({how}))),)
            made.append(Branch(name, part.point(f"~{end}"), part.point(to), ohm, condition=condition))
    return (*made[1:], made[0])


def _breaker(part: PartValues, around: Surroundings) -> tuple[tuple[str, frozenset[str]], ...]:
    """What must hold for the breaker to conduct."""
    setting = part.name("setting")
    if "on" not in around.positions(setting):
        raise InputError(f"The setting {quoted(setting)} has no position 'on'.", "Add it to that setting.")
    return (setting, frozenset({"on"})), (part.branch("tripped"), frozenset({NO}))


def _is_two_pole(part: PartValues) -> bool:
    if part.name("breaker poles") not in ("1", "2"):
        what = f"{quoted(part.name('breaker poles'))} is not a number of breaker poles."
        raise InputError(what, "Write 1 (line only) or 2 (line and neutral).")
    return part.name("breaker poles") == "2"


def _trip(part: PartValues, tripped: str) -> Drive:
    """The magnetic release; the slow thermal one is left out, as in the other breakers."""
    at_least = _MAGNETIC_TIMES * part.number("rating")
    return Drive(tripped, tuple((Threshold(lead, "amps", at_least),) for lead in _leads(part, "L")), None, _MAGNETIC_S)


def _voltage_faults(part: PartValues, legs: tuple[str, ...]) -> tuple[FaultForm, ...]:
    """Too low and too high, on every leg alike."""

    def scaled(share: float) -> tuple[Patch, ...]:
        return tuple(Patch("scale", part.point(f"~{leg}"), share) for leg in legs)

    return (
        FaultForm("low-voltage", "delivers about a fifth less than nominal", 2.0, scaled(_LOW_SHARE), _REFER),
        FaultForm("high-voltage", "delivers about a seventh more than nominal", 0.5, scaled(_HIGH_SHARE), _REFER),
    )


def _wye(part: PartValues, around: Surroundings) -> Stamp:
    """Two of the three legs of a wye: 120 degrees apart, so the voltage between them is √3 times that of one."""
    del around
    volts, ohm = part.number("volts"), part.number("leg resistance")
    held = {"L1": complex(volts), "L2": cmath.rect(volts, -2.0 * math.pi / 3.0), "N": 0j, "G": 0j}
    faults = (
        FaultForm("lost-L1", "does not deliver L1 to the panel", 2.0, open_patch(part.branch("L1")), _REFER),
        FaultForm("lost-L2", "does not deliver L2 to the panel", 3.0, open_patch(part.branch("L2")), _REFER),
        FaultForm("open-neutral", "has lost its neutral to the outlet", 1.0, open_patch(part.branch("N")), _REFER),
        FaultForm("open-ground", "has no ground to the outlet", 1.0, open_patch(part.branch("G")), _REFER),
        *_voltage_faults(part, ("L1", "L2")),
    )
    return Stamp(
        tuple(Branch(part.branch(end), part.point(f"~{end}"), part.point(end), ohm) for end in held),
        tuple(Pole(part.point(f"~{end}"), value) for end, value in held.items()),
        faults=faults,
        terminals=tuple(held),
        hertz=part.number("frequency"),
    )


KINDS = (
    Kind(
        "single-phase supply",
        "One circuit of a house up to its outlet, behind a breaker; terminals L, N and its earth.",
        (
            Attribute("volts", "volts", "Line to neutral.", 120.0),
            Attribute("frequency", "hertz", "Mains frequency.", 60.0),
            Attribute("earth", "name", "Name of the earth terminal: G for ground, PE for protective earth.", "G"),
            Attribute("conductor resistance", "ohms", "Each conductor from the transformer to the outlet.", 0.15),
            Attribute("rating", "amps", "Rated current of its breaker.", 15.0),
            Attribute("breaker poles", "name", "1: it opens the line; 2: line and neutral.", "1"),
            Attribute("setting", "setting", "The setting with a position `on`.", "breaker"),
        ),
        _circuit,
        early=True,
    ),
    Kind(
        "wye supply",
        "Two legs of a 120/208 V wye, neutral and ground; terminals L1 L2 N G.",
        (
            Attribute("volts", "volts", "Each leg to neutral.", 120.0),
            Attribute("frequency", "hertz", "Mains frequency.", 60.0),
            Attribute("leg resistance", "ohms", "Source resistance of each conductor up to the panel.", 0.03),
        ),
        _wye,
        early=True,
    ),
)

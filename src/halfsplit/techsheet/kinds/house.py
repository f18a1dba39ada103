"""The house supply of one circuit up to its outlet: 120 V with ground, or 230 V with protective earth.

Rates, resistances and shares: common practice, from memory.
"""

from __future__ import annotations

import cmath
import math

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Patch, Pole, Threshold
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import FaultForm, Kind, Shown, Stamp, Surroundings, open_patch
from halfsplit.techsheet.kinds.panel import (
    ELECTRODE,
    LOAD_BESIDE,
    LOAD_ON_LINE,
    REFER,
    SERVICE_OHM,
    service,
    service_faults,
)
from halfsplit.units import read_conductor, show

_MAGNETIC_TIMES, _MAGNETIC_S = 5.0, 0.02
_STRAIGHT, _CROSSED = "straight", "crossed"
_RESET = "reset it once; if it trips again, find out why"
_BESIDE = "other"
_OTHER_LEGS = {"opposite": math.pi, "third": -2.0 * math.pi / 3.0, "none": None}
"""Phase of the house's other leg against the line, radian."""
_MOST_SPLIT_VOLTS = 140.0
_CABLES_IN_AWG = ((15.0, "14 AWG"), (20.0, "12 AWG"), (30.0, "10 AWG"), (40.0, "8 AWG"), (55.0, "6 AWG"))
"""Copper for each breaker: NEC 240.4(D) up to 30 A, table 310.16 at 60 °C above (from memory)."""
_CABLES_IN_MM2 = ((10.0, "1.5 mm²"), (16.0, "2.5 mm²"), (25.0, "4 mm²"), (32.0, "6 mm²"), (50.0, "10 mm²"))
"""The same for 230 V: fixed wiring in walls (common practice, from memory)."""


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
    service_ohm, run_ohm = _resistances(part)
    poles = _poles(part)
    legs = {name: key for name, key in (("L", "load on line"), (_BESIDE, "load on other leg")) if name in poles}
    house = service(part, service_ohm, {name: part.number(key) for name, key in legs.items()})
    return Stamp(
        (*_conductors(part, around, (service_ohm, run_ohm)), *house),
        tuple(Pole(part.point(f"~{name}"), volts) for name, volts in poles.items()),
        (_trip(part, tripped),),
        {wiring: (_STRAIGHT, _CROSSED)},
        _faults(part, tuple(legs)),
        shows={"holding": Shown(variable=tripped, position=NO)},
        terminals=ends,
        hertz=part.number("frequency"),
    )


def _poles(part: PartValues) -> dict[str, complex]:
    """Line, the house's other leg if it has one, the transformer's neutral, and true earth last."""
    volts, how = part.number("volts"), part.name("other leg") if part.has("other leg") else ""
    how = how or ("opposite" if volts <= _MOST_SPLIT_VOLTS else "none")
    if how not in _OTHER_LEGS:
        right = "Write opposite (split phase), third (two legs of a wye) or none."
        raise InputError(f"{quoted(how)} is not where another leg can stand.", right)
    angle = _OTHER_LEGS[how]
    beside = {} if angle is None else {_BESIDE: cmath.rect(volts, angle)}
    return {"L": complex(volts), **beside, "N": 0j, "G": 0j}


def _resistances(part: PartValues) -> tuple[float, float]:
    """Ohms of one conductor up to the panel, and from there to the outlet.

    Without `conductor resistance` the cable is what the breaker's rating asks for, over its run.
    """
    if part.has("conductor resistance"):
        whole = part.number("conductor resistance")
        return min(SERVICE_OHM, whole / 2.0), max(whole - SERVICE_OHM, whole / 2.0)
    rating, metric = part.number("rating"), part.number("volts") > _MOST_SPLIT_VOLTS
    sizes = _CABLES_IN_MM2 if metric else _CABLES_IN_AWG
    size = next((size for most, size in sizes if rating <= most), None)
    if size is None:
        what = f"A circuit of {show(rating, 'A')} is beyond a house's outlets."
        raise InputError(what, "Check the rating, or give its `conductor resistance`.")
    return SERVICE_OHM, read_conductor(f"{size} {part.number('run'):g} m")[1]


def _faults(part: PartValues, legs: tuple[str, ...]) -> tuple[FaultForm, ...]:
    earth = part.name("earth")
    crossed = (Patch("pin", part.branch("wiring"), position=_CROSSED),)
    tripped = (Patch("pin", part.branch("tripped"), position=YES),)
    low, high, neutral = service_faults(part, legs)
    return (
        FaultForm("lost-line", "does not deliver its line to the outlet", 3.0, open_patch(*_leads(part, "L")), REFER),
        FaultForm("open-neutral", "has lost its neutral to the outlet", 2.0, open_patch(*_leads(part, "N")), REFER),
        FaultForm("swapped", "has line and neutral swapped at the outlet", 1.0, crossed, REFER),
        FaultForm("open-earth", f"has no {earth} to the outlet", 1.5, open_patch(part.branch(earth)), REFER),
        low,
        high,
        FaultForm("tripped", "has its breaker tripped", 12.0, tripped, _RESET, 0.0, 2.0),
        neutral,
    )


def _leads(part: PartValues, end: str) -> tuple[str, str]:
    """Both branches of one conductor: to its own slot, and to the other one.

    The second is not named like the part's other branches: a drawing takes those for what the supply brings to a
    terminal of a sound house.
    """
    return part.branch(end), f"{part.part} swapped:{end}"


def _conductors(part: PartValues, around: Surroundings, ohms: tuple[float, float]) -> tuple[Branch, ...]:
    """Line from the transformer, neutral and earth from the bar; behind the screws line and neutral may be swapped."""
    wiring, bar, earth = part.branch("wiring"), part.point("~bar"), part.name("earth")
    breaker = _breaker(part, around)
    begins = {"L": (part.point("~L"), sum(ohms), breaker), "N": (bar, ohms[1], breaker if _is_two_pole(part) else ())}
    made = []
    for end, other in (("L", "N"), ("N", "L")):
        start, ohm, broken = begins[end]
        for name, to, how in zip(_leads(part, end), (end, other), (_STRAIGHT, _CROSSED), strict=True):
            condition: Condition = ((*broken, (wiring, frozenset({how}))),)
            made.append(Branch(name, start, part.point(to), ohm, condition=condition))
    return (*made, Branch(part.branch(earth), bar, part.point(earth), ohms[1]))


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


KINDS = (
    Kind(
        "single-phase supply",
        "One circuit of a house up to its outlet, behind a breaker; terminals L, N and its earth.",
        (
            Attribute("volts", "volts", "Line to neutral.", 120.0),
            Attribute("frequency", "hertz", "Mains frequency.", 60.0),
            Attribute("earth", "name", "Name of the earth terminal: G for ground, PE for protective earth.", "G"),
            Attribute("rating", "amps", "Rated current of its breaker; the cable is what it asks for.", 15.0),
            Attribute("run", "metres", "Length of the cable from panel to outlet.", 12.0),
            Attribute(
                "conductor resistance",
                "ohms",
                "Each conductor from the transformer to the outlet, if it is known better than by rating and run.",
                optional=True,
            ),
            Attribute("load on line", "ohms", "The rest of the house on the same leg.", LOAD_ON_LINE),
            Attribute("load on other leg", "ohms", "The rest of the house on the other leg.", LOAD_BESIDE),
            Attribute(
                "other leg",
                "name",
                "Where it stands: opposite (120/240 V), third (wye) or none; up to 140 V opposite, else none.",
                optional=True,
            ),
            ELECTRODE,
            Attribute("breaker poles", "name", "1: it opens the line; 2: line and neutral.", "1"),
            Attribute("setting", "setting", "The setting with a position `on`.", "breaker"),
        ),
        _circuit,
        early=True,
    ),
)

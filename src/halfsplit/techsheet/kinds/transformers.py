"""Control transformers: mains to a low voltage that floats until the sheet joins it to something.

A lossless core between the ohms of its windings; its magnetising current is beside the primary. Shares and rates:
common practice, from memory.
"""

from __future__ import annotations

import math

from halfsplit.circuit import NEVER, Branch, Transformer, Winding
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    Element,
    FaultForm,
    Kind,
    Stamp,
    Surroundings,
    closed_patch,
    open_patch,
)
from halfsplit.units import show

BARE_OHM = 1e-3
"""A lead inside a part."""
_IDLE_SHARE, _IDLE_POWER_FACTOR = 0.15, 0.3
_SHORTED_SHARE = 0.05
"""Shorted turns take as much as a load of this share of the rated one's ohms."""


def _transformer(part: PartValues, around: Surroundings) -> Stamp:
    """Primary 1-2, secondary 3-4."""
    primary, secondary, amps = (part.number(key) for key in ("primary volts", "secondary volts", "secondary current"))
    whole = secondary / amps
    for key, most, side in (
        ("secondary winding", whole, "secondary"),
        ("primary winding", whole * (primary / secondary) ** 2, "primary"),
    ):
        if part.number(key) >= 0.5 * most:
            what = f"A {side} winding of {show(part.number(key), 'Ω')} would eat up the voltage of {quoted(part.part)}."
            raise InputError(what, f"Its load is {show(most, 'Ω')} seen from there: give the ohms of a sound winding.")
    first, second = part.branch("primary"), part.branch("secondary")
    turns = part.branch("shorted-turns")
    inside = {end: part.point(f"~{end}") for end in ("p1", "p2", "s1", "s2")}
    branches = (
        Branch(first, part.point("1"), inside["p1"], part.number("primary winding"), tolerance=0.06),
        Branch(part.branch("primary-lead"), inside["p2"], part.point("2"), BARE_OHM),
        magnetising(
            part.branch("core"), (inside["p1"], inside["p2"]), primary, amps * secondary / primary, around.hertz
        ),
        Branch(second, inside["s1"], part.point("3"), part.number("secondary winding"), tolerance=0.06),
        Branch(part.branch("secondary-lead"), inside["s2"], part.point("4"), BARE_OHM),
        Branch(turns, inside["s1"], inside["s2"], _SHORTED_SHARE * whole, condition=NEVER),
    )
    windings = (Winding(inside["p1"], inside["p2"], primary), Winding(inside["s1"], inside["s2"], secondary))
    return Stamp(
        branches,
        transformers=(Transformer(part.part, windings),),
        faults=(
            FaultForm("primary-open", "has an open primary winding", 8.0, open_patch(first)),
            FaultForm("secondary-open", "has an open secondary winding", 3.0, open_patch(second)),
            FaultForm("shorted-turns", "has shorted turns: hot, and too little voltage", 2.0, closed_patch(turns)),
        ),
        elements=(
            Element("winding", part.point("1"), part.point("2"), first),
            Element("winding", part.point("3"), part.point("4"), second),
        ),
        terminals=("1", "2", "3", "4"),
    )


def magnetising(name: str, ends: tuple[str, str], volts: float, rated_amps: float, hertz: float) -> Branch:
    """What a core takes without a load, beside its winding.

    An ohmmeter finds the winding alone: for direct current the branch is as good as open.
    """
    whole = volts / (_IDLE_SHARE * rated_amps)
    reactance = whole * math.sqrt(1.0 - _IDLE_POWER_FACTOR**2)
    return Branch(
        name, *ends, _IDLE_POWER_FACTOR * whole, reactance / (2.0 * math.pi * hertz), dc_ohm=1e9, tolerance=0.2
    )


KINDS = (
    Kind(
        "transformer",
        "Control transformer, primary 1-2 and secondary 3-4; its secondary floats until something joins it to earth.",
        (
            Attribute("primary volts", "volts", "Rated primary voltage.", 120.0),
            Attribute("secondary volts", "volts", "Secondary voltage without a load.", 24.0),
            Attribute("secondary current", "amps", "Rated secondary current: VA by volts."),
            Attribute("primary winding", "ohms", "Resistance an ohmmeter finds, 1 to 2."),
            Attribute("secondary winding", "ohms", "Resistance an ohmmeter finds, 3 to 4."),
        ),
        _transformer,
    ),
)

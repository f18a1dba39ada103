"""Control transformers: mains to a low voltage that floats until the sheet joins it to something.

A lossless core between the ohms of its windings; its magnetising current is beside the primary. Shares and rates:
common practice, from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

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

_BARE_OHM = 1e-3
"""A lead inside a part."""
_IDLE_SHARE, _IDLE_POWER_FACTOR = 0.15, 0.3
_SHORTED_SHARE = 0.05
"""Shorted turns take as much as a load of this share of the rated one's ohms."""


@dataclass(frozen=True, slots=True)
class Coil:
    """One winding as it is brought out: its name, two terminals, volts (as turns), ohms and stray inductance."""

    name: str
    ends: tuple[str, str]
    volts: float
    ohm: float
    henry: float = 0.0

    def wound(self, part: PartValues) -> tuple[tuple[Branch, Branch], Winding]:
        """Its ohms and its lead, and what is on the core between them, at two points of its own inside the part."""
        high, low = part.point(f"~{self.name}+"), part.point(f"~{self.name}-")
        ohms = Branch(
            part.branch(self.name),
            high,
            part.point(self.ends[0]),
            self.ohm,
            self.henry,
            dc_ohm=self.ohm,
            tolerance=0.08,
        )
        lead = Branch(part.branch(f"{self.name}-lead"), low, part.point(self.ends[1]), _BARE_OHM)
        return (ohms, lead), Winding(high, low, self.volts)


def wind(part: PartValues, coils: tuple[Coil, ...]) -> tuple[tuple[Branch, ...], Transformer]:
    """All windings of a part on one core."""
    made = [coil.wound(part) for coil in coils]
    branches = tuple(branch for pair, _ in made for branch in pair)
    return branches, Transformer(part.part, tuple(winding for _, winding in made))


def elements(part: PartValues, coils: tuple[Coil, ...]) -> tuple[Element, ...]:
    """How they are drawn."""
    return tuple(
        Element("winding", part.point(coil.ends[0]), part.point(coil.ends[1]), part.branch(coil.name)) for coil in coils
    )


def _transformer(part: PartValues, around: Surroundings) -> Stamp:
    """Primary 1-2, secondary 3-4."""
    primary, secondary, amps = (part.number(key) for key in ("primary volts", "secondary volts", "secondary current"))
    _check_ohms(part, secondary / amps)
    coils = (
        Coil("primary", ("1", "2"), primary, part.number("primary winding")),
        Coil("secondary", ("3", "4"), secondary, part.number("secondary winding")),
    )
    branches, core = wind(part, coils)
    inner = (core.windings[1].high, core.windings[1].low)
    shorted = Branch(part.branch("shorted-turns"), *inner, _SHORTED_SHARE * secondary / amps, condition=NEVER)
    return Stamp(
        (*branches, shorted, magnetising(part, core, amps * secondary / primary, around.hertz)),
        transformers=(core,),
        faults=(
            FaultForm("primary-open", "has an open primary winding", 8.0, open_patch(part.branch("primary"))),
            FaultForm("secondary-open", "has an open secondary winding", 3.0, open_patch(part.branch("secondary"))),
            FaultForm(
                "shorted-turns", "has shorted turns: hot, and too little voltage", 2.0, closed_patch(shorted.name)
            ),
        ),
        elements=elements(part, coils),
        terminals=("1", "2", "3", "4"),
    )


def _check_ohms(part: PartValues, whole: float) -> None:
    """A winding of more than half its load's ohms would leave it next to nothing.

    Raises:
        InputError: One of them is.
    """
    ratio = part.number("primary volts") / part.number("secondary volts")
    for side, most in (("secondary", whole), ("primary", whole * ratio**2)):
        ohm = part.number(f"{side} winding")
        if ohm >= 0.5 * most:
            what = f"A {side} winding of {show(ohm, 'Ω')} would eat up the voltage of {quoted(part.part)}."
            raise InputError(what, f"Its load is {show(most, 'Ω')} seen from there: give the ohms of a sound winding.")


def magnetising(part: PartValues, core: Transformer, rated_amps: float, hertz: float) -> Branch:
    """What a core takes without a load, beside its first winding.

    An ohmmeter finds the winding alone: for direct current the branch is as good as open.
    """
    first = core.windings[0]
    whole = first.turns / (_IDLE_SHARE * rated_amps)
    reactance = whole * math.sqrt(1.0 - _IDLE_POWER_FACTOR**2)
    return Branch(
        part.branch("core"),
        first.high,
        first.low,
        _IDLE_POWER_FACTOR * whole,
        reactance / (2.0 * math.pi * hertz),
        dc_ohm=1e9,
        tolerance=0.2,
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

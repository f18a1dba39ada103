"""Triacs and solid-state relays: outputs without a contact.

Off, one leaks through the resistor and capacitor across it (its snubber): without a load nearly the whole supply
stands at its output, and means nothing. Dead, it reads open whatever it was told, since nothing drives its gate; only
a shorted one reads. Voltage drop, leakage and rates: common practice, from memory. A triac that conducts one half of
the wave only is not described yet.
"""

from __future__ import annotations

from halfsplit.circuit import NEVER, Branch
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
from halfsplit.techsheet.kinds.starting import read_farad

_DROP_VOLTS = 1.2
_SHORT_OHM = 0.05
_LEAK_OHM = 50e6


def _output(part: PartValues, around: Surroundings) -> Stamp:
    """Line terminal 1, load terminal 2."""
    a, b = part.point("1"), part.point("2")
    conducts, shorted = part.branch("conducts"), part.branch("shorted")
    on_ohm = _DROP_VOLTS / part.number("rating")
    condition = around.read_state(part.name("conducts"))
    branches = (
        Branch(conducts, a, b, on_ohm, dc_ohm=_LEAK_OHM, condition=condition, tolerance=0.2),
        Branch(shorted, a, b, _SHORT_OHM, condition=NEVER),
        *_snubber(part, a, b),
    )
    faults = [
        FaultForm("open", "does not conduct when it is told to", 6.0, open_patch(conducts)),
        FaultForm("shorted", "conducts whatever it is told", 10.0, closed_patch(shorted)),
    ]
    return Stamp(branches, faults=tuple(faults), elements=(Element("triac", a, b, conducts),), terminals=("1", "2"))


def _snubber(part: PartValues, a: str, b: str) -> tuple[Branch, ...]:
    """What leaks: the snubber, or without one only the semiconductor itself."""
    if not part.has("snubber"):
        return (Branch(part.branch("leaks"), a, b, _LEAK_OHM, tolerance=0.5),)
    middle = part.point("~snubber")
    return (
        Branch(part.branch("snubber-resistor"), a, middle, part.number("snubber resistor"), tolerance=0.1),
        Branch(
            part.branch("snubber-capacitor"),
            middle,
            b,
            _LEAK_OHM,
            farad=read_farad(part.name("snubber")),
            tolerance=0.1,
        ),
    )


KINDS = (
    Kind(
        "solid-state output",
        "Triac or solid-state relay between line 1 and load 2; off, it leaks through its snubber, and without a load "
        "that reads nearly as the supply.",
        (
            Attribute("conducts", "state", "When it is told to conduct, as in `cycle drain`."),
            Attribute("rating", "amps", "Rated current."),
            Attribute("snubber", "name", "Capacitor across it, as in 0.1 µF, if it has one.", optional=True),
            Attribute("snubber resistor", "ohms", "Resistor in series with that capacitor.", 100.0),
        ),
        _output,
    ),
)

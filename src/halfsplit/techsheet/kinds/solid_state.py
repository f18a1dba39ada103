"""Triacs and solid-state relays: outputs without a contact.

Off, one leaks through the resistor and capacitor across it (its snubber): without a load nearly the whole supply
stands at its output, and means nothing. Dead, it reads open whatever it was told, since nothing drives its gate; only
a shorted one reads. Voltage drop, leakage and rates: common practice, from memory.

A triac that conducts one half of the wave only is left out unless the sheet asks for it: each one counts against the
six parts that may conduct one way only, and makes a sheet slower to solve.
"""

from __future__ import annotations

from dataclasses import replace

from halfsplit.circuit import NEVER, NO, YES, Branch, Condition, Patch
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
from halfsplit.techsheet.kinds.starting import read_farad

_DROP_VOLTS = 1.2
_SHORT_OHM = 0.05
_LEAK_OHM = 50e6
_HALF = "fails-half"


def _output(part: PartValues, around: Surroundings) -> Stamp:
    """Line terminal 1, load terminal 2."""
    a, b, shorted = part.point("1"), part.point("2"), part.branch("shorted")
    conducting = _conducting(part, around.read_state(part.name("conducts")))
    names = tuple(branch.name for branch in conducting)
    faults = [
        FaultForm("open", "does not conduct when it is told to", 6.0, open_patch(*names)),
        FaultForm("shorted", "conducts whatever it is told", 10.0, closed_patch(shorted)),
    ]
    variables = {}
    if len(conducting) > 1:
        variables[part.branch(_HALF)] = (NO, YES)
        pinned = (Patch("pin", part.branch(_HALF), position=YES),)
        faults.append(FaultForm("half", "conducts one half of the wave only", 1.0, pinned))
    return Stamp(
        (*conducting, Branch(shorted, a, b, _SHORT_OHM, condition=NEVER), *_snubber(part, a, b)),
        variables=variables,
        faults=tuple(faults),
        elements=(Element("triac", a, b, names[0]),),
        terminals=("1", "2"),
    )


def _conducting(part: PartValues, told: Condition) -> tuple[Branch, ...]:
    """What conducts when it is told to: the whole wave, and where the sheet asks for it one half of it once it fails.

    Raises:
        InputError: The sheet says neither yes nor no to that.
    """
    answer = part.name("half waves") if part.has("half waves") else NO
    if answer not in (YES, NO):
        raise InputError(f"{quoted(answer)} is neither yes nor no.", "Write yes, or leave it out.")
    ohm = _DROP_VOLTS / part.number("rating")
    whole = Branch(
        part.branch("conducts"), part.point("1"), part.point("2"), ohm, dc_ohm=_LEAK_OHM, condition=told, tolerance=0.2
    )
    if answer == NO:
        return (whole,)
    half = replace(whole, name=part.branch("one-half"), one_way=True)
    return tuple(
        replace(branch, condition=tuple((*both, (part.branch(_HALF), frozenset({stands}))) for both in told))
        for branch, stands in ((whole, NO), (half, YES))
    )


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
            Attribute("half waves", "name", "`yes` if it may fail to half waves; up to six in a sheet.", optional=True),
        ),
        _output,
    ),
)

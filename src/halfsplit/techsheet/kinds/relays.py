"""Relays and contactors: a coil, and contacts that move when it pulls in.

Shares of the coil's voltage, delay and rates: common practice, from memory.
"""

from __future__ import annotations

import math

from halfsplit.circuit import NO, YES, Branch, Drive, Patch, Threshold, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    CONTACT_OHM,
    Element,
    FaultForm,
    Kind,
    Shown,
    Stamp,
    Surroundings,
    closed_patch,
    impedance,
    open_patch,
)

_PULL_IN_SHARE, _DROP_OUT_SHARE = 0.75, 0.3
_PULL_IN_S = 0.02


def _relay(part: PartValues, around: Surroundings) -> Stamp:
    """The coil's current decides, not its voltage: an open coil has voltage too."""
    coil, pulled = part.branch("coil"), part.branch("pulled-in")
    ends = part.names("coil terminals") if part.has("coil terminals") else ("A1", "A2")
    if len(ends) != 2:
        what = f"The coil of {quoted(part.part)} has not two terminals."
        raise InputError(what, "Write both, as in [A1, A2].")
    contacts = _contacts(part, pulled)
    winding = _winding(part, coil, ends, around.hertz)
    elements = [Element("winding", winding.a, winding.b, coil)]
    elements += [Element("contact", branch.a, branch.b, branch.name) for branch in contacts]
    terminals = [*ends, *(terminal for pair in _pairs(part) for terminal in pair)]
    return Stamp(
        (winding, *contacts),
        drives=(_drive(part, winding, pulled, around.hertz),),
        faults=_faults(part, coil, pulled),
        shows={"click": Shown(variable=pulled, position=YES)},
        elements=tuple(elements),
        terminals=tuple(dict.fromkeys(terminals)),
    )


def _winding(part: PartValues, coil: str, ends: tuple[str, ...], hertz: float) -> Branch:
    """The coil as an ohmmeter finds it, and as the mains does: its iron holds most of the current back."""
    dc_ohm = part.number("coil")
    whole = part.number("coil volts") / part.number("coil current") if part.has("coil current") else dc_ohm
    ohm, henry = impedance(dc_ohm, whole, hertz)
    return Branch(coil, part.point(ends[0]), part.point(ends[1]), ohm, henry, dc_ohm=dc_ohm, tolerance=0.08)


def _pairs(part: PartValues) -> list[tuple[str, str]]:
    """Terminals of every contact, normally open ones first.

    Raises:
        InputError: There is none, or one of them is not two terminals with a dash.
    """
    written = [name for key in ("makes", "breaks") if part.has(key) for name in part.names(key)]
    if not written:
        raise InputError(
            f"{quoted(part.part)} has no contact.", "Write `makes: [COM-NO]` for one that closes as it pulls in."
        )
    pairs = []
    for name in written:
        a, dash, b = name.partition("-")
        if not (a and dash and b) or "-" in b or a == b:
            raise InputError(f"{quoted(name)} is not a contact.", "Write two terminals with a dash, as in `COM-NO`.")
        pairs.append((a, b))
    if len({frozenset(pair) for pair in pairs}) < len(pairs):
        raise InputError(f"{quoted(part.part)} has two contacts between the same terminals.", "Write each once.")
    return pairs


def _contacts(part: PartValues, pulled: str) -> tuple[Branch, ...]:
    makes = len(part.names("makes")) if part.has("makes") else 0
    return tuple(
        Branch(
            part.branch(f"{a}-{b}"),
            part.point(a),
            part.point(b),
            CONTACT_OHM,
            condition=when(pulled, YES if index < makes else NO),
        )
        for index, (a, b) in enumerate(_pairs(part))
    )


def _drive(part: PartValues, winding: Branch, pulled: str, hertz: float) -> Drive:
    """It pulls in at a voltage and lets go at a lower one, both turned into the coil's current."""
    rated = part.number("coil volts")
    pull = part.number("pulls in at") if part.has("pulls in at") else _PULL_IN_SHARE * rated
    drop = part.number("drops out at") if part.has("drops out at") else _DROP_OUT_SHARE * rated
    if not drop < pull <= rated:
        raise InputError(
            f"{quoted(part.part)} would let go at {drop:g} V and pull in at {pull:g} V, with a coil for {rated:g} V.",
            "It lets go below the voltage at which it pulls in, and that is not above the coil's own.",
        )
    whole = abs(complex(winding.ohm, 2.0 * math.pi * hertz * winding.henry))
    pulls = Threshold(winding.name, "amps", pull / whole)
    return Drive(pulled, ((pulls,),), (Threshold(winding.name, "amps", drop / whole),), _PULL_IN_S)


def _faults(part: PartValues, coil: str, pulled: str) -> tuple[FaultForm, ...]:
    stuck = (Patch("pin", pulled, position=NO),)
    faults = [
        FaultForm("coil-open", "has an open coil", 5.0, open_patch(coil)),
        FaultForm("stuck", "has current in its coil and does not pull in", 2.0, stuck),
    ]
    for a, b in _pairs(part):
        name, branch = f"{a}-{b}", part.branch(f"{a}-{b}")
        faults += [
            FaultForm(f"{name}-open", f"does not close its contact {name}", 6.0, open_patch(branch)),
            FaultForm(f"{name}-welded", f"does not open its contact {name}", 3.0, closed_patch(branch)),
        ]
    return tuple(faults)


KINDS = (
    Kind(
        "relay",
        "Coil and the contacts it moves; its terminals are those of its coil and contacts. It shows a `click`.",
        (
            Attribute("coil", "ohms", "Resistance an ohmmeter finds."),
            Attribute("coil volts", "volts", "Rated voltage of the coil."),
            Attribute("coil current", "amps", "Its current at that voltage; by its ohms if left out.", optional=True),
            Attribute("coil terminals", "names", "A1 and A2 if left out.", optional=True),
            Attribute("makes", "names", "Contacts that close as it pulls in, as in [COM-NO].", optional=True),
            Attribute("breaks", "names", "Contacts that open as it pulls in, as in [COM-NC].", optional=True),
            Attribute("pulls in at", "volts", "Three quarters of the coil's voltage if left out.", optional=True),
            Attribute("drops out at", "volts", "Three tenths of the coil's voltage if left out.", optional=True),
        ),
        _relay,
    ),
)

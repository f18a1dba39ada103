"""From wires as written to branches and wire faults; stray capacitance for every point."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from halfsplit.circuit import Branch, Condition, Patch
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.base import JOINT_DEGREES, open_patch
from halfsplit.techsheet.machine import Fault, Part, Wire
from halfsplit.techsheet.sections.draft import Draft, FollowUpError
from halfsplit.techsheet.words import read_colour, split_wire
from halfsplit.units import read_conductor, show

STRAY_FARAD = 30e-12
"""Stray capacitance of a point to the cabinet: half a metre of wire at 60 pF/m (common practice, from memory)."""
INSULATION_OHM = 10e9
"""Sound insulation of a point to the cabinet (common practice, from memory: gigaohms when dry)."""
STRAY_TOLERANCE = 0.5
"""Nobody knows a stray capacitance better than by half."""
_CABINET_FARAD = 200e-12
_OPEN_RATE = 0.5
_JOINT_RATES = {"0.2": 0.1, "2": 0.45, "20": 0.15, "1000": 0.15}
_GROUND_RATES = {"20": 0.3}
_GROUND_COLOURS = ("green", "bare")
_HEAVY_GAUGE = 12
_WIRE_PRICE, _WIRE_MINUTES = 3.0, 10.0
_COMMA = re.compile(r"(?<![0-9]),|,(?![0-9]+ *(?:m|ft|met|feet|foot))")
"""A comma between the pieces of a wire, not one inside a length (`16 AWG 0,6 m`)."""


def read_wires(draft: Draft, default: tuple[int, float] | None) -> tuple[dict[str, Wire], tuple[Branch, ...]]:
    """Every wire with its branch; lines that cannot be read are noted and left out.

    Args:
        draft: The sheet so far, parts stamped.
        default: Gauge and ohms of a wire that gives none; None if that could not be read.
    """
    wires: dict[str, Wire] = {}
    branches: list[Branch] = []
    for index, text in enumerate(draft.form.wires):
        with draft.noting("wires", index):
            wire, ohm = _wire(draft, index, text, default)
            _check_new(wires, wire)
            wires[wire.name] = wire
            branches.append(Branch(wire.name, wire.a, wire.b, ohm, condition=wire.condition))
    return wires, tuple(branches)


def _wire(draft: Draft, index: int, text: str, default: tuple[int, float] | None) -> tuple[Wire, float]:
    """A wire and its ohms; each of its words is judged on its own, so that two slips in a line are both named."""
    path = ("wires", index)
    first, *rest = _COMMA.split(text)
    colour, *ends = split_wire(first)
    shade = draft.tried(path, lambda: read_colour(colour))
    a, b = (draft.tried(path, partial(draft.point, end)) for end in ends)
    tail = draft.tried(path, lambda: _tail(draft, rest, default))
    if shade is None or a is None or b is None or tail is None:
        raise FollowUpError
    gauge, ohm, condition = tail
    return Wire(f"{a}-{b}", shade, a, b, gauge, condition, draft.document.line(path)), ohm


def _check_new(wires: Mapping[str, Wire], wire: Wire) -> None:
    if wire.a == wire.b:
        raise InputError(f"This wire begins and ends on {wire.a}.", "Write the two different terminals it joins.")
    before = wires.get(wire.name) or wires.get(f"{wire.b}-{wire.a}")
    if before is not None:
        what = f"There is a wire between {wire.a} and {wire.b} already (line {before.line})."
        raise InputError(what, "Write it once; a `when` can name two positions with `or`.")


def _tail(draft: Draft, pieces: list[str], default: tuple[int, float] | None) -> tuple[int, float, Condition]:
    """Gauge, ohms and condition; every `when` must hold."""
    conductors, states = [], []
    for piece in pieces:
        words = " ".join(piece.split())
        if words.startswith("when "):
            states.append(draft.state(words.removeprefix("when ")))
        elif words[:1].isdigit():
            conductors.append(read_conductor(words))
        else:
            what = f"{quoted(words)} is neither a gauge with a length nor a `when`."
            raise InputError(what, "Write it as in 16 AWG 0.6 m, or as in when door shut.")
    if len(conductors) > 1:
        raise InputError("This wire has two gauges and lengths.", "Write one; for a spliced wire, the whole length.")
    if not conductors and default is None:
        raise FollowUpError
    gauge, ohm = conductors[0] if conductors else default or (0, 0.0)
    return gauge, ohm, (tuple(states),)


def heavy_points(wires: Mapping[str, Wire]) -> frozenset[str]:
    """Points on which a heavy wire ends, which carries real current and can burn a contact."""
    heavy = [wire for wire in wires.values() if wire.gauge <= _HEAVY_GAUGE]
    return frozenset(end for wire in heavy for end in (wire.a, wire.b))


def wire_faults(wire: Wire, parts: Mapping[str, Part]) -> tuple[Fault, ...]:
    """A wire can be open; a heavy one can have a bad joint, in degrees.

    A ground carries nothing until something else is wrong: of its joints one degree stands for all.
    """
    opened = _fault(wire, parts, "open", "is open, or off at one end", _OPEN_RATE, open_patch(wire.name))
    if wire.gauge > _HEAVY_GAUGE:
        return (opened,)
    rates = _GROUND_RATES if wire.colour.startswith(_GROUND_COLOURS) else _JOINT_RATES
    return (opened, *(_joint(wire, parts, degree, rate) for degree, rate in rates.items()))


def _joint(wire: Wire, parts: Mapping[str, Part], degree: str, rate: float) -> Fault:
    ohm = JOINT_DEGREES[degree]
    words = f"about {show(ohm, 'Ω')}"
    burnt = (Patch("series", wire.name, ohm),)
    made = _fault(wire, parts, f"joint-{degree}", f"has a loose or burnt joint, {words}", rate, burnt)
    return replace(made, degree_of=f"{wire.name}:joint", degree=words)


def _fault(
    wire: Wire, parts: Mapping[str, Part], name: str, says: str, rate: float, patches: tuple[Patch, ...]
) -> Fault:
    return Fault(
        name=f"{wire.name}:{name}",
        thing=wire.name,
        says=f"the {wire.title} {says}",
        rate=rate,
        patches=patches,
        mend=f"mend the {wire.title}",
        price=_WIRE_PRICE,
        minutes=_WIRE_MINUTES,
        zone=parts[wire.a.rpartition(".")[0]].zone,
    )


def strays(
    points: tuple[str, ...], held: tuple[str, ...], chassis: str, earth: str, house: frozenset[str] = frozenset()
) -> tuple[Branch, ...]:
    """Stray capacitance and insulation from every point that is not `held` to the cabinet, and from that to earth.

    What belongs to the `house` (names of parts) lies in its walls, away from the cabinet: it strays to earth. Strayed
    to the cabinet, one live leg would lift the metal of a machine that is unplugged by tens of volts.
    """
    base = chassis or earth
    free = [point for point in points if point not in (*held, base)]
    made = [
        _stray(f"stray {point}", point, earth if point.rpartition(".")[0] in house else base, STRAY_FARAD)
        for point in free
    ]
    if chassis:
        made.append(_stray("stray cabinet", chassis, earth, _CABINET_FARAD))
    return tuple(made)


def _stray(name: str, a: str, b: str, farad: float) -> Branch:
    return Branch(name, a, b, INSULATION_OHM, farad=farad, tolerance=STRAY_TOLERANCE)

"""From wires as written to branches and wire faults; stray capacitance for every point."""

from __future__ import annotations

from halfsplit.circuit import ALWAYS, Branch, Condition, Patch
from halfsplit.errors import InputError
from halfsplit.techsheet.draft import Draft, find_point
from halfsplit.techsheet.kinds.base import JOINT_OHM, open_patch
from halfsplit.techsheet.machine import Fault, Part, Wire
from halfsplit.techsheet.words import read_condition, read_wire
from halfsplit.units import read_conductor

STRAY_FARAD = 30e-12
"""Stray capacitance of a point to the cabinet: half a metre of wire at 60 pF/m (common practice, from memory)."""
INSULATION_OHM = 10e9
"""Sound insulation of a point to the cabinet (common practice, from memory: gigaohms when dry)."""
STRAY_TOLERANCE = 0.5
"""Nobody knows a stray capacitance better than by half."""
_CABINET_FARAD = 200e-12
_OPEN_RATE, _LOOSE_RATE = 0.5, 0.7
_HEAVY_GAUGE = 12
_WIRE_PRICE, _WIRE_MINUTES = 3.0, 10.0


def read_wires(draft: Draft) -> tuple[dict[str, Wire], tuple[Branch, ...]]:
    """Every wire with its branch; lines that cannot be read are noted and left out."""
    wires: dict[str, Wire] = {}
    branches: list[Branch] = []
    for index, text in enumerate(draft.form.wires):
        with draft.noting("wires", index):
            wire, ohm = _wire(draft, index, text)
            if wire.name in wires:
                raise InputError(f"There are two wires from {wire.a} to {wire.b}.", "Write it once.")
            wires[wire.name] = wire
            branches.append(Branch(wire.name, wire.a, wire.b, ohm, condition=wire.condition))
    return wires, tuple(branches)


def _wire(draft: Draft, index: int, text: str) -> tuple[Wire, float]:
    first, *rest = [piece.strip() for piece in text.split(",")]
    colour, a, b = read_wire(first)
    terminals = {part: stamp.terminals for part, stamp in draft.stamps.items()}
    for point in (a, b):
        if point.rpartition(".")[0] in draft.doubtful:
            raise _Quiet
    a, b = find_point(a, terminals), find_point(b, terminals)
    if a == b:
        raise InputError(f"This wire begins and ends on {a}.", "Write the two different terminals it joins.")
    gauge, ohm, condition = _rest(draft, rest)
    return Wire(f"{a}-{b}", colour, a, b, gauge, condition, draft.document.line(("wires", index))), ohm


class _Quiet(InputError):
    """A wire to a part that is itself in doubt: the part's own problem is enough."""

    def __init__(self) -> None:
        super().__init__("")


def _rest(draft: Draft, pieces: list[str]) -> tuple[int, float, Condition]:
    conductor, condition = draft.form.default_wire, ALWAYS
    for piece in pieces:
        if piece.startswith("when "):
            condition = read_condition([piece.removeprefix("when ")], draft.variables)
        else:
            conductor = piece
    gauge, ohm = read_conductor(conductor)
    return gauge, ohm, condition


def wire_faults(wire: Wire, parts: dict[str, Part]) -> tuple[Fault, ...]:
    """A wire can be open; a heavy one can have a burnt joint."""
    zone = parts[wire.a.rpartition(".")[0]].zone
    shapes = [("open", f"the {wire.title} is open, or off at one end", _OPEN_RATE, open_patch(wire.name))]
    if wire.gauge <= _HEAVY_GAUGE:
        burnt = (Patch("series", wire.name, JOINT_OHM),)
        shapes.append(("loose", f"the {wire.title} has a loose or burnt joint", _LOOSE_RATE, burnt))
    return tuple(
        Fault(
            f"{wire.name}:{name}", wire.name, says, rate, patches, f"mend the {wire.title}", _WIRE_PRICE, _WIRE_MINUTES, zone
        )
        for name, says, rate, patches in shapes
    )


def strays(points: tuple[str, ...], poles: tuple[str, ...], chassis: str, earth: str) -> tuple[Branch, ...]:
    """Stray capacitance and insulation from every point to the cabinet, and from the cabinet to earth."""
    base = chassis or earth
    free = [point for point in points if point not in (*poles, base)]
    made = [Branch(f"stray {point}", point, base, INSULATION_OHM, farad=STRAY_FARAD, tolerance=STRAY_TOLERANCE) for point in free]
    if chassis:
        made.append(Branch("stray cabinet", chassis, earth, INSULATION_OHM, farad=_CABINET_FARAD, tolerance=STRAY_TOLERANCE))
    return tuple(made)

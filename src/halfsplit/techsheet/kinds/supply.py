"""What joins a supply to the machine: breaker, outlet, plug, terminal block, cabinet."""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Patch, Threshold, when
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
    burnt_contact,
    open_patch,
)

_MAGNETIC_TIMES, _MAGNETIC_S = 5.0, 0.02


def _breaker(part: PartValues, around: Surroundings) -> Stamp:
    """Two poles that open together, by hand or by a short circuit."""
    rating, setting, tripped = part.number("rating"), part.name("setting"), part.branch("tripped")
    _need_positions(around, setting, ("on",))
    poles = {"pole-1": ("1", "3"), "pole-2": ("2", "4")}
    condition: Condition = (((setting, frozenset({"on"})), (tripped, frozenset({NO}))),)
    branches = tuple(
        Branch(part.branch(name), part.point(a), part.point(b), CONTACT_OHM, condition=condition)
        for name, (a, b) in poles.items()
    )
    faults = [_tripped(tripped)]
    faults += [
        FaultForm(f"{name}-open", f"does not connect on {name.replace('-', ' ')}", 2.0, open_patch(part.branch(name)))
        for name in poles
    ]
    for name, ends in poles.items():
        says = f"has burnt its contact on {name.replace('-', ' ')}"
        faults += burnt_contact(f"{name}-burnt", says, part.branch(name), ends)
    elements = tuple(Element("breaker", part.point(a), part.point(b), part.branch(n)) for n, (a, b) in poles.items())
    shows = {"holding": Shown(variable=tripped, position=NO)}
    return Stamp(
        branches,
        drives=(_trip(part, tripped, rating),),
        faults=tuple(faults),
        shows=shows,
        elements=elements,
        terminals=("1", "2", "3", "4"),
    )


def _tripped(variable: str) -> FaultForm:
    pinned = (Patch("pin", variable, position=YES),)
    mend = "reset it once; if it trips again, find out why"
    return FaultForm("tripped", "has tripped and not been reset", 12.0, pinned, mend, price=0.0, minutes=2.0)


def _trip(part: PartValues, name: str, rating: float) -> Drive:
    """The magnetic release: a short circuit trips both poles at once.

    The slow thermal release is left out: in a household machine nothing between rating and five times it lasts.
    """
    poles = [part.branch(pole) for pole in ("pole-1", "pole-2")]
    short = tuple((Threshold(pole, "amps", _MAGNETIC_TIMES * rating),) for pole in poles)
    return Drive(name, short, None, _MAGNETIC_S)


def _outlet(part: PartValues, around: Surroundings) -> Stamp:
    """Slots in the wall. The contact with the blades belongs to the plug."""
    del around
    return Stamp(terminals=part.names("terminals"))


def _plug(part: PartValues, around: Surroundings) -> Stamp:
    """Blades that meet the outlet's slots of the same names while the plug is in."""
    outlet, setting = part.name("into"), part.name("setting")
    _need_positions(around, setting, ("in",))
    shared = [name for name in part.names("terminals") if name in around.terminals_of(outlet)]
    if not shared:
        what = f"{quoted(part.part)} and {quoted(outlet)} have no terminal of the same name."
        raise InputError(what, "Name slots and blades alike.")
    plugged = when(setting, "in")
    branches = tuple(
        Branch(part.branch(name), f"{outlet}.{name}", part.point(name), CONTACT_OHM, condition=plugged)
        for name in shared
    )
    faults = tuple(form for name in shared for form in _blade_faults(name, part.branch(name)))
    elements = tuple(Element("plug", f"{outlet}.{n}", part.point(n), part.branch(n)) for n in shared)
    return Stamp(branches, faults=faults, elements=elements, terminals=part.names("terminals"))


def _blade_faults(name: str, branch: str) -> tuple[FaultForm, ...]:
    """A blade makes no contact, or a burnt one; a ground blade carries nothing that could burn it."""
    opened = FaultForm(f"{name}-open", f"makes no contact on {name}", _BLADE_RATE.get(name, 1.0), open_patch(branch))
    burnt = burnt_contact(f"{name}-burnt", f"has a burnt blade {name}", branch, (name,))
    return (opened, *burnt) if name not in _EARTHS else (opened,)


_EARTHS = ("G", "PE")
_BLADE_RATE = {"L1": 3.0, "L2": 3.0, "N": 1.5, "G": 0.5}


def _terminal_block(part: PartValues, around: Surroundings) -> Stamp:
    """Screws where wires meet; a burnt joint there is a fault of the wire that ends on it."""
    del around
    return Stamp(terminals=part.names("terminals"))


def _chassis(part: PartValues, around: Surroundings) -> Stamp:
    """The cabinet: every screw on it is the same piece of metal."""
    del around
    screws = part.names("terminals")
    first = part.point(screws[0])
    branches = tuple(Branch(part.branch(f"metal-{screw}"), first, part.point(screw), 0.001) for screw in screws[1:])
    return Stamp(branches, terminals=screws)


def _need_positions(around: Surroundings, setting: str, positions: tuple[str, ...]) -> None:
    for position in positions:
        if position not in around.positions(setting):
            what = f"The setting {quoted(setting)} has no position {quoted(position)}."
            raise InputError(what, "Add it to that setting.")


_TERMINALS = Attribute("terminals", "names", "Names as printed on the part.")
KINDS = (
    Kind(
        "two-pole breaker",
        "Breaker with line terminals 1 2 and load terminals 3 4; a short circuit trips both poles.",
        (
            Attribute("rating", "amps", "Rated current."),
            Attribute("setting", "setting", "The setting with a position `on`.", "breaker"),
        ),
        _breaker,
    ),
    Kind("outlet", "Slots in the wall, named as the blades that go into them.", (_TERMINALS,), _outlet, early=True),
    Kind(
        "plug",
        "Blades of the cord; each meets the outlet's slot of the same name.",
        (
            _TERMINALS,
            Attribute("into", "socket", "The outlet it goes into."),
            Attribute("setting", "setting", "The setting with a position `in`.", "plug"),
        ),
        _plug,
    ),
    Kind("terminal block", "Screws where wires meet.", (_TERMINALS,), _terminal_block),
    Kind("chassis", "Cabinet metal; all its screws are one point.", (_TERMINALS,), _chassis),
)

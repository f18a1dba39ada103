"""Gas dryers and flame sensing: valves with split coils, the radiant sensor beside the igniter, and flame sensors.

With power the holding and booster coils open the safety valve, the igniter glows, and the radiant sensor beside it
bridges the second coil. Hot, the sensor opens: the second coil gets its volts through the igniter and opens the burner
valve; the flame keeps the sensor hot, and the holding coil alone the safety valve. A second valve that does not open
leaves the igniter to glow and go out by turns. Only wiring is here: gas work belongs to a licensed person. Shares,
delays and rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NEVER, NO, YES, Branch, Condition, Drive, Threshold, when
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
    open_patch,
)
from halfsplit.techsheet.kinds.gas import CAUTION

_OPENS_SHARE, _HOLDS_SHARE, _OPENS_S = 0.6, 0.4, 0.1
_HOT_S = 5.0
_LICENSED = "shut off gas and power; gas work is for a licensed person"
_FLAME_WHY = "a flame passes microamperes, which no meter of the trade shows true there"
COILS = (("holding", "1", "2"), ("booster", "1", "3"), ("second", "4", "5"))


def _split_coil(part: PartValues, around: Surroundings) -> Stamp:
    """Holding coil 1-2, booster coil 1-3, second coil 4-5."""
    del around
    volts, burns, safety = part.number("volts"), part.branch("burns"), part.branch("safety-open")
    coils = {
        name: Branch(part.branch(name), part.point(a), part.point(b), part.number(f"{name} coil"), tolerance=0.08)
        for name, a, b in COILS
    }

    def at(name: str, share: float) -> Threshold:
        return Threshold(coils[name].name, "amps", share * volts / coils[name].ohm)

    pulls = tuple(at(name, _OPENS_SHARE) for name in ("holding", "booster"))
    is_open = when(safety, YES)
    return Stamp(
        tuple(coils.values()),
        drives=(
            Drive(safety, (pulls,), (at("holding", _HOLDS_SHARE),), _OPENS_S),
            Drive(burns, ((at("second", _OPENS_SHARE),),), (at("second", _HOLDS_SHARE),), _OPENS_S, is_open, is_open),
        ),
        faults=tuple(
            FaultForm(f"{name}-open", f"has an open {name} coil", 6.0, open_patch(coil.name), _LICENSED)
            for name, coil in coils.items()
        ),
        shows={"gas": Shown(variable=burns, position=YES)},
        elements=tuple(Element("winding", coil.a, coil.b, coil.name) for coil in coils.values()),
        terminals=("1", "2", "3", "4", "5"),
        caution=CAUTION,
    )


def _radiant(part: PartValues, around: Surroundings) -> Stamp:
    """A contact that opens as the igniter beside it is hot, and stays open in the heat of the flame."""
    del around
    hot, contact, a, b = part.branch("hot"), part.branch("1-2"), part.point("1"), part.point("2")
    glows, burns = f"{part.name('igniter')}:glows", f"{part.name('valve')}:burns"
    warmed: Condition = (*when(glows, YES), *when(burns, YES))
    return Stamp(
        (Branch(contact, a, b, CONTACT_OHM, condition=when(hot, NO)),),
        drives=(Drive(hot, ((),), (), _HOT_S, when(glows, YES), warmed),),
        faults=(
            FaultForm("open", "does not close", 6.0, open_patch(contact)),
            FaultForm("welded", "does not open when the igniter is hot", 6.0, closed_patch(contact)),
        ),
        elements=(Element("thermostat", a, b, contact),),
        terminals=("1", "2"),
        asks=(glows, burns),
    )


def _sensor(part: PartValues, around: Surroundings) -> Stamp:
    """A rod in the flame, 1, and the burner it stands over, 2."""
    rod, a, b = part.branch("flame"), part.point("1"), part.point("2")
    burning = around.read_state(part.name("flame"))
    flame = Branch(rod, a, b, part.number("resistance"), condition=burning, tolerance=0.5)
    clean = f"clean the {part.title}; gas work is for a licensed person"
    shorted = part.branch("grounded")
    return Stamp(
        (flame, Branch(shorted, a, b, CONTACT_OHM, condition=NEVER)),
        faults=(
            FaultForm("dirty", "is dirty, or out of the flame", 12.0, open_patch(rod), clean, price=0.0),
            FaultForm("grounded", "touches the burner", 3.0, closed_patch(shorted)),
        ),
        elements=(Element("resistor", a, b, rod),),
        terminals=("1", "2"),
        dead_only={"1": _FLAME_WHY},
    )


KINDS = (
    Kind(
        "split-coil gas valve",
        "Two gas valves in a row: 1-2 holds and 1-3 helps to open the first, 4-5 opens the second. It shows `gas` when "
        "both are open; gas work is for a licensed person.",
        (
            Attribute("volts", "volts", "Rated voltage of its coils.", 120.0),
            *(Attribute(f"{name} coil", "ohms", f"Resistance an ohmmeter finds, {a} to {b}.") for name, a, b in COILS),
        ),
        _split_coil,
    ),
    Kind(
        "radiant sensor",
        "Contact 1-2 beside an igniter that opens as it glows and stays open while gas burns.",
        (
            Attribute("igniter", "name", "The part of kind `igniter` it sits beside."),
            Attribute("valve", "name", "The gas valve whose flame keeps it hot."),
        ),
        _radiant,
    ),
    Kind(
        "flame sensor",
        "Rod 1 over its burner 2. What it tells is yes or no, to the board or module that senses it; nothing is read "
        "at the rod on a live machine.",
        (
            Attribute("flame", "state", "When it stands in a flame, as in `burner burning`."),
            Attribute("resistance", "ohms", "What the flame stands for, for whatever senses it.", 1e6),
        ),
        _sensor,
    ),
)

"""Infinite switch of a surface unit: both legs to the element, one of them in cycles that the knob makes longer.

Terminals L1 and L2 to H1 and H2, and P for a pilot lamp. How a cycle stands at the moment is a setting (heating or
pausing), since a technician who looks once sees one of both; how much of the time it heats at each position is given
as a share, which a function `over` it is averaged by. Rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Condition, Patch
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    CONTACT_OHM,
    Cycle,
    Element,
    FaultForm,
    Kind,
    Stamp,
    Surroundings,
    closed_patch,
    open_patch,
)


def _infinite(part: PartValues, around: Surroundings) -> Stamp:
    """L1-H1 cycles, L2-H2 and L1-P close with the knob."""
    knob, heats = part.name("setting"), _shares(part, around)
    on = frozenset(position for position, share in heats.items() if share > 0)
    full = frozenset(position for position, share in heats.items() if share == 1)
    cycles = part.branch("cycles")
    (heating,) = around.read_state(part.name("heating"))
    turned_on: Condition = (((knob, on),),)
    cycling: Condition = (
        ((knob, on), *heating),
        *((((knob, full),),) if full else ()),
        ((knob, on), (cycles, frozenset({NO}))),
    )
    ends = (("L1", "H1", cycling), ("L2", "H2", turned_on), ("L1", "P", turned_on))
    branches = tuple(
        Branch(part.branch(f"{a}-{b}"), part.point(a), part.point(b), CONTACT_OHM, condition=condition)
        for a, b, condition in ends
    )
    return Stamp(
        branches,
        variables={cycles: (YES, NO)},
        faults=_faults(part, cycles),
        elements=tuple(Element("contact", branch.a, branch.b, branch.name) for branch in branches),
        terminals=("L1", "L2", "H1", "H2", "P"),
        cycle=_cycle(part, around, heats),
    )


def _cycle(part: PartValues, around: Surroundings, heats: dict[str, float]) -> Cycle:
    """Heating and pausing, by the setting that stands for the moment.

    Raises:
        InputError: That setting has not one position for each.
    """
    (((setting, heating),),) = around.read_state(part.name("heating"))
    pausing = [position for position in around.positions(setting) if position not in heating]
    if len(heating) != 1 or len(pausing) != 1:
        what = f"The setting {quoted(setting)} does not stand for heating or pausing."
        raise InputError(what, "Give it two positions, as in [heating, pausing].")
    return Cycle(setting, next(iter(heating)), pausing[0], part.name("setting"), heats)


def _shares(part: PartValues, around: Surroundings) -> dict[str, float]:
    """Share of time that it heats, for every position of the knob.

    Raises:
        InputError: A position has none or is none, or it never heats or is never off.
    """
    knob, heats = part.name("setting"), part.shares("heats")
    for position in {*around.positions(knob), *heats}:
        if position not in heats:
            raise InputError(f"{quoted(part.part)} has no share for {quoted(position)}.", "Add it to `heats`.")
        if position not in around.positions(knob):
            what = f"The setting {quoted(knob)} has no position {quoted(position)}."
            raise InputError(what, "Add it to that setting, or take it out of `heats`.")
    if min(heats.values()) > 0 or max(heats.values()) == 0:
        raise InputError(f"{quoted(part.part)} never stops or never heats.", "Give 0 % to its off position only.")
    return heats


def _faults(part: PartValues, cycles: str) -> tuple[FaultForm, ...]:
    legs, pilot = (part.branch("L1-H1"), part.branch("L2-H2")), part.branch("L1-P")
    always = (Patch("pin", cycles, position=NO),)
    faults = [FaultForm("never-pauses", "heats without a pause at every position", 8.0, always)]
    for name in ("L1-H1", "L2-H2"):
        branch = part.branch(name)
        faults += [
            FaultForm(f"{name}-open", f"does not close {name}", 6.0, open_patch(branch)),
            FaultForm(f"{name}-welded", f"does not open {name}", 2.0, closed_patch(branch)),
        ]
    return (
        *faults,
        FaultForm("both-welded", "opens neither leg when it is off", 2.0, closed_patch(*legs)),
        FaultForm("P-open", "does not feed its pilot lamp", 2.0, open_patch(pilot)),
        FaultForm("P-welded", "feeds its pilot lamp when it is off", 1.0, closed_patch(pilot)),
    )


KINDS = (
    Kind(
        "infinite switch",
        "Surface-unit control: L1-H1 closes in cycles, L2-H2 and the pilot L1-P while it is turned on.",
        (
            Attribute("setting", "setting", "The setting of its knob.", "knob"),
            Attribute("heats", "shares", "Share of the time it heats at each position, as in `low: 10 %`."),
            Attribute("heating", "state", "State in which a cycle heats at the moment, as in `cycling heating`."),
        ),
        _infinite,
    ),
)

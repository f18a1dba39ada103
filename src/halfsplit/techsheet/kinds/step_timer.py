"""Timers with a step chart: which contacts are closed at each step, as the paper prints it, and a motor that turns it.

The setting stands where the knob stands; a motor that does not turn leaves it there, which a function tells
(`advance`). Rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Drive, Patch, Threshold
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
    open_patch,
)
from halfsplit.techsheet.kinds.loads import Rated, synchronous_winding

_TURNS_SHARE, _TURNS_S = 0.6, 0.2
MOTOR = (
    Attribute("motor power", "power", "Rated power of its motor at its voltage."),
    Attribute("motor current", "amps", "Rated current of its motor."),
    Attribute("motor winding", "ohms", "Resistance an ohmmeter finds of its motor."),
)
"""Keys of the synchronous motor inside a timer."""


def timer_motor(part: PartValues, ends: tuple[str, str], hertz: float) -> Stamp:
    """The motor of a timer between two of its terminals: winding, what it turns, and how it fails."""
    winding, turns = part.branch("motor"), part.branch("turns")
    rated = Rated(*part.power("motor power"), part.number("motor current"), part.number("motor winding"))
    enough = Threshold(winding, "amps", _TURNS_SHARE * rated.amps)
    branch = synchronous_winding(winding, (part.point(ends[0]), part.point(ends[1])), rated, hertz)
    return Stamp(
        (branch,),
        drives=(Drive(turns, ((enough,),), (enough,), _TURNS_S),),
        faults=(
            FaultForm("motor-open", "has an open motor winding and does not advance", 5.0, open_patch(winding)),
            FaultForm(
                "gears", "does not advance though its motor has current", 5.0, (Patch("pin", turns, position=NO),)
            ),
        ),
        shows={"advance": Shown(variable=turns, position=YES)},
        elements=(Element("motor", branch.a, branch.b, winding),),
        terminals=ends,
    )


def _timer(part: PartValues, around: Surroundings) -> Stamp:
    """Contacts by the chart, and the motor where the sheet gives one."""
    motor = _motor(part, around.hertz)
    branches, elements, terminals = [], [], []
    faults: list[FaultForm] = []
    for contact in part.contacts("step chart"):
        name, a, b = part.branch(contact.name), part.point(contact.a), part.point(contact.b)
        closed = around.read_state(f"{part.name('setting')} {contact.phrase}")
        branches.append(Branch(name, a, b, CONTACT_OHM, condition=closed))
        elements.append(Element("contact", a, b, name))
        terminals += [contact.a, contact.b]
        faults += [
            FaultForm(f"{contact.name}-open", f"does not close its contact {contact.name}", 4.0, open_patch(name)),
            FaultForm(f"{contact.name}-welded", f"does not open its contact {contact.name}", 1.5, closed_patch(name)),
        ]
    return Stamp(
        (*branches, *motor.branches),
        drives=motor.drives,
        faults=(*faults, *motor.faults),
        shows=motor.shows,
        elements=(*elements, *motor.elements),
        terminals=tuple(dict.fromkeys((*terminals, *motor.terminals))),
    )


def _motor(part: PartValues, hertz: float) -> Stamp:
    keys = ("motor terminals", *(attribute.name for attribute in MOTOR))
    given = [key for key in keys if part.has(key)]
    if not given:
        return Stamp()
    missing = [key for key in keys if key not in given]
    if missing:
        raise InputError(f"{quoted(part.part)} tells of a motor without its {missing[0]}.", f"Add `{missing[0]}`.")
    ends = part.names("motor terminals")
    if len(ends) != 2:
        raise InputError(f"The motor of {quoted(part.part)} has not two terminals.", "Write both, as in [TM1, TM2].")
    return timer_motor(part, (ends[0], ends[1]), hertz)


KINDS = (
    Kind(
        "timer",
        "Timer with a step chart, the contacts closed at each step; its motor, if given, shows `advance`.",
        (
            Attribute("setting", "setting", "The setting whose positions are its steps.", "timer"),
            Attribute(
                "step chart",
                "chart",
                "Steps with the contacts closed in each, as in `fill: [1-2, 3-4]`; a step not in it closes none.",
            ),
            Attribute("motor terminals", "names", "Both ends of its motor, as in [TM1, TM2].", optional=True),
            *(Attribute(key.name, key.reader, key.meaning, optional=True) for key in MOTOR),
        ),
        _timer,
    ),
)

"""Defrost timers: one change-over contact, 3 to 4 for cooling and 3 to 2 for defrost, and a motor that turns it.

Both wirings are the sheet's: with the cold control before 3 the motor counts only the hours the compressor runs; with
the cold control behind 4 it counts all hours. The contact goes over when the hours are due *and* its motor has
current, so whatever starves the motor stops it; or by hand, whatever the motor does. Rates: common practice, from
memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Patch, Threshold
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    CONTACT_OHM,
    Element,
    FaultForm,
    Kind,
    Stamp,
    Surroundings,
    closed_patch,
    open_patch,
)
from halfsplit.techsheet.kinds.step_timer import MOTOR, timer_motor

_TURNS_SHARE = 0.6
_WENT_OVER_S, _CAME_BACK_S = 60.0, 90.0
Side = tuple[tuple[str, frozenset[str]], ...]


def _timer(part: PartValues, around: Surroundings) -> Stamp:
    ends = part.names("motor terminals") if part.has("motor terminals") else ("1", "3")
    if len(ends) != 2 or not set(ends) <= {"1", "2", "3", "4"}:
        right = "Write two of its terminals 1 to 4, as in [1, 3]."
        raise InputError(f"The motor of {quoted(part.part)} is not between two of its terminals.", right)
    motor = timer_motor(part, (ends[0], ends[1]), around.hertz)
    went, back = part.branch("went-over"), part.branch("came-back")
    contacts = _contacts(part, around, went, back)
    return Stamp(
        (*contacts, *motor.branches),
        drives=(*motor.drives, *_drives(part, around, went, back)),
        faults=(*_contact_faults(part), *_stopped(part, went, back), *motor.faults),
        shows=motor.shows,
        elements=(*(Element("contact", branch.a, branch.b, branch.name) for branch in contacts), *motor.elements),
        terminals=("1", "2", "3", "4"),
    )


def _contacts(part: PartValues, around: Surroundings, went: str, back: str) -> tuple[Branch, Branch]:
    """3-4 and 3-2. By hand is by hand; otherwise it stands where its motor has turned it."""
    to_defrost, to_cooling, alone = _by_hand(part, around)
    cooling: Condition = (
        *to_cooling,
        (*alone, (went, frozenset({NO}))),
        (*alone, (went, frozenset({YES})), (back, frozenset({YES}))),
    )
    defrost: Condition = (*to_defrost, (*alone, (went, frozenset({YES})), (back, frozenset({NO}))))
    compressor, heater = (
        Branch(part.branch(f"3-{end}"), part.point("3"), part.point(end), CONTACT_OHM, condition=condition)
        for end, condition in (("4", cooling), ("2", defrost))
    )
    return compressor, heater


def _by_hand(part: PartValues, around: Surroundings) -> tuple[Condition, Condition, Side]:
    """When its knob was turned to defrost, when to cooling, and what must hold for it to be left alone."""
    keys = ("by hand to defrost", "by hand to cooling")
    (to_defrost, to_cooling) = (around.read_state(part.name(key)) if part.has(key) else () for key in keys)
    turned: dict[str, set[str]] = {}
    for (((setting, positions),),) in (to_defrost, to_cooling) if to_defrost and to_cooling else ():
        turned.setdefault(setting, set()).update(positions)
    if part.has(keys[0]) != part.has(keys[1]):
        raise InputError(
            f"{quoted(part.part)} can be turned by hand only one way.", f"Give `{keys[0]}` and `{keys[1]}`."
        )
    alone = tuple((name, frozenset(around.positions(name)) - frozenset(taken)) for name, taken in turned.items())
    return to_defrost, to_cooling, alone


def _drives(part: PartValues, around: Surroundings, went: str, back: str) -> tuple[Drive, Drive]:
    """It goes over when defrost is due, and comes back when its minutes are over: both by its motor only."""
    turns = part.branch("turns")
    running = (Threshold(part.branch("motor"), "amps", _TURNS_SHARE * part.number("motor current")),)
    (due,) = around.read_state(part.name("due"))
    (over,) = around.read_state(part.name("over"))
    turning = (turns, frozenset({YES}))
    return (
        Drive(went, (running,), None, _WENT_OVER_S, ((*due, turning),)),
        Drive(back, (running,), None, _CAME_BACK_S, ((*over, turning, (went, frozenset({YES}))),)),
    )


def _contact_faults(part: PartValues) -> tuple[FaultForm, ...]:
    faults = []
    for name, what in (("3-4", "compressor"), ("3-2", "heater")):
        branch = part.branch(name)
        faults += [
            FaultForm(f"{name}-open", f"does not close its {what} contact {name}", 3.0, open_patch(branch)),
            FaultForm(f"{name}-welded", f"does not open its {what} contact {name}", 1.5, closed_patch(branch)),
        ]
    return tuple(faults)


def _stopped(part: PartValues, went: str, back: str) -> tuple[FaultForm, ...]:
    """Stopped in defrost, with a motor that turns no more. Stopped while cooling is what its motor faults come to."""
    standing = (Patch("pin", went, position=YES), Patch("pin", back, position=NO))
    stands = (*standing, Patch("pin", part.branch("turns"), position=NO))
    return (FaultForm("stopped-in-defrost", "has stopped in defrost", 6.0, stands),)


KINDS = (
    Kind(
        "defrost timer",
        "Defrost timer: 3 to 4 while cooling, 3 to 2 in defrost, and a motor that shows `advance`. It goes over by its "
        "motor, or by hand.",
        (
            Attribute("due", "state", "State in which it is time to defrost, as in `hours defrost due`."),
            Attribute("over", "state", "State in which its minutes of defrost are over, as in `hours defrost over`."),
            Attribute(
                "by hand to defrost",
                "state",
                "State of its knob when turned there, as in `knob defrost`.",
                optional=True,
            ),
            Attribute(
                "by hand to cooling",
                "state",
                "State of its knob when turned there, as in `knob cooling`.",
                optional=True,
            ),
            Attribute("motor terminals", "names", "Ends of its motor: [1, 3] if left out.", optional=True),
            *MOTOR,
        ),
        _timer,
    ),
)

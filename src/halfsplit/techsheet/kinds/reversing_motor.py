"""Washer motors with two speeds, turned round by the wiring: whichever end of the start winding is fed decides the way.

Which way it starts is told from the currents: with the start winding fed at S1 they add up, fed at S2 they nearly
cancel, as both lag by nearly the same angle. A rotor that turns keeps its way until its current stops. Standing and
running are two impedances. Shares, power factors, delays and rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NEVER, NO, YES, Branch, Drive, Patch, Threshold, when
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
from halfsplit.units import show

_START_SHARE, _HOLD_SHARE, _HUM_SHARE, _STOPPED_SHARE = 0.6, 0.5, 0.3, 0.1
_WAY_S, _START_S, _TURNS_S, _HUM_S, _OVERLOAD_S = 0.2, 0.4, 0.1, 1.5, 8.0
_OVERLOAD_TIMES = 1.7
"""Of the running current: both speeds fed at once, or the start winding left in, open the overload."""
_RUNNING_POWER_FACTOR, _LOCKED_POWER_FACTOR, _START_POWER_FACTOR = 0.6, 0.75, 0.9
_ADDED_SHARE = 0.5
"""Of both currents together: added they are nearly all of it, against each other less than a fifth."""
_GROUND_FAULT_OHM = 0.2
SPEEDS = {"fast": "H", "slow": "L"}


def _motor(part: PartValues, around: Surroundings) -> Stamp:
    common = part.point("~common")
    windings = [
        Element("motor", part.point(end), part.point("C"), f"{part.part}:{name}-standing") for name, end in _ends()
    ]
    return Stamp(
        (*_windings(part, common, around.hertz), *_contacts(part, common)),
        drives=_drives(part, around),
        faults=_faults(part),
        shows={
            "speed": Shown(variable=part.branch("running"), position=YES),
            "forward": Shown(variable=part.branch("turns-forward"), position=YES),
            "reverse": Shown(variable=part.branch("turns-reverse"), position=YES),
            "hum": Shown(variable=part.branch("hums"), position=YES),
        },
        elements=(*windings, Element("winding", part.point("S1"), part.point("S2"), part.branch("start-winding"))),
        terminals=("C", "P", "H", "L", "S1", "S2", "G"),
    )


def _ends() -> tuple[tuple[str, str], ...]:
    return tuple(SPEEDS.items())


def _start_amps(part: PartValues) -> float:
    return part.number("volts") * _START_POWER_FACTOR / part.number("start winding")


def _main_locked_amps(part: PartValues) -> float:
    """A main winding's share of the locked line current; the start winding takes the rest, nearly in phase.

    Raises:
        InputError: The start winding alone would take it all.
    """
    main_amps = part.number("locked current") - _start_amps(part)
    if main_amps <= part.number("running current"):
        taken = f"{show(part.number('start winding'), 'Ω')} takes {show(_start_amps(part), 'A')} by itself"
        raise InputError(
            f"The start winding of {quoted(part.part)} ({taken}) leaves too little for the others.",
            "The locked current is the whole line current: well above that and the running current together.",
        )
    return main_amps


def _windings(part: PartValues, common: str, hertz: float) -> tuple[Branch, ...]:
    standing_ohm = part.number("volts") / _main_locked_amps(part)
    running_ohm = part.number("volts") / part.number("running current")
    standing = impedance(_LOCKED_POWER_FACTOR * standing_ohm, standing_ohm, hertz)
    turning = impedance(_RUNNING_POWER_FACTOR * running_ohm, running_ohm, hertz)
    running, branches = part.branch("running"), []
    for name, end in SPEEDS.items():
        ohm, top = part.number(f"{name} winding"), part.point(end)
        impedance(ohm, standing_ohm, hertz)  # refuses a winding whose ohms alone are more than the whole
        branches += [
            Branch(
                part.branch(f"{name}-{how}"),
                top,
                common,
                *values,
                dc_ohm=ohm,
                condition=when(running, yes),
                tolerance=0.08,
            )
            for how, values, yes in (("standing", standing, NO), ("running", turning, YES))
        ]
    ohm = part.number("start winding")
    starting = impedance(ohm, ohm / _START_POWER_FACTOR, hertz)
    inner, lead = part.point("~start"), part.point("S2")
    return (*branches, Branch(part.branch("start-winding"), inner, lead, *starting, dc_ohm=ohm, tolerance=0.06))


def _contacts(part: PartValues, common: str) -> tuple[Branch, ...]:
    cool = when(part.branch("overload-tripped"), NO)
    still = when(part.branch("running"), NO)
    return (
        Branch(part.branch("start-switch"), part.point("S1"), part.point("~start"), CONTACT_OHM, condition=still),
        Branch(part.branch("overload"), common, part.point("C"), CONTACT_OHM, condition=cool),
        Branch(part.branch("lead"), common, part.point("P"), CONTACT_OHM),
        Branch(part.branch("fast-to-case"), part.point("H"), part.point("G"), _GROUND_FAULT_OHM, condition=NEVER),
    )


def _drives(part: PartValues, around: Surroundings) -> tuple[Drive, ...]:
    """Before the rotor moves its way is settled; turning, it keeps it; standing under current it hums, and trips."""
    running, forward, start = part.branch("running"), part.branch("forward"), part.branch("start-winding")
    main, amps = _main_locked_amps(part), part.number("running current")
    standing = [part.branch(f"{name}-standing") for name in SPEEDS]
    turning = [part.branch(f"{name}-running") for name in SPEEDS]
    starts = tuple(
        (Threshold(one, "amps", _START_SHARE * main), Threshold(start, "amps", _START_SHARE * _start_amps(part)))
        for one in standing
    )
    added = Threshold(start, "amps", _ADDED_SHARE * (main + _start_amps(part)), beside=tuple(standing))
    fed = Threshold(part.branch("overload"), "amps", _STOPPED_SHARE * amps)
    held = Threshold(turning[0], "amps", _HOLD_SHARE * amps, beside=tuple(turning[1:]))
    hums = tuple((Threshold(one, "amps", _HUM_SHARE * main),) for one in standing)
    hot = Threshold(part.branch("overload"), "amps", _OVERLOAD_TIMES * amps)
    ways = [
        (part.branch(f"turns-{way}"), ((running, frozenset({YES})), (forward, frozenset({yes}))))
        for way, yes in (("forward", YES), ("reverse", NO))
    ]
    return (
        Drive(forward, ((added,),), (fed,), _WAY_S, when(running, NO)),
        Drive(running, starts, (held,), _START_S, around.read_state(part.name("turns"))),
        *(Drive(name, ((),), (), _TURNS_S, (clauses,), (clauses,)) for name, clauses in ways),
        Drive(part.branch("hums"), hums, None, _HUM_S, when(running, NO)),
        Drive(part.branch("overload-tripped"), ((hot,),), None, _OVERLOAD_S),
    )


def _faults(part: PartValues) -> tuple[FaultForm, ...]:
    start, switch = part.branch("start-winding"), part.branch("start-switch")
    mains = [
        FaultForm(
            f"{name}-open",
            f"has an open {name} winding",
            2.0,
            open_patch(part.branch(f"{name}-standing"), part.branch(f"{name}-running")),
        )
        for name in SPEEDS
    ]
    return (
        *mains,
        FaultForm("start-open", "has an open start winding", 3.0, open_patch(start)),
        FaultForm("overload-open", "has its internal overload open", 4.0, open_patch(part.branch("overload"))),
        FaultForm("start-switch-open", "does not close its centrifugal switch", 6.0, open_patch(switch)),
        FaultForm("start-switch-welded", "does not open its centrifugal switch", 2.0, closed_patch(switch)),
        FaultForm("seized", "is seized", 4.0, (Patch("pin", part.branch("running"), position=NO),)),
        FaultForm("grounded", "has its fast winding touching its case", 1.0, closed_patch(part.branch("fast-to-case"))),
    )


KINDS = (
    Kind(
        "reversing motor",
        "Washer motor of two speeds whose start winding the timer turns round: C neutral end behind its overload and P "
        "inside of that, H fast and L slow winding, S1-S2 start winding with its centrifugal switch, G case. It shows "
        "`speed` either way round, `forward` (S1 fed with H or L) and `reverse`.",
        (
            Attribute("volts", "volts", "Rated voltage.", 120.0),
            Attribute("fast winding", "ohms", "Resistance an ohmmeter finds, H to C."),
            Attribute("slow winding", "ohms", "Resistance an ohmmeter finds, L to C."),
            Attribute("start winding", "ohms", "Resistance an ohmmeter finds, S1 to S2."),
            Attribute("running current", "amps", "At either speed, running."),
            Attribute("locked current", "amps", "Whole line current, rotor standing."),
            Attribute("turns", "state", "State without which it cannot turn, as in `drum free`."),
        ),
        _motor,
    ),
)

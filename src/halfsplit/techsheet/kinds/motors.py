"""Split-phase motors with a centrifugal switch and an internal overload.

Terminals: 4 neutral end (behind the overload), 6 top of the main winding (from the start switch), 5 hold-in, 3 start
winding lead, 1-2 heater contact, G case. Shares of voltage and current, and delays: common practice, from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from halfsplit.circuit import NEVER, NO, YES, Branch, Condition, Drive, Patch, Threshold, when
from halfsplit.errors import InputError
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
    closed_patch,
    impedance,
    leak_branch,
    leaky,
    open_patch,
)
from halfsplit.units import show

_START_SHARE, _HOLD_SHARE, _HUM_SHARE = 0.6, 0.5, 0.3
_START_S, _HUM_S, _OVERLOAD_S = 0.4, 1.5, 8.0
_OVERLOAD_TIMES = 3.0
_RUNNING_POWER_FACTOR, _LOCKED_POWER_FACTOR = 0.6, 0.75
_START_POWER_FACTOR = 0.9
_GROUND_FAULT_OHM = 0.2


@dataclass(frozen=True, slots=True)
class _Names:
    """Full names of a motor's branches and variables."""

    main_standing: str
    main_running: str
    starter: str
    start_contact: str
    hold: str
    heater_contact: str
    overload: str
    grounded: str
    running: str
    hums: str
    tripped: str


def _names(part: PartValues) -> _Names:
    words = ("main-standing", "main-running", "start-winding", "start-contact", "hold-contact", "heater-contact")
    more = ("overload", "main-to-case", "running", "hums", "overload-tripped")
    return _Names(*(part.branch(word) for word in (*words, *more)))


def _motor(part: PartValues, around: Surroundings) -> Stamp:
    names = _names(part)
    elements = (
        Element("contact", part.point("1"), part.point("2"), names.heater_contact),
        Element("contact", part.point("5"), part.point("6"), names.hold),
        Element("motor", part.point("6"), part.point("4"), names.main_standing),
        Element("winding", part.point("3"), part.point("4"), names.starter),
    )
    return Stamp(
        (*_windings(part, names, around.hertz), *_contacts(part, names), _leak(part)),
        drives=_drives(part, names, around.read_state(part.name("turns"))),
        faults=(*_faults(names), leaky(_leak(part), 0.2)),
        shows={
            "speed": Shown(variable=names.running, position=YES),
            "hum": Shown(variable=names.hums, position=YES),
        },
        elements=elements,
        terminals=("1", "2", "3", "4", "5", "6", "G"),
    )


def _leak(part: PartValues) -> Branch:
    return leak_branch(part, part.point("6"), part.point("G"))


def _main_locked_amps(part: PartValues) -> float:
    """The main winding's share of the locked line current; the start winding takes the rest, nearly in phase.

    Raises:
        InputError: The start winding alone would take it all.
    """
    start_amps = part.number("volts") * _START_POWER_FACTOR / part.number("start winding")
    main_amps = part.number("locked current") - start_amps
    if main_amps <= part.number("running current"):
        raise InputError(
            f"A start winding of {show(part.number('start winding'), 'Ω')} alone draws {show(start_amps, 'A')}.",
            "The locked current is the whole line current: well above that and the running current together.",
        )
    return main_amps


def _windings(part: PartValues, names: _Names, hertz: float) -> tuple[Branch, ...]:
    volts = part.number("volts")
    common, top, lead = part.point("~common"), part.point("6"), part.point("3")
    main_ohm, start_ohm = part.number("main winding"), part.number("start winding")
    standing_ohm = volts / _main_locked_amps(part)
    impedance(main_ohm, standing_ohm, hertz)  # refuses a winding whose ohms alone are more than the whole
    standing = impedance(_LOCKED_POWER_FACTOR * standing_ohm, standing_ohm, hertz)
    running_ohm = volts / part.number("running current")
    running = impedance(_RUNNING_POWER_FACTOR * running_ohm, running_ohm, hertz)
    starting = impedance(start_ohm, start_ohm / _START_POWER_FACTOR, hertz)
    still, turning = when(names.running, NO), when(names.running, YES)
    return (
        Branch(names.main_standing, top, common, *standing, dc_ohm=main_ohm, condition=still, tolerance=0.06),
        Branch(names.main_running, top, common, *running, dc_ohm=main_ohm, condition=turning, tolerance=0.1),
        Branch(names.starter, lead, common, *starting, dc_ohm=start_ohm, tolerance=0.06),
    )


def _contacts(part: PartValues, names: _Names) -> tuple[Branch, ...]:
    still, turning, cool = when(names.running, NO), when(names.running, YES), when(names.tripped, NO)
    ends: tuple[tuple[str, str, str, Condition, float], ...] = (
        (names.start_contact, "6", "3", still, CONTACT_OHM),
        (names.hold, "5", "6", turning, CONTACT_OHM),
        (names.heater_contact, "1", "2", turning, CONTACT_OHM),
        (names.overload, "~common", "4", cool, CONTACT_OHM),
        (names.grounded, "6", "G", NEVER, _GROUND_FAULT_OHM),
    )
    return tuple(
        Branch(name, part.point(a), part.point(b), ohm, condition=condition) for name, a, b, condition, ohm in ends
    )


def _drives(part: PartValues, names: _Names, free: Condition) -> tuple[Drive, ...]:
    """The rotor starts on both windings and runs on one; standing under current it hums; too long trips it.

    Their current counts, not their voltage: an open winding has voltage too.
    """
    start_amps = part.number("volts") * _START_POWER_FACTOR / part.number("start winding")
    both = (
        Threshold(names.main_standing, "amps", _START_SHARE * _main_locked_amps(part)),
        Threshold(names.starter, "amps", _START_SHARE * start_amps),
    )
    held = (Threshold(names.main_running, "amps", _HOLD_SHARE * part.number("running current")),)
    humming = (Threshold(names.main_standing, "amps", _HUM_SHARE * _main_locked_amps(part)),)
    hot = (Threshold(names.overload, "amps", _OVERLOAD_TIMES * part.number("running current")),)
    standing = when(names.running, NO)
    return (
        Drive(names.running, (both,), held, _START_S, free),
        Drive(names.hums, (humming,), None, _HUM_S, standing),
        Drive(names.tripped, (hot,), None, _OVERLOAD_S),
    )


def _faults(names: _Names) -> tuple[FaultForm, ...]:
    main = (names.main_standing, names.main_running)
    return (
        FaultForm("main-open", "has an open main winding", 3.0, open_patch(*main)),
        FaultForm("start-open", "has an open start winding", 4.0, open_patch(names.starter)),
        FaultForm("overload-open", "has its internal overload open", 7.0, open_patch(names.overload)),
        FaultForm("hold-open", "does not hold itself in (contact 5-6)", 3.0, open_patch(names.hold)),
        FaultForm("start-contact-open", "does not close its start contact", 6.0, open_patch(names.start_contact)),
        FaultForm("start-contact-welded", "does not open its start contact", 2.0, closed_patch(names.start_contact)),
        FaultForm(
            "heater-contact-open", "does not close its heater contact 1-2", 6.0, open_patch(names.heater_contact)
        ),
        FaultForm(
            "heater-contact-welded", "does not open its heater contact 1-2", 1.0, closed_patch(names.heater_contact)
        ),
        *burnt_contact("heater-contact-burnt", "has burnt its heater contact 1-2", names.heater_contact, ("1", "2")),
        FaultForm("seized", "is seized", 7.0, (Patch("pin", names.running, position=NO),)),
        FaultForm("grounded", "has its main winding touching its case", 1.0, closed_patch(names.grounded)),
    )


KINDS = (
    Kind(
        "split-phase motor",
        "Motor with start winding, centrifugal switch and overload: 4 neutral end, 6 main winding, 3 start winding, "
        "5 hold-in, 1-2 contact closed while it runs, G case.",
        (
            Attribute("volts", "volts", "Rated voltage.", 120.0),
            Attribute("main winding", "ohms", "Resistance an ohmmeter finds, 6 to 4."),
            Attribute("start winding", "ohms", "Resistance an ohmmeter finds, 3 to 4."),
            Attribute("running current", "amps", "Main winding, running."),
            Attribute("locked current", "amps", "Whole line current, rotor standing."),
            Attribute("turns", "state", "State without which it cannot turn, as in `drum free`."),
        ),
        _motor,
    ),
)

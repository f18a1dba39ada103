"""Motors with leads C, R, S: run winding C-R, start winding C-S, an internal overload on C, case G.

They start only on both windings, and only while the current of the start winding is shifted against that of the run
winding. In steady state that is told from its size: too little and nothing turns it, and through a shorted capacitor
it is far too much and hardly shifted. A winding's back voltage is not modelled: standing and running are two
impedances. Shares, power factors, delays and rates: common practice, from memory.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

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
from halfsplit.techsheet.kinds.starting import read_farad
from halfsplit.units import show

_START_SHARE, _HOLD_SHARE, _HUM_SHARE = 0.6, 0.5, 0.3
_UNSHIFTED_TIMES, _LEFT_IN_SHARE = 1.6, 0.5
_FLOOD_S, _START_S, _HUM_S, _OVERLOAD_S = 0.1, 0.4, 1.5, 8.0
_OVERLOAD_TIMES = 2.5
_RUNNING_POWER_FACTOR, _LOCKED_POWER_FACTOR, _START_POWER_FACTOR = 0.7, 0.75, 0.85
_GROUND_FAULT_OHM = 0.2
_SEALED = (
    "WARNING: the pins of a sealed compressor can burst out under its pressure: while it is fed keep their cover on, "
    "and read at the far ends of their wires. Refrigerant is for a licensed person."
)


@dataclass(frozen=True, slots=True)
class _Motor:
    """One motor's values, and the full names of its branches and variables.

    A `lasting` start winding is made to stay in circuit; a `switched` one is cut off by a centrifugal switch of the
    motor's own. `start_amps` is what the start winding of a sound motor takes as it starts, through what it is fed by.
    """

    part: PartValues
    lasting: bool
    switched: bool
    start_amps: float

    def named(self, name: str) -> str:
        return self.part.branch(name)

    @property
    def main(self) -> tuple[str, str]:
        """Branches of the run winding, standing and running."""
        return self.named("run-standing"), self.named("run-running")

    @property
    def locked_ohm(self) -> float:
        """Impedance of the run winding with the rotor standing."""
        return self.part.number("volts") / self.part.number("locked current")


def _start_impedance(part: PartValues, hertz: float) -> tuple[float, float]:
    ohm = part.number("start winding")
    return impedance(ohm, ohm / _START_POWER_FACTOR, hertz)


def _motor(part: PartValues, hertz: float, *, switched: bool) -> _Motor:
    ohm, henry = _start_impedance(part, hertz)
    omega = 2.0 * math.pi * hertz
    farad = read_farad(part.name("capacitor")) if "capacitor" in part.values else None
    whole = complex(ohm + _series_ohm(part), omega * henry - (1.0 / (omega * farad) if farad else 0.0))
    lasting = farad is not None and not switched
    return _Motor(part, lasting, switched, part.number("volts") / abs(whole))


def _series_ohm(part: PartValues) -> float:
    return part.number("starter") if "starter" in part.values else 0.0


def _stamper(*, switched: bool) -> Callable[[PartValues, Surroundings], Stamp]:
    return lambda part, around: _stamp(_motor(part, around.hertz, switched=switched), around)


def _stamp(motor: _Motor, around: Surroundings) -> Stamp:
    part = motor.part
    if part.number("locked current") <= _OVERLOAD_TIMES * part.number("running current"):
        raise InputError(
            f"{quoted(part.part)} standing still takes only {show(part.number('locked current'), 'A')}.",
            f"Its locked current is more than {_OVERLOAD_TIMES:g} times its running current.",
        )
    common = part.point("~common")
    elements = (
        Element("motor", part.point("R"), part.point("C"), motor.main[0]),
        Element("winding", part.point("S"), part.point("C"), motor.named("start-winding")),
    )
    return Stamp(
        _branches(motor, common, around.hertz),
        drives=_drives(motor, around),
        faults=_faults(motor),
        shows={
            "speed": Shown(variable=motor.named("running"), position=YES),
            "hum": Shown(variable=motor.named("hums"), position=YES),
        },
        elements=elements,
        terminals=("C", "R", "S", "G"),
        caution=_SEALED if "starter" in part.values else "",
    )


def _branches(motor: _Motor, common: str, hertz: float) -> tuple[Branch, ...]:
    part, running, tripped = motor.part, motor.named("running"), motor.named("overload-tripped")
    ohm = part.number("run winding")
    impedance(ohm, motor.locked_ohm, hertz)  # refuses a winding whose ohms alone are more than the whole
    standing = impedance(_LOCKED_POWER_FACTOR * motor.locked_ohm, motor.locked_ohm, hertz)
    running_ohm = part.number("volts") / part.number("running current")
    turning = impedance(_RUNNING_POWER_FACTOR * running_ohm, running_ohm, hertz)
    starting = _start_impedance(part, hertz)
    top, lead = part.point("R"), part.point("S")
    inner = part.point("~start") if motor.switched else lead
    branches = [
        Branch(motor.main[0], top, common, *standing, dc_ohm=ohm, condition=when(running, NO), tolerance=0.06),
        Branch(motor.main[1], top, common, *turning, dc_ohm=ohm, condition=when(running, YES), tolerance=0.1),
        Branch(
            motor.named("start-winding"), inner, common, *starting, dc_ohm=part.number("start winding"), tolerance=0.06
        ),
        Branch(motor.named("overload"), common, part.point("C"), CONTACT_OHM, condition=when(tripped, NO)),
        Branch(motor.named("run-to-case"), top, part.point("G"), _GROUND_FAULT_OHM, condition=NEVER),
    ]
    if motor.switched:
        branches.append(Branch(motor.named("start-switch"), lead, inner, CONTACT_OHM, condition=when(running, NO)))
    return tuple(branches)


def _drives(motor: _Motor, around: Surroundings) -> tuple[Drive, ...]:
    """Both windings start it, one keeps it running; standing under current it hums; too long and it trips.

    A start winding made for seconds heats the overload too when it is left in circuit.
    """
    part, standing, turning = motor.part, motor.main[0], motor.main[1]
    running, flooded = motor.named("running"), motor.named("start-current-unshifted")
    locked, start = part.number("locked current"), motor.named("start-winding")
    both = (
        Threshold(standing, "amps", _START_SHARE * locked),
        Threshold(start, "amps", _START_SHARE * motor.start_amps),
    )
    held = (Threshold(turning, "amps", _HOLD_SHARE * part.number("running current")),)
    flood = (Threshold(start, "amps", _UNSHIFTED_TIMES * motor.start_amps),)
    hums = (Threshold(standing, "amps", _HUM_SHARE * locked),)
    hot = [(Threshold(motor.named("overload"), "amps", _OVERLOAD_TIMES * part.number("running current")),)]
    if not motor.lasting:
        hot.append((Threshold(start, "amps", _LEFT_IN_SHARE * motor.start_amps),))
    (free,) = around.read_state(part.name("turns"))
    able = ((*free, (flooded, frozenset({NO}))),)
    return (
        Drive(flooded, (flood,), flood, _FLOOD_S),
        Drive(running, (both,), held, _START_S, able),
        Drive(motor.named("hums"), (hums,), None, _HUM_S, when(running, NO)),
        Drive(motor.named("overload-tripped"), tuple(hot), None, _OVERLOAD_S),
    )


def _faults(motor: _Motor) -> tuple[FaultForm, ...]:
    wait = f"let the {motor.part.title} cool down for hours before calling its overload open; then change it"
    faults = [
        FaultForm("run-open", "has an open run winding", 3.0, open_patch(*motor.main)),
        FaultForm("start-open", "has an open start winding", 3.0, open_patch(motor.named("start-winding"))),
        FaultForm("overload-open", "has its internal overload open", 5.0, open_patch(motor.named("overload")), wait),
        FaultForm("seized", "is seized", 6.0, (Patch("pin", motor.named("running"), position=NO),)),
        FaultForm("grounded", "has its run winding touching its case", 1.5, closed_patch(motor.named("run-to-case"))),
    ]
    if motor.switched:
        switch = motor.named("start-switch")
        faults += [
            FaultForm("start-switch-open", "does not close its centrifugal switch", 5.0, open_patch(switch)),
            FaultForm("start-switch-welded", "does not open its centrifugal switch", 2.0, closed_patch(switch)),
        ]
    return tuple(faults)


_WINDINGS = (
    Attribute("volts", "volts", "Rated voltage.", 120.0),
    Attribute("run winding", "ohms", "Resistance an ohmmeter finds, C to R."),
    Attribute("start winding", "ohms", "Resistance an ohmmeter finds, C to S."),
    Attribute("running current", "amps", "Run winding, running."),
    Attribute("locked current", "amps", "Run winding, rotor standing."),
)
_TURNS = Attribute("turns", "state", "State without which it cannot turn, as in `drum free`.")
_BUILT_FOR = Attribute(
    "capacitor", "name", "The capacitor it is built for, as in 45 µF; a part of its own, wired to S."
)
KINDS = (
    Kind(
        "capacitor-run motor",
        "Motor whose start winding S stays in circuit through a capacitor; C common behind its overload, R run, "
        "G case.",
        (*_WINDINGS, _BUILT_FOR, _TURNS),
        _stamper(switched=False),
    ),
    Kind(
        "capacitor-start motor",
        "Motor whose start winding S, fed through a capacitor, is cut off by its centrifugal switch; C common behind "
        "its overload, R run, G case.",
        (*_WINDINGS, _BUILT_FOR, _TURNS),
        _stamper(switched=True),
    ),
    Kind(
        "compressor",
        "Sealed motor whose start winding S is fed by a PTC starter of its own; C common behind its overload, R run, "
        "G case.",
        (*_WINDINGS, Attribute("starter", "ohms", "Cold resistance of its starter, in series with S."), _TURNS),
        _stamper(switched=False),
    ),
)

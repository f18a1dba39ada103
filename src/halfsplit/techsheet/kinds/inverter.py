"""Inverters and the three-winding motors they drive.

What an inverter makes is no sine of one frequency, so no reading at U, V or W on a live machine is ever worked out or
taken: those points are for ohms on a dead machine. Here its three outputs are sources a third of a turn apart, which
is enough to tell whether all three windings have current: with one of them off, the motor does not start. Shares and
rates: common practice, from memory.
"""

from __future__ import annotations

import cmath
import math

from halfsplit.circuit import ALWAYS, NEVER, NO, YES, Branch, Condition, Drive, Patch, Source, Threshold, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    Element,
    FaultForm,
    Kind,
    Shown,
    Stamp,
    Surroundings,
    closed_patch,
    open_patch,
)
from halfsplit.techsheet.kinds.boardwords import read_input

PHASES = ("U", "V", "W")
WHY = "an inverter feeds it with pulses, and a meter shows a number that means nothing"
CAUTION = (
    "DANGER: an inverter's capacitors stay charged with the plug out. Wait as long as the maker's sheet says, and "
    "prove it dead. Its low-voltage side counts as live."
)
_PHASE_VOLTS, _INSIDE_OHM = 100.0, 0.2
_WAKES_SHARE, _WAKES_S = 0.7, 0.5
_TIMES_WINDING = 10.0
_LINK_OHM, _LINK_S = 10e3, 0.05
_RUNS_SHARE, _RUNS_S = 0.6, 0.6
_IDLE_SHARE, _BUS_OHM, _GROUND_FAULT_OHM = 0.02, 100.0, 0.5


def _inverter(part: PartValues, around: Surroundings) -> Stamp:
    """Mains on L and N, the motor on U, V and W."""
    watts, volts = part.power("power")
    line, neutral = part.point("L"), part.point("N")
    idle, load, drives, awake = (part.branch(name) for name in ("idle", "load", "drives", "awake"))
    enough = Threshold(idle, "amps", _WAKES_SHARE * _IDLE_SHARE * watts / volts)
    told, line_in = _told(part, around)
    branches = (
        # A rectifier with a charged capacitor is nothing an ohmmeter could read: OL.
        Branch(idle, line, neutral, volts**2 / (_IDLE_SHARE * watts), dc_ohm=1e9, tolerance=0.3),
        Branch(load, line, neutral, volts**2 / watts, dc_ohm=1e9, condition=when(drives, YES), tolerance=0.3),
        *_outputs(part, drives),
        *line_in.branches,
    )
    return Stamp(
        branches,
        sources=tuple(
            Source(part.branch(phase), part.point(f"~{phase}"), part.point(f"~{phase}0"), _phasor(place))
            for place, phase in enumerate(PHASES)
        ),
        drives=(
            *line_in.drives,
            Drive(awake, ((enough,),), (enough,), _WAKES_S),
            Drive(drives, ((enough,),), (enough,), _WAKES_S, told, told),
        ),
        faults=(
            FaultForm("dead", "does not wake", 12.0, open_patch(idle, load)),
            FaultForm("deaf", "is awake and drives nothing", 5.0, (Patch("pin", drives, position=NO),)),
            *(
                FaultForm(f"{phase}-dead", f"does not feed {phase}", 2.0, open_patch(part.branch(f"{phase}-out")))
                for phase in PHASES
            ),
        ),
        shows={"awake": Shown(variable=awake, position=YES)},
        elements=(Element("box", line, neutral, idle),),
        terminals=tuple(dict.fromkeys(("L", "N", *PHASES, *line_in.terminals))),
        dead_only=dict.fromkeys(PHASES, WHY),
        caution=CAUTION,
    )


def _told(part: PartValues, around: Surroundings) -> tuple[Condition, Stamp]:
    """When it is told to drive, and what it senses on the line that a board tells it on, if it has one.

    Raises:
        InputError: Neither `drives` nor `link` is given.
    """
    states = around.read_state(part.name("drives")) if part.has("drives") else ALWAYS
    if not part.has("link"):
        if not part.has("drives"):
            right = "Give `drives`, as in cycle spin, or the `link` that a board tells it on."
            raise InputError(f"{quoted(part.part)} is never told to drive.", right)
        return states, Stamp()
    line, linked = read_input(part.name("link"), _LINK_OHM), part.branch("linked")
    a, b = (part.point(end) for end in line.ends)
    sense = Branch(part.branch("sense link"), a, b, line.ohm, tolerance=0.05)
    limit = Threshold(sense.name, "volts", line.limit, above=line.above)
    seen = Drive(linked, ((limit,),), (limit,), _LINK_S)
    told = tuple((*way, (linked, frozenset({YES}))) for way in states)
    return told, Stamp((sense,), drives=(seen,), terminals=line.ends)


def _phasor(place: int) -> complex:
    return cmath.rect(_PHASE_VOLTS, -2.0 * math.pi * place / 3.0)


def _outputs(part: PartValues, drives: str) -> tuple[Branch, ...]:
    """Each phase from the middle of the three, which hangs on the mains by the rectifier, as all of its inside does."""
    middle = part.point("~middle")
    made = [Branch(part.branch("bus"), middle, part.point("N"), _BUS_OHM, dc_ohm=1e9)]
    for phase in PHASES:
        inner, back = part.point(f"~{phase}"), part.point(f"~{phase}0")
        condition: Condition = when(drives, YES)
        made += [
            Branch(part.branch(f"{phase}-out"), inner, part.point(phase), _INSIDE_OHM, dc_ohm=1e9, condition=condition),
            # Not from behind the source: with the plug out and its lead off, the terminal would seem live.
            Branch(part.branch(f"{phase}-leaks"), middle, part.point(phase), 1e9),
            Branch(part.branch(f"{phase}-back"), back, middle, 1e-3),
        ]
    return tuple(made)


def _motor(part: PartValues, around: Surroundings) -> Stamp:
    """Three equal windings in a star; it runs while all three have their current."""
    star, running = part.point("~star"), part.branch("running")
    ohm = part.number("winding") / 2.0
    windings = [
        Branch(part.branch(phase), part.point(phase), star, _TIMES_WINDING * ohm, dc_ohm=ohm, tolerance=0.03)
        for phase in PHASES
    ]
    amps = _RUNS_SHARE * _PHASE_VOLTS / (_TIMES_WINDING * ohm + _INSIDE_OHM)
    all_three = tuple(Threshold(winding.name, "amps", amps) for winding in windings)
    free = around.read_state(part.name("turns"))
    grounded = Branch(part.branch("to-case"), part.point("U"), part.point("G"), _GROUND_FAULT_OHM, condition=NEVER)
    return Stamp(
        (*windings, grounded),
        drives=(Drive(running, (all_three,), all_three, _RUNS_S, free, free),),
        faults=(
            *(
                FaultForm(f"{phase}-open", f"has its winding {phase} open", 2.0, open_patch(part.branch(phase)))
                for phase in PHASES
            ),
            FaultForm("grounded", "has a winding touching its case", 2.0, closed_patch(grounded.name)),
            FaultForm("seized", "is seized", 3.0, (Patch("pin", running, position=NO),)),
        ),
        shows={"speed": Shown(variable=running, position=YES)},
        elements=tuple(
            Element(symbol, part.point(a), part.point(b), part.branch(a))
            for symbol, a, b in (("motor", "U", "V"), ("winding", "V", "W"), ("winding", "W", "U"))
        ),
        terminals=(*PHASES, "G"),
        dead_only=dict.fromkeys(PHASES, WHY),
        caution=CAUTION,
    )


KINDS = (
    Kind(
        "inverter",
        "Inverter with mains on L and N that drives a motor at U, V and W, where nothing is read on a live machine. It "
        "shows `awake`, as its light does if it has one.",
        (
            Attribute("power", "power", "What it takes while its motor runs, at its voltage."),
            Attribute("drives", "state", "When it is told to drive its motor, as in `cycle spin`.", optional=True),
            Attribute(
                "link", "name", "Line that a board tells it on, as in 'RX-0V above 2.5 V'; isolated.", optional=True
            ),
        ),
        _inverter,
    ),
    Kind(
        "inverter motor",
        "Motor with three equal windings U, V, W and case G. It shows `speed`. Dead ohms only: U-V, V-W and W-U read "
        "alike.",
        (
            Attribute("winding", "ohms", "Resistance an ohmmeter finds between any two of U, V, W."),
            Attribute("turns", "state", "State without which it cannot turn, as in `drum free`."),
        ),
        _motor,
    ),
)

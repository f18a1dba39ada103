"""Parallel paths of an ohms reading in words: what carries the measuring current, and which lead to lift."""

from __future__ import annotations

from halfsplit.call.engine import Engine
from halfsplit.predict import DROP_AMPS, Lifted, Way, expected
from halfsplit.techsheet import Machine, Wire
from halfsplit.trade import Measure, Mode
from halfsplit.units import show_reading, show_share

GHOST = "a ghost"
_JOINT_OHM = 0.2
_CLOSED_OHM = 1.0
"""Less is wire and closed contacts: no part stands beside it, and its drop tells of a joint."""
_LEAST_SHARE = 0.1
"""A path beside the part with less of the current changes its reading too little to tell of."""


def ways_say(machine: Machine, ways: tuple[Way, ...], lifts: tuple[Lifted, ...], ohm: float) -> tuple[str, ...]:
    """Sentences about an ohms reading of `ohm` that parts beside the one between the probes share; none if none do."""
    if not ways or (len(ways) == 1 and (ways[0].between or ohm < _CLOSED_OHM)):
        return ()
    paths = "; ".join(_way_says(machine, way) for way in ways)
    shown = show_reading(ohm, "ohms")
    lifted = (f"With the lead {lift.wire} lifted, {shown} becomes {show_reading(lift.ohm, 'ohms')}." for lift in lifts)
    return (f"The measuring current goes {paths}.", *lifted)


def drop_says(engine: Engine, action: Measure) -> tuple[str, ...]:
    """What the drop along a loaded wire or closed contact tells that ohms do not; nothing for other readings."""
    if action.mode != "volts" or not _is_joined(engine.machine, action.points):
        return ()
    volts, amps = (_sound(engine, action, mode) for mode in ("volts", "amps"))
    if amps < DROP_AMPS or volts > _CLOSED_OHM * amps:
        return ()
    dropped = show_reading(_JOINT_OHM * amps, "volts")
    return (
        f"Sound, it carries {show_reading(amps, 'amps')}: a joint of {_JOINT_OHM:g} Ω would drop {dropped}, "
        "and hide in the leads of an ohmmeter.",
    )


def _sound(engine: Engine, action: Measure, mode: Mode) -> float:
    setup = engine.machine.setups[action.setup]
    return float(expected(engine.singles.healthy, (action.points,), mode, setup).mean[0, 0])


def _is_joined(machine: Machine, pair: tuple[str, str]) -> bool:
    """Whether one wire or one part joins two points, so that a current through it can be told."""
    return wire_between(machine, pair) is not None or any({it.a, it.b} == set(pair) for it in machine.elements)


def wire_between(machine: Machine, pair: tuple[str, str]) -> Wire | None:
    """The wire with these two ends, if there is one."""
    return next((wire for wire in machine.wires.values() if set(wire.ends) == set(pair)), None)


def _way_says(machine: Machine, way: Way) -> str:
    names = [machine.title_of(thing) for thing in way.through]
    itself = " itself" if way.between else ""
    return f"{show_share(way.share)} through {', '.join(names) or 'closed contacts'}{itself}"


def others_say(machine: Machine, ways: tuple[Way, ...]) -> str:
    """What joins in beside the part between the probes, as an afterthought to its reading; empty if nothing does."""
    others = [way for way in ways if not way.between and way.share >= _LEAST_SHARE]
    things = dict.fromkeys(thing for way in others for thing in way.through)
    return f"through {', '.join(machine.title_of(thing) for thing in things)}" if things else ""

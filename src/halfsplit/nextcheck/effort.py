"""How long a check takes, what must come off for it, and whether it is made live.

Minutes of an act: common practice, from memory.
"""

from __future__ import annotations

from collections.abc import Iterable

from halfsplit.techsheet import Machine
from halfsplit.trade import Action, Look
from halfsplit.units import METER_MODES

_LOOK_MINUTES, _OHMS_MINUTES, _VOLTS_MINUTES = 1.0, 2.0, 3.0
_STEP_MINUTES = 0.1
"""One knob, plug or door: little, but of two checks that tell the same it picks the plainer setup."""


def place_of(action: Action) -> object:
    """Where a check is made: the same place again repeats the same mistake, in whatever setup tells just as much."""
    return action.function if isinstance(action, Look) else (frozenset(action.points), action.mode)


def is_live(action: Action) -> bool:
    """Whether a check puts probes on a live machine."""
    return not isinstance(action, Look) and METER_MODES[action.mode].needs == "live"


def act_minutes(machine: Machine, action: Action) -> float:
    """Minutes of a check with everything open: its setup and the act."""
    setup = machine.setups[action.setup]
    preparing = setup.minutes + _STEP_MINUTES * len(setup.steps)
    if isinstance(action, Look):
        return _LOOK_MINUTES + preparing
    return preparing + (_VOLTS_MINUTES if is_live(action) else _OHMS_MINUTES)


def zones_of(machine: Machine, action: Action) -> frozenset[str]:
    """Zones that must be open for a check; a look is made with the covers on, a clamp goes on at either end."""
    if isinstance(action, Look):
        return frozenset()
    zones = {machine.zone_of_point(point) for point in action.points}
    if METER_MODES[action.mode].where == "wire":
        return frozenset((min(zones, key=lambda zone: (zone_minutes(machine, (zone,)), zone)),))
    return frozenset(zones)


def check_minutes(machine: Machine, action: Action, opened: frozenset[str]) -> float:
    """Minutes of a check: the act, its setup, and what must come off for it (and go on again)."""
    return act_minutes(machine, action) + zone_minutes(machine, zones_of(machine, action) - opened)


def zones_opened(machine: Machine, actions: Iterable[Action]) -> frozenset[str]:
    """Zones that the checks already made must have opened."""
    return frozenset(zone for action in actions for zone in zones_of(machine, action))


def zone_minutes(machine: Machine, zones: Iterable[str]) -> float:
    """Minutes to open and close zones."""
    return sum(machine.zones[zone].open_minutes + machine.zones[zone].close_minutes for zone in zones)

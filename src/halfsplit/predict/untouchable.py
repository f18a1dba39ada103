"""Points that are read on a dead machine or not at all: high voltage, and what no meter reads truly.

Here a reading is refused before it is worked out, so that no proposal, no answer and no entry can have one.
"""

from __future__ import annotations

from halfsplit.errors import InputError
from halfsplit.techsheet import Machine
from halfsplit.trade import Mode
from halfsplit.units import METER_MODES


def is_untouchable(machine: Machine, pair: tuple[str, str]) -> bool:
    """Whether a pair of points is for a dead machine only."""
    return any(point in machine.dead_only for point in pair)


def refuse_untouchable(machine: Machine, pairs: tuple[tuple[str, str], ...], mode: Mode, *, dead: bool) -> None:
    """Refuse what is not ohms on a dead machine at a point that is for those only.

    Raises:
        InputError: One of the pairs has such a point.
    """
    if METER_MODES[mode].needs == "dead" and dead:
        return
    for point in (point for pair in pairs for point in pair):
        if point in machine.dead_only:
            what = f"{point} is never read on a live machine: {machine.dead_only[point]}."
            raise InputError(what, "Read ohms there in a setup with the plug out.")

"""Permanent-magnet drain pumps: a magnet that follows the mains, held still or turning at nearly the same current.

Shares and rates: common practice, from memory.
"""

from __future__ import annotations

from dataclasses import replace

from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Kind, Stamp, Surroundings
from halfsplit.techsheet.kinds.shaded_pole import one_winding, swallowed

_LOCKED_TIMES = 1.1


def _pump(part: PartValues, around: Surroundings) -> Stamp:
    """As a shaded-pole pump; it may start either way round, and hums when it is held still."""
    values = {**part.values, "locked current": _LOCKED_TIMES * part.number("running current")}
    return one_winding(replace(part, values=values), around, *swallowed(part))


KINDS = (
    Kind(
        "permanent-magnet pump",
        "Drain pump with a magnet that follows the mains, 1-2; held still it hums and takes hardly more current.",
        (
            Attribute("volts", "volts", "Rated voltage.", 120.0),
            Attribute("winding", "ohms", "Resistance an ohmmeter finds."),
            Attribute("running current", "amps", "Its current, running."),
            Attribute("turns", "state", "State without which it cannot turn, as in `pump free`."),
        ),
        _pump,
    ),
)

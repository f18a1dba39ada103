"""What a person types off the meter: `118`, `118 V`, `OL`, `0.4 ohm`, `2.4k`."""

from __future__ import annotations

import math
import re

from halfsplit.errors import InputError, quoted
from halfsplit.units.quantity import SlipError, split_quantity
from halfsplit.units.show import show

_UNIT = {"volts": "V", "low-z": "V", "ohms": "Ω", "amps": "A"}
_MOST = {"volts": 1000.0, "low-z": 1000.0, "ohms": 100e6, "amps": 400.0}
_EXAMPLE = {"volts": "118 or 118 V", "low-z": "118 or 118 V", "ohms": "0.4, 2.4k or OL", "amps": "5.2 or 5.2 A"}
_OPEN = re.compile(r"(\.?[o0]\.?l\.?|open|inf|infinite|infinity|∞|over|overload)([km]?(ω|\u2126|ohms?))?")
"""All the ways a meter shows, and people say, that there is no path (folded, without spaces)."""


def read_reading(text: str, mode: str) -> float:
    """The value shown, in volts, ohms or amps; infinity for OL on ohms.

    The sign of a voltage or current is dropped: on alternating current it only says which probe was which.

    Args:
        text: As typed.
        mode: `volts`, `low-z`, `ohms` or `amps`.

    Raises:
        InputError: Not a reading of that mode, or beyond what such a meter shows.

    >>> read_reading("118 V", "volts")
    118.0
    >>> read_reading("OL", "ohms")
    inf
    """
    right = f"Type what the meter shows, as in {_EXAMPLE[mode]}."
    unit = _UNIT[mode]
    if not text.strip():
        raise InputError("Nothing was typed.", right)
    if _OPEN.fullmatch("".join(text.split()).casefold()):
        return _open_reading(text, mode, right)
    value, written = _split(text, right)
    if written not in ("", unit):
        raise InputError(f"{quoted(text)} is in {written}, but this check reads {unit}.", right)
    value = value if unit == "Ω" else abs(value)
    if not 0 <= value <= _MOST[mode]:
        raise InputError(f"{quoted(text)} is beyond what a meter shows here (0 to {show(_MOST[mode], unit)}).", right)
    return value


def _open_reading(text: str, mode: str, right: str) -> float:
    if mode != "ohms":
        raise InputError(f"{quoted(text)} is an ohms reading, but this check reads {_UNIT[mode]}.", right)
    return math.inf


def _split(text: str, right: str) -> tuple[float, str]:
    """Number and unit; what would be right is said of a reading, but for a slip, which has its own cure."""
    try:
        return split_quantity(text)
    except SlipError:
        raise
    except InputError as error:
        raise InputError(error.what, right) from None

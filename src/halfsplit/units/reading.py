"""What a person types off the meter: `118`, `118 V`, `OL`, `0.4 ohm`, `2.4k`."""

from __future__ import annotations

import math

from halfsplit.errors import InputError
from halfsplit.units.quantity import split_quantity

_UNIT = {"volts": "V", "low-z": "V", "ohms": "Ω", "amps": "A"}
_MOST = {"volts": 1000.0, "low-z": 1000.0, "ohms": 100e6, "amps": 400.0}
_OPEN = {"ol", "o.l", "o.l.", "0l", "open", "inf", "infinite", "∞", "over", "overload"}
_EXAMPLE = {"volts": "118 or 118 V", "low-z": "118 or 118 V", "ohms": "0.4, 2.4k or OL", "amps": "5.2 or 5.2 A"}


def read_reading(text: str, mode: str) -> float:
    """The value shown, in volts, ohms or amps; infinity for OL on ohms.

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
    typed = text.strip()
    if not typed:
        raise InputError("Nothing was typed.", right)
    if typed.lower().rstrip("Ωohms ").strip() in _OPEN or typed.lower() in _OPEN:
        return _open_reading(typed, mode, right)
    value, unit = _split(typed, right)
    if unit not in ("", _UNIT[mode]):
        raise InputError(f"{typed!r} is in {unit}, but this check reads {_UNIT[mode]}.", right)
    value = abs(value) if _UNIT[mode] != "Ω" else value
    if value < 0 or value > _MOST[mode]:
        raise InputError(f"{typed!r} is beyond what a meter shows here (0 to {_MOST[mode]:.0f} {_UNIT[mode]}).", right)
    return value


def _open_reading(typed: str, mode: str, right: str) -> float:
    if mode != "ohms":
        raise InputError(f"{typed!r} is an ohms reading, but this check reads {_UNIT[mode]}.", right)
    return math.inf


def _split(typed: str, right: str) -> tuple[float, str]:
    try:
        return split_quantity(typed)
    except InputError as error:
        raise InputError(error.what, right) from None

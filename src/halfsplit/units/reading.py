"""What a person types off the meter: `118`, `118 V`, `OL`, `0.4 ohm`, `2.4k`, `beeps`."""

from __future__ import annotations

import math
import re

from halfsplit.errors import InputError, quoted
from halfsplit.units.meter import METER_MODES, MeterMode
from halfsplit.units.quantity import SlipError, split_quantity
from halfsplit.units.show import show

_OPEN = re.compile(r"(\.?[o0]\.?l\.?|open|inf|infinite|infinity|∞|over|overload)([km]?(ω|\u2126|ohms?))?")
"""All the ways a meter shows, and people say, that there is no path (folded, without spaces)."""
_TONE = {
    "beeps": 1.0,
    "beep": 1.0,
    "yes": 1.0,
    "tone": 1.0,
    "silent": 0.0,
    "silence": 0.0,
    "no": 0.0,
    "nobeep": 0.0,
    "issilent": 0.0,
}


def read_reading(text: str, mode: str) -> float:
    """The value shown, in the mode's unit; infinity for OL on ohms, 1 or 0 for a tone or none.

    The sign of an alternating voltage or current is dropped: it only says which probe was which.

    Args:
        text: As typed.
        mode: A name in `METER_MODES`.

    Raises:
        InputError: Not a reading of that mode, or beyond what such a meter shows.

    >>> read_reading("118 V", "volts"), read_reading("-12 V", "dc")
    (118.0, -12.0)
    >>> read_reading("OL", "ohms"), read_reading("200", "insulation-500"), read_reading("beeps", "continuity")
    (inf, 200000000.0, 1.0)
    """
    meter = METER_MODES[mode]
    right = f"Type what the meter shows, as in {meter.example}."
    if not text.strip():
        raise InputError("Nothing was typed.", right)
    folded = "".join(text.split()).casefold()
    if meter.is_tone:
        return _tone(folded, text, right)
    if _OPEN.fullmatch(folded):
        return _open_reading(text, meter, right)
    return _within(_number(text, meter, right), text, meter, right)


def _tone(folded: str, text: str, right: str) -> float:
    if _OPEN.fullmatch(folded):
        return 0.0
    if folded not in _TONE:
        raise InputError(f"{quoted(text)} does not say whether the meter beeps.", right)
    return _TONE[folded]


def _number(text: str, meter: MeterMode, right: str) -> float:
    value, written = _split(text, right)
    if written not in ("", meter.unit):
        raise InputError(f"{quoted(text)} is in {written}, but this check reads {meter.unit}.", right)
    value = value if written else value * meter.bare
    return value if meter.signed or meter.opens else abs(value)


def _within(value: float, text: str, meter: MeterMode, right: str) -> float:
    least = -meter.most if meter.signed else 0.0
    if not least <= value <= meter.most:
        low, high = show(least, meter.unit).removesuffix(f" {meter.unit}"), show(meter.most, meter.unit)
        raise InputError(f"{quoted(text)} is beyond what a meter shows here ({low} to {high}).", right)
    return value


def _open_reading(text: str, meter: MeterMode, right: str) -> float:
    if not meter.opens:
        raise InputError(f"{quoted(text)} is an ohms reading, but this check reads {meter.unit}.", right)
    return math.inf


def _split(text: str, right: str) -> tuple[float, str]:
    """Number and unit; what would be right is said of a reading, but for a slip, which has its own cure."""
    try:
        return split_quantity(text)
    except SlipError:
        raise
    except InputError as error:
        raise InputError(error.what, right) from None

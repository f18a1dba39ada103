"""Quantities on sheets: `5.4 kW at 240 V`, `16 Ω`, `180 °F`, `16 AWG 0.6 m`.

quantiphy reads numbers and prefixes; the list of spellings here is closed, because quantiphy alone would take
`4k7` for 4 of a unit called k7.
"""

from __future__ import annotations

import math
import re

from quantiphy import InvalidNumber, Quantity

from halfsplit.errors import InputError

UNITS: dict[str, tuple[str, ...]] = {
    "V": ("V", "volt", "volts", "Vac", "VAC"),
    "Ω": ("Ω", "\u2126", "ohm", "ohms", "Ohm", "Ohms", "R"),
    "A": ("A", "amp", "amps", "ampere", "amperes"),
    "W": ("W", "watt", "watts"),
    "Hz": ("Hz", "hz"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "ft": ("ft", "foot", "feet"),
    "min": ("min", "minute", "minutes"),
    "°C": ("°C", "C", "degC"),
    "°F": ("°F", "F", "degF"),
}
"""Each unit we print, with the spellings we read."""

_EXAMPLES = {"V": "120 V", "Ω": "16 Ω", "A": "5 A", "W": "5.4 kW", "Hz": "60 Hz", "m": "0.6 m", "min": "8 min"}
_UNIT_OF = {spelling: unit for unit, spellings in UNITS.items() for spelling in spellings}
_FORM = re.compile(r"^\s*([-+]?[\d.,]+(?:[eE][-+]?\d+)?)\s*([kKMmuµμn]?)\s*([^\d\s].*?)?\s*$")
_METRES_PER_FOOT = 0.3048
_OHM_PER_METRE_CMIL = 10.371 * 1.21615 / _METRES_PER_FOOT


def split_quantity(text: str) -> tuple[float, str]:
    """Number and unit of a text; the unit is one of `UNITS` or empty.

    Raises:
        InputError: It is not a number with a known unit.
    """
    cleaned = _plain(text)
    form = _FORM.match(cleaned)
    if form is None:
        raise InputError(f"{text.strip()!r} is not a quantity.", "Write a number and a unit, as in 16 Ω.")
    number, prefix, rest = form.groups()
    unit = _UNIT_OF.get(prefix + (rest or ""), "") if prefix else ""
    if unit:
        prefix = ""
    elif rest:
        unit = _UNIT_OF.get(rest, "")
        if not unit:
            raise InputError(f"{text.strip()!r} has no unit that halfsplit knows.", "Write it as in 16 Ω, 4.7 kΩ or 120 V.")
    return _number(number, "k" if prefix == "K" else prefix, text), unit


def _plain(text: str) -> str:
    """Decimal comma to point; a comma between groups of three digits is a thousands mark and goes."""
    without_groups = re.sub(r"(?<=\d),(?=\d{3}(?!\d))", "", text) if re.search(r"\d,\d{3}(?!\d)", text) else text
    return re.sub(r"(?<=\d),(?=\d)", ".", without_groups)


def _number(number: str, prefix: str, text: str) -> float:
    try:
        value = float(Quantity(f"{number}{prefix}"))
    except InvalidNumber:
        raise InputError(f"{text.strip()!r} is not a number.", "Write digits and a unit, as in 16 Ω.") from None
    if not math.isfinite(value):
        raise InputError(f"{text.strip()!r} is too large to be real.", "Write the number on the meter or the paper.")
    return value


def read_quantity(text: str, unit: str) -> float:
    """Value of `text` in `unit` (a key of `UNITS`); a bare number counts as already in it.

    Raises:
        InputError: Not a quantity, another unit, or not above zero.

    >>> read_quantity("2.4 kΩ", "Ω")
    2400.0
    """
    value, found = split_quantity(text)
    if found not in ("", unit):
        raise InputError(f"{text.strip()!r} is not in {unit}.", f"Write it as in {_EXAMPLES.get(unit, unit)}.")
    if value <= 0:
        raise InputError(f"{text.strip()!r} is not above zero.", f"Write it as in {_EXAMPLES.get(unit, unit)}.")
    return value


def read_power(text: str) -> tuple[float, float]:
    """Watts and the volts they are rated at, from `5.4 kW at 240 V`.

    Raises:
        InputError: Not a power at a voltage.

    >>> read_power("5.4 kW at 240 V")
    (5400.0, 240.0)
    """
    parts = re.split(r"\s+(?:at|@)\s+|\s*@\s*", text.strip())
    if len(parts) != 2:
        raise InputError(f"{text.strip()!r} is not a power at a voltage.", "Write it as in 5.4 kW at 240 V.")
    return read_quantity(parts[0], "W"), read_quantity(parts[1], "V")


def read_current(text: str) -> float:
    """Amperes."""
    return read_quantity(text, "A")


def read_minutes(text: str) -> float:
    """Minutes; zero is allowed.

    Raises:
        InputError: Not a time in minutes, or below zero.
    """
    value, unit = split_quantity(text)
    if unit not in ("", "min") or value < 0:
        raise InputError(f"{text.strip()!r} is not a time in minutes.", "Write it as in 8 min.")
    return value


def read_temperature(text: str) -> float:
    """Degrees Celsius, from °C or °F.

    Raises:
        InputError: No unit, or another one.

    >>> round(read_temperature("212 °F"), 6)
    100.0
    """
    value, unit = split_quantity(text.replace("° ", "°"))
    if unit == "°F":
        return (value - 32.0) / 1.8
    if unit == "°C":
        return value
    raise InputError(f"{text.strip()!r} is not a temperature.", "Write it as in 155 °F or 68 °C.")


def read_conductor(text: str) -> tuple[int, float]:
    """Gauge (AWG) and ohms of a copper conductor, from `16 AWG 0.6 m`.

    Resistance at 75 °C: 10.371 · 1.21615 Ω·cmil/ft over the area in circular mils, diameter after ASTM B258
    (NEC chapter 9 table 8 agrees within 0.4 %).

    Raises:
        InputError: Not a gauge and a length, or a gauge outside 0 to 30.
    """
    form = re.match(r"^\s*(\d+)\s*AWG\s+(.+)$", text, re.IGNORECASE)
    right = "Write a gauge and a length, as in 16 AWG 0.6 m."
    if form is None:
        raise InputError(f"{text.strip()!r} is not a conductor.", right)
    gauge = int(form.group(1))
    if gauge > 30:
        raise InputError(f"{text.strip()!r} is thinner than any appliance wire.", right)
    length, unit = split_quantity(form.group(2))
    if unit not in ("m", "ft") or length <= 0:
        raise InputError(f"{text.strip()!r} has no length.", right)
    metres = length * _METRES_PER_FOOT if unit == "ft" else length
    mils = 5.0 * 92.0 ** ((36 - gauge) / 39.0)
    return gauge, _OHM_PER_METRE_CMIL / mils**2 * metres

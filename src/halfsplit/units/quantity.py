"""Quantities on sheets: `5.4 kW at 240 V`, `16 Ω`, `180 °F`, `16 AWG 0.6 m`.

quantiphy reads numbers and prefixes. The list of spellings here is closed, because quantiphy alone would take `4k7`
for 4 of a unit called k7; and so is the range of each unit, so that no later arithmetic can overflow.
"""

from __future__ import annotations

import math
import re

from quantiphy import Quantity

from halfsplit.errors import InputError, quoted

UNITS: dict[str, tuple[str, ...]] = {
    "V": ("V", "volt", "volts", "Vac", "VAC"),
    "Ω": ("Ω", "ohm", "ohms", "R"),
    "A": ("A", "amp", "amps", "ampere", "amperes", "Aac", "AAC"),
    "W": ("W", "watt", "watts"),
    "Hz": ("Hz", "hertz"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "ft": ("ft", "foot", "feet"),
    "min": ("min", "mins", "minute", "minutes"),
    "°C": ("°C", "C", "degC", "degreesC"),
    "°F": ("°F", "F", "degF", "degreesF"),
}
"""Each unit we print, with the spellings we read (capitals matter only where they tell a prefix from another)."""

EXAMPLES = {
    "V": "120 V",
    "Ω": "16 Ω",
    "A": "5 A",
    "W": "5.4 kW",
    "Hz": "60 Hz",
    "m": "0.6 m",
    "ft": "2 ft",
    "min": "8 min",
    "°C": "68 °C",
    "°F": "155 °F",
}
"""How a quantity of each unit is written, for sentences that say what would be right."""

_RANGES = {
    "V": (1e-3, 1e5),
    "Ω": (1e-6, 1e10),
    "A": (1e-6, 1e4),
    "W": (1e-3, 1e6),
    "Hz": (1.0, 1e3),
    "m": (1e-3, 1e3),
    "ft": (1e-2, 1e3),
}
"""Least and most of each unit that an appliance can have; beyond it somebody has slipped a prefix."""

_SAME_SIGN = str.maketrans({"\u2126": "Ω", "μ": "µ", "−": "-", "º": "°", "℃": "°C", "℉": "°F"})
_MOST_CHARACTERS = 40
_PREFIXES = {"k": "k", "K": "k", "M": "M", "G": "G", "m": "m", "u": "u", "µ": "u", "n": "n"}
_TAKES_PREFIX = ("V", "Ω", "A", "W", "Hz", "m")
_UNIT_OF = {spelling: unit for unit, spellings in UNITS.items() for spelling in spellings}
_UNIT_OF_FOLDED = {spelling.casefold(): unit for spelling, unit in _UNIT_OF.items()}
_FORM = re.compile(r"([-+]?[0-9.,]+(?:[eE][-+]?[0-9]+)?)(?: ?([^0-9 ].*))?")
_GROUPS = re.compile(r"[-+]?[1-9][0-9]{0,2}(,[0-9]{3})+(\.[0-9]+)?")
_PLAIN = re.compile(r"[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)")
_LETTER_INSIDE = re.compile(r"([0-9]+)([kKMRr])([0-9]+)")
_METRES_PER_FOOT = 0.3048


class SlipError(InputError):
    """A way of writing with its own cure: `4k7`, or `1,200 k`, which could be two numbers."""


def split_quantity(text: str) -> tuple[float, str]:
    """Number and unit of a text; the unit is one of `UNITS` or empty.

    Raises:
        InputError: It is not a number with a known unit.

    >>> split_quantity("2,4 kΩ"), split_quantity("1,200 W"), split_quantity("0.4")
    ((2400.0, 'Ω'), (1200.0, 'W'), (0.4, ''))
    """
    words = tidy(text)
    form = _FORM.fullmatch(words)
    if form is None or len(words) > _MOST_CHARACTERS:
        raise InputError(f"{quoted(text)} is not a quantity.", "Write a number and a unit, as in 16 Ω.")
    number, tail = form.group(1), (form.group(2) or "").replace(" ", "")
    if inside := _LETTER_INSIDE.fullmatch(words):
        raise SlipError(f"{quoted(text)} has a letter for its point.", _spelt_out(*inside.groups()))
    prefix, unit = _prefix_and_unit(tail, text)
    return _number(number, prefix, text), unit


def tidy(text: str) -> str:
    """One kind of space, minus, ohm, micro and degree sign."""
    return " ".join(text.translate(_SAME_SIGN).split())


def _spelt_out(whole: str, letter: str, rest: str) -> str:
    """`4k7` as it is read here."""
    prefix = "" if letter in "Rr" else _PREFIXES[letter]
    return f"Write {whole}.{rest} {prefix}Ω."


def _prefix_and_unit(tail: str, text: str) -> tuple[str, str]:
    """What follows a number: `kΩ` is k and Ω, `m` is metres, `M` is a prefix alone."""
    if tail == "" or tail in _UNIT_OF:
        return "", _UNIT_OF.get(tail, "")
    length = 3 if tail[:3].lower() == "meg" else 1
    prefix, rest = "M" if length == 3 else _PREFIXES.get(tail[0], ""), tail[length:]
    if prefix and (rest == "" or _unit(rest) in _TAKES_PREFIX):
        return prefix, _unit(rest)
    if _unit(tail):
        return "", _unit(tail)
    raise InputError(f"{quoted(text)} has no unit that halfsplit knows.", "Write it as in 16 Ω, 4.7 kΩ or 120 V.")


def _unit(spelling: str) -> str:
    return _UNIT_OF.get(spelling, "") or _UNIT_OF_FOLDED.get(spelling.casefold(), "")


def _number(number: str, prefix: str, text: str) -> float:
    value = float(Quantity(f"{_point(number, prefix, text)}{prefix}"))
    if not math.isfinite(value):
        raise InputError(f"{quoted(text)} is too large to be real.", "Write the number on the meter or the paper.")
    return value


def _point(number: str, prefix: str, text: str) -> str:
    """The number with a decimal point and no thousands marks.

    `2,4` is two point four and `1,200` is twelve hundred, as that is how either is written; before a prefix `1,200 k`
    could be both, and a factor of a thousand is not to be guessed.
    """
    mantissa, e, exponent = number.replace("E", "e").partition("e")
    if _GROUPS.fullmatch(mantissa):
        if prefix and mantissa.count(",") == 1 and "." not in mantissa:
            raise SlipError(f"{quoted(text)} could be read in two ways.", "Write it with a point, or with no comma.")
        mantissa = mantissa.replace(",", "")
    elif mantissa.count(",") == 1 and "." not in mantissa:
        mantissa = mantissa.replace(",", ".")
    if not _PLAIN.fullmatch(mantissa):
        raise InputError(f"{quoted(text)} is not a number.", "Write digits and a unit, as in 16 Ω.")
    return f"{mantissa}{e}{exponent}"


def read_quantity(text: str, unit: str) -> float:
    """Value of `text` in `unit` (a key of `UNITS`); a bare number counts as already in it.

    Raises:
        InputError: Not a quantity, another unit, not above zero, or beyond anything in an appliance.

    >>> read_quantity("2.4 kΩ", "Ω")
    2400.0
    """
    value, found = split_quantity(text)
    right = f"Write it as in {EXAMPLES[unit]}."
    if found not in ("", unit):
        raise InputError(f"{quoted(text)} is not in {unit}.", right)
    return _within(value, unit, text, right)


def _within(value: float, unit: str, text: str, right: str) -> float:
    least, most = _RANGES[unit]
    if value <= 0:
        raise InputError(f"{quoted(text)} is not above zero.", right)
    if not least <= value <= most:
        raise InputError(f"{quoted(text)} is beyond anything in an appliance ({least:g} to {most:g} {unit}).", right)
    return value


def read_power(text: str) -> tuple[float, float]:
    """Watts and the volts they are rated at, from `5.4 kW at 240 V`.

    Raises:
        InputError: Not a power at a voltage.

    >>> read_power("5.4 kW at 240 V")
    (5400.0, 240.0)
    """
    parts = re.split(r" at | ?@ ?", tidy(text))
    if len(parts) != 2:
        raise InputError(f"{quoted(text)} is not a power at a voltage.", "Write it as in 5.4 kW at 240 V.")
    return read_quantity(parts[0], "W"), read_quantity(parts[1], "V")


def read_current(text: str) -> float:
    """Amperes.

    >>> read_current("40 mA")
    0.04
    """
    return read_quantity(text, "A")


def read_minutes(text: str) -> float:
    """Minutes, up to a day; zero is allowed.

    Raises:
        InputError: Not a time in minutes, below zero, or longer than a day.

    >>> read_minutes("8 min"), read_minutes("0")
    (8.0, 0.0)
    """
    value, unit = split_quantity(text)
    if unit not in ("", "min") or not 0 <= value <= 24 * 60:
        raise InputError(f"{quoted(text)} is not a time in minutes.", "Write it as in 8 min.")
    return value


def read_temperature(text: str) -> float:
    """Degrees Celsius, from °C or °F.

    Raises:
        InputError: No unit, another one, or a temperature no appliance meets (−60 to 1500 °C).

    >>> round(read_temperature("212 °F"), 6)
    100.0
    """
    value, unit = split_quantity(text)
    if unit not in ("°C", "°F"):
        raise InputError(f"{quoted(text)} is not a temperature.", "Write it as in 155 °F or 68 °C.")
    celsius = (value - 32.0) / 1.8 if unit == "°F" else value
    if not -60 <= celsius <= 1500:
        raise InputError(f"{quoted(text)} is no temperature of an appliance.", "Write it as in 155 °F or 68 °C.")
    return celsius


def read_length(text: str) -> float:
    """Metres, from metres or feet.

    Raises:
        InputError: No unit, another one, or no length of a house or an appliance.

    >>> round(read_length("40 ft"), 3)
    12.192
    """
    return metres_in(text, text, "Write it as in 12 m or 40 ft.")


def metres_in(written: str, text: str, right: str) -> float:
    """Metres of a length as `written`, which is all or a part of `text`; `right` is what would be right.

    Raises:
        InputError: No length, or none of a house or an appliance.
    """
    length, unit = split_quantity(written)
    if unit not in ("m", "ft"):
        raise InputError(f"{quoted(text)} has no length.", right)
    return _within(length, unit, text, right) * (_METRES_PER_FOOT if unit == "ft" else 1.0)

"""Print quantities the way a meter or a person would."""

from __future__ import annotations

import math

_MODE_UNIT = {"volts": "V", "low-z": "V", "ohms": "Ω", "amps": "A"}
_PREFIXES = ((1e6, "M"), (1e3, "k"))
_SMALL = {"V": 0.05, "A": 0.005, "Ω": 0.05}


def show(value: float, unit: str) -> str:
    """Three figures with a prefix where it helps.

    >>> show(10.667, "Ω"), show(2400, "Ω"), show(0, "V")
    ('10.7 Ω', '2.4 kΩ', '0 V')
    """
    if abs(value) < _SMALL.get(unit, 0.0):
        return f"0 {unit}"
    for size, prefix in _PREFIXES:
        if unit != "V" and abs(value) >= size:
            return f"{_figures(value / size)} {prefix}{unit}"
    return f"{_figures(value)} {unit}"


def show_reading(value: float, mode: str) -> str:
    """A reading in its mode's unit; infinity is OL."""
    return "OL" if math.isinf(value) else show(value, _MODE_UNIT[mode])


def show_share(share: float) -> str:
    """A probability for people: never 0 % or 100 %, which nobody knows.

    >>> show_share(0.9999), show_share(0.42), show_share(0.00001)
    ('over 99 %', '42 %', 'under 1 %')
    """
    if share < 0.01:
        return "under 1 %"
    return "over 99 %" if share > 0.99 else f"{share * 100:.0f} %"


def _figures(value: float) -> str:
    text = f"{value:.0f}" if abs(value) >= 100 else f"{value:.3g}"
    return text

"""Print quantities the way a meter or a person would."""

from __future__ import annotations

import math

from halfsplit.units.meter import METER_MODES

_PREFIXES = ((1e9, "G"), (1e6, "M"), (1e3, "k"))
_SMALL = {"V": 0.05, "A": 0.005, "Ω": 0.05}
_SMALLEST = 0.0005
_LIKELIER = 0.5


def show(value: float, unit: str) -> str:
    """Three figures with a prefix where it helps; what no meter would show is 0.

    >>> show(10.667, "Ω"), show(2400, "Ω"), show(999.9, "W"), show(0, "V")
    ('10.7 Ω', '2.4 kΩ', '1 kW', '0 V')
    """
    if abs(value) < _SMALL.get(unit, _SMALLEST):
        return f"0 {unit}"
    rounded = float(f"{value:.3g}")
    for size, prefix in _PREFIXES:
        if unit != "V" and abs(rounded) >= size:
            return f"{_figures(value / size)} {prefix}{unit}"
    return f"{_figures(value)} {unit}"


def show_reading(value: float, mode: str) -> str:
    """A reading in its mode's unit; infinity is OL, and a tone is there where it is likelier than not.

    >>> show_reading(118.2, "volts"), show_reading(math.inf, "ohms"), show_reading(1, "continuity")
    ('118 V', 'OL', 'beeps')
    """
    meter = METER_MODES[mode]
    if meter.is_tone:
        return "beeps" if value >= _LIKELIER else "is silent"
    return meter.open_says if math.isinf(value) else show(value, meter.unit)


def write_reading(value: float, mode: str) -> str:
    """A reading with every digit it has, so that `read_reading` gives back the same number: for files, not for people.

    >>> write_reading(118.25, "volts"), write_reading(math.inf, "ohms")
    ('118.25 V', 'OL')
    """
    meter = METER_MODES[mode]
    if meter.is_tone:
        return "beeps" if value >= _LIKELIER else "silent"
    return "OL" if math.isinf(value) else f"{float(value)!r} {meter.unit}"


def show_share(share: float) -> str:
    """A probability for people: never 0 % or 100 %, which nobody knows.

    >>> show_share(0.9999), show_share(0.42), show_share(0.00001)
    ('over 99 %', '42 %', 'under 1 %')
    """
    if share < 0.01:
        return "under 1 %"
    return "over 99 %" if share > 0.99 else f"{share * 100:.0f} %"


def _figures(value: float) -> str:
    return f"{value:.0f}" if abs(value) >= 100 else f"{value:.3g}"

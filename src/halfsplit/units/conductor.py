"""Copper conductors by gauge or cross-section: `16 AWG 0.6 m`, `1.5 mm² 0.6 m`.

Resistance at 75 °C: 10.371 · 1.21615 Ω·cmil/ft over the area, AWG diameters after ASTM B258 (NEC chapter 9 table 8
agrees within 0.4 %). A cross-section is taken as nominal: IEC 60228 allows up to 8 % more.
"""

from __future__ import annotations

import math
import re

from halfsplit.errors import InputError, quoted
from halfsplit.units.quantity import metres_in, tidy

_AWG = re.compile(r"([0-9]{1,2}) ?AWG,? ?([0-9.].*)", re.IGNORECASE)
_METRIC = re.compile(r"([0-9]{1,2}(?:[.,][0-9]{1,3})?) ?(?:mm²|mm2|mm\^2|sq ?mm),? ?([0-9.].*)", re.IGNORECASE)
_OHM_PER_METRE_CMIL = 10.371 * 1.21615 / 0.3048
_SQUARE_MM_PER_CMIL = math.pi / 4.0 * 0.0254**2
_THINNEST, _THINNEST_MM2, _THICKEST_MM2 = 30, 0.05, 50.0
_RIGHT = "Write a gauge and a length, as in 16 AWG 0.6 m."


def read_conductor(text: str) -> tuple[int, float]:
    """Gauge (AWG, or the nearest to a cross-section) and ohms of a copper conductor.

    Raises:
        InputError: Not a gauge and a length, or thinner or thicker than any wire of an appliance.

    >>> gauge, ohm = read_conductor("10 AWG 1000 ft")
    >>> gauge, round(ohm, 3)
    (10, 1.215)
    >>> gauge, ohm = read_conductor("2.5 mm² 100 m")
    >>> gauge, round(ohm, 3)
    (13, 0.839)
    """
    words = tidy(text)
    if form := _AWG.fullmatch(words):
        gauge = int(form.group(1))
        if gauge > _THINNEST:
            raise InputError(f"{quoted(text)} is thinner than any appliance wire.", _RIGHT)
        cmil = (5.0 * 92.0 ** ((36 - gauge) / 39.0)) ** 2
    elif form := _METRIC.fullmatch(words):
        cmil = _area(form.group(1), text) / _SQUARE_MM_PER_CMIL
        gauge = max(0, round(36.0 - 39.0 * math.log(math.sqrt(cmil) / 5.0) / math.log(92.0)))
    else:
        raise InputError(f"{quoted(text)} is not a conductor.", _RIGHT)
    return gauge, _OHM_PER_METRE_CMIL / cmil * metres_in(form.group(2), text, _RIGHT)


def _area(written: str, text: str) -> float:
    area = float(written.replace(",", "."))
    if not _THINNEST_MM2 <= area <= _THICKEST_MM2:
        what = "thinner" if area < _THINNEST_MM2 else "thicker"
        raise InputError(f"{quoted(text)} is {what} than any appliance wire.", "Write it as in 1.5 mm² 0.6 m.")
    return area

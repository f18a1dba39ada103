"""Bodies and what passes heat between them, as values.

What may live here: the frozen description of a thermal network. Each link says how many watts it passes at given
temperatures; it must not know how they are followed over time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from halfsplit.errors import HeatError
from halfsplit.heat.air import ZERO_CELSIUS_K
from halfsplit.heat.convection import Facing, plate_coefficient

STEFAN_BOLTZMANN = 5.670374419e-8
"""W/(m² K⁴), CODATA 2018."""
_STILL_KELVIN = 0.5
"""Nearer than this to the air, the air does not move enough for a correlation: no heat is counted."""

Temperatures = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Body:
    """Something with one temperature; without a capacity it is held at it (a room, a wall, fresh air)."""

    name: str
    celsius: float
    joule_per_kelvin: float | None = None


@dataclass(frozen=True, slots=True)
class Link:
    """Conduction, or convection with a known coefficient."""

    a: str
    b: str
    watt_per_kelvin: float

    def watts(self, at: Temperatures) -> float:
        """Heat from a to b, watt."""
        return self.watt_per_kelvin * (at[self.a] - at[self.b])


@dataclass(frozen=True, slots=True)
class Radiant:
    """Radiation between two grey surfaces; `emissivity` is that of the pair, the view between them included."""

    a: str
    b: str
    square_metres: float
    emissivity: float

    def watts(self, at: Temperatures) -> float:
        """Heat from a to b, watt."""
        hot, cold = (at[name] + ZERO_CELSIUS_K for name in (self.a, self.b))
        return STEFAN_BOLTZMANN * self.emissivity * self.square_metres * (hot**4 - cold**4)


@dataclass(frozen=True, slots=True)
class Film:
    """Natural convection from a plate `a` to the air `b`."""

    a: str
    b: str
    square_metres: float
    length_m: float
    facing: Facing = "upright"

    def watts(self, at: Temperatures) -> float:
        """Heat from a to b, watt.

        Raises:
            HeatError: Outside the range of the correlation.
        """
        apart = at[self.a] - at[self.b]
        if abs(apart) < _STILL_KELVIN:
            return 0.0
        return plate_coefficient(at[self.a], at[self.b], self.length_m, self.facing) * self.square_metres * apart


@dataclass(frozen=True, slots=True)
class Stream:
    """Air that comes from `a` and leaves through `b`: it warms or cools b, and a takes no notice."""

    a: str
    b: str
    watt_per_kelvin: float

    def watts(self, at: Temperatures) -> float:
        """Heat brought to b, watt."""
        return self.watt_per_kelvin * (at[self.a] - at[self.b])


AnyLink = Link | Radiant | Film | Stream


@dataclass(frozen=True, slots=True)
class HeatNetwork:
    """Bodies and links.

    Raises:
        HeatError: A link names no body, two bodies have one name, or a number is not above zero.
    """

    bodies: tuple[Body, ...]
    links: tuple[AnyLink, ...]

    def __post_init__(self) -> None:
        names = [body.name for body in self.bodies]
        if len(set(names)) < len(names):
            raise HeatError("Two bodies have the same name.", "Give one another name.")
        for body in self.bodies:
            if body.joule_per_kelvin is not None and body.joule_per_kelvin <= 0:
                raise HeatError(f"{body.name} stores no heat.", "Give a capacity above zero, or none to hold it.")
        for link in self.links:
            if not {link.a, link.b} <= set(names):
                raise HeatError(f"A link joins {link.a} and {link.b}.", f"The bodies are {', '.join(names)}.")

    def free(self) -> tuple[str, ...]:
        """Bodies whose temperature is not held."""
        return tuple(body.name for body in self.bodies if body.joule_per_kelvin is not None)

    def gains(self, at: Temperatures, watts: Mapping[str, float]) -> dict[str, float]:
        """Net heat into every body at given temperatures and given heating, watt."""
        gained = {body.name: watts.get(body.name, 0.0) for body in self.bodies}
        for link in self.links:
            passed = link.watts(at)
            gained[link.b] += passed
            if not isinstance(link, Stream):
                gained[link.a] -= passed
        return gained

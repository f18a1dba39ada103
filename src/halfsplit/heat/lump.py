"""One body and one link: the exact exponential, and whether a body may be taken as one lump at all."""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfsplit.errors import HeatError

LARGEST_BIOT = 0.1
"""Up to here a body has one temperature within 5 % (Incropera, section 5.2; from memory)."""


def biot(coefficient: float, length_m: float, conductivity: float) -> float:
    """Biot number of a body: W/(m² K) outside, volume over surface, W/(m K) inside."""
    return coefficient * length_m / conductivity


@dataclass(frozen=True, slots=True)
class Lump:
    """One body with a linear way out of it.

    Attributes:
        joule_per_kelvin: What it stores.
        watt_per_kelvin: What it loses.
        around: Temperature around it, °C.
        watts: What heats it.
    """

    joule_per_kelvin: float
    watt_per_kelvin: float
    around: float
    watts: float = 0.0

    @property
    def seconds(self) -> float:
        """Its time constant."""
        return self.joule_per_kelvin / self.watt_per_kelvin

    @property
    def end(self) -> float:
        """Where it comes to rest, °C."""
        return self.around + self.watts / self.watt_per_kelvin

    def after(self, start: float, seconds: float) -> float:
        """Its temperature so long after it was at `start` °C.

        >>> round(Lump(1.0, 1.0, 15.0).after(0.0, 1.0), 3)
        9.482
        """
        return self.end + (start - self.end) * math.exp(-seconds / self.seconds)

    def time_to(self, start: float, celsius: float) -> float:
        """Seconds until it passes a temperature.

        Raises:
            HeatError: It never does.

        >>> round(Lump(1.0, 1.0, 200.0).time_to(25.0, 199.0), 3)
        5.165
        """
        share = (celsius - self.end) / (start - self.end) if start != self.end else 0.0
        if not 0.0 < share <= 1.0:
            raise HeatError(
                f"From {start:g} °C it never passes {celsius:g} °C.", f"It comes to rest at {self.end:g} °C."
            )
        return -self.seconds * math.log(share)

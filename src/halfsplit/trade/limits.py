"""Published limits, each with the standard and edition it stands in: local codes rule.

What may live here: numbers that several rooms compare a reading with. Nothing here judges a machine.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Where = Literal["service", "utilisation"]
"""At the meter's end of the supply, or where a machine is plugged in."""


@dataclass(frozen=True, slots=True)
class VoltageLimits:
    """What a leg of nominal 120 V may be; a pair of legs, twice that.

    Attributes:
        standard: Its name.
        edition: Which edition; limits differ by it.
        where: At the service, or where it is used.
        range: A for usual, B for short times.
        least: Volts.
        most: Volts; None where it is not recorded here.
    """

    standard: str
    edition: str
    where: Where
    range: Literal["A", "B"]
    least: float
    most: float | None = None

    def allows(self, volts: float, nominal: float = 120.0) -> bool:
        """Whether a voltage at a supply of that nominal voltage is within the limits (in proportion to 120 V)."""
        share = volts * 120.0 / nominal
        return self.least <= share and (self.most is None or share <= self.most)


_C84 = "ANSI C84.1"
NEWER, OLDER = "2016 and later (from memory)", "before 2016 (from memory)"
SERVICE_A = VoltageLimits(_C84, "all recent (seen in a secondary print)", "service", "A", 114.0, 126.0)
SERVICE_B = VoltageLimits(_C84, "all recent (seen in a secondary print)", "service", "B", 110.0, 127.0)
VOLTAGE_LIMITS = (
    SERVICE_A,
    SERVICE_B,
    VoltageLimits(_C84, OLDER, "utilisation", "A", 110.0),
    VoltageLimits(_C84, OLDER, "utilisation", "B", 106.0),
    VoltageLimits(_C84, NEWER, "utilisation", "A", 108.0),
    VoltageLimits(_C84, NEWER, "utilisation", "B", 104.0),
)

"""One-shot thermal links: the temperatures printed on them, and what each of them promises.

IEC 60691 (edition not recorded): it opens at its rated functioning temperature Tf within +0/-10 K; it carries its rated
current for 168 hours at its holding temperature Th (Tc on older ones); up to its maximum temperature Tm it does not
close again once open.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfsplit.errors import HeatError

SPREAD_K = 10.0
"""How far below Tf a sound link may open, kelvin."""

Promise = Literal["holds", "may age", "may open", "opens", "may close again"]


@dataclass(frozen=True, slots=True)
class MeltLink:
    """A link by its temperatures, °C; without `holds_at` it is not known what it stands for long.

    Raises:
        HeatError: They are not in order.
    """

    opens_at: float
    holds_at: float | None = None
    most: float | None = None

    def __post_init__(self) -> None:
        if self.holds_at is not None and self.holds_at >= self.opens_at:
            raise HeatError(
                f"It would hold at {self.holds_at:g} °C and open at {self.opens_at:g} °C.", "Th is below Tf."
            )
        if self.most is not None and self.most <= self.opens_at:
            raise HeatError(f"It would open at {self.opens_at:g} °C and end at {self.most:g} °C.", "Tm is above Tf.")

    def promises(self, celsius: float) -> Promise:
        """What a sound one does at a temperature that lasts.

        >>> [MeltLink(184.0, 162.0, 300.0).promises(celsius) for celsius in (150.0, 170.0, 180.0, 184.0, 310.0)]
        ['holds', 'may age', 'may open', 'opens', 'may close again']
        """
        if self.most is not None and celsius > self.most:
            return "may close again"
        if celsius >= self.opens_at:
            return "opens"
        if celsius > self.opens_at - SPREAD_K:
            return "may open"
        return "holds" if self.holds_at is None or celsius <= self.holds_at else "may age"

    def share_open(self, celsius: float) -> float:
        """Share of sound links that have opened at a temperature: even over the 10 K (our guess, no source).

        >>> [MeltLink(184.0).share_open(celsius) for celsius in (174.0, 179.0, 184.0)]
        [0.0, 0.5, 1.0]
        """
        return min(max((celsius - self.opens_at + SPREAD_K) / SPREAD_K, 0.0), 1.0)

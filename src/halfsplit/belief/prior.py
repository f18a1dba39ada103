"""What is suspected before anything is seen: nothing wrong, every single fault, and pairs that are likely enough.

Each fault is there or not, independently, with odds in proportion to its rate; the odds of all faults of one machine
add up to `FAULTY`. So a pair's weight is the product of its odds, and pairs make up about half of `FAULTY` of all
calls (common practice, from memory: one call in twenty has two faults).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from halfsplit.trade import NOTHING_WRONG, Suspect

Real = NDArray[np.float64]
FAULTY = 0.1
NOTHING_WRONG_SHARE = 0.04
NOT_ON_SHEET_SHARE = 0.03
LEAST_PAIR_SHARE = 2e-5


@dataclass(frozen=True, slots=True)
class Prior:
    """Suspects in order (nothing wrong, singles, pairs) and their shares; the shares and `not_on_sheet` add up to one.

    `dropped` is the share of calls with a pair left out because it was below `LEAST_PAIR_SHARE`; it is handed to
    "not on this sheet", where a fault that is not in the list belongs.
    """

    suspects: tuple[Suspect, ...]
    shares: Real
    not_on_sheet: float
    dropped: float

    @property
    def singles(self) -> int:
        """How many suspects come before the first pair."""
        return sum(len(suspect.faults) <= 1 for suspect in self.suspects)


def make_prior(
    rates: Mapping[str, float], thing_of: Mapping[str, str], links: Mapping[tuple[str, str], float] | None = None
) -> Prior:
    """Prior over suspects.

    Args:
        rates: Fault to relative rate (> 0).
        thing_of: Fault to the part or wire it belongs to; two faults of one thing are not paired.
        links: (cause, effect) to the share of the cause's calls that have the effect too; where that makes a pair
            likelier than chance does, it has that weight instead.
    """
    total = sum(rates.values())
    odds = {fault: FAULTY * rate / total for fault, rate in rates.items()}
    pairs = {
        (first, second): odds[first] * odds[second]
        for first, second in combinations(rates, 2)
        if thing_of[first] != thing_of[second]
    }
    for (cause, effect), share in (links or {}).items():
        pair = (cause, effect) if (cause, effect) in pairs else (effect, cause)
        if pair in pairs:
            pairs[pair] = max(pairs[pair], share * odds[cause])
    sick = 1.0 - NOTHING_WRONG_SHARE - NOT_ON_SHEET_SHARE
    scale = sick / (sum(odds.values()) + sum(pairs.values()))
    kept = {pair: weight * scale for pair, weight in pairs.items() if weight * scale >= LEAST_PAIR_SHARE}
    dropped = scale * sum(pairs.values()) - sum(kept.values())
    suspects = (NOTHING_WRONG, *(Suspect((fault,)) for fault in rates), *(Suspect(pair) for pair in kept))
    shares = np.array([NOTHING_WRONG_SHARE, *(scale * weight for weight in odds.values()), *kept.values()])
    return Prior(suspects, shares, NOT_ON_SHEET_SHARE + dropped, dropped)

"""What a trial measured: shares, averages, calibration.

Brier score: mean squared distance of the stated share from what came of it. Log-loss: mean of −ln of the share given
to what came of it. (Definitions: scikit-learn user guide, "Brier score loss" and "Log loss"; from memory.)
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from halfsplit.trial.run import Outcome

_EDGES = (0.0, 0.5, 0.65, 0.75, 0.85, 0.95, 1.0)
_NEVER = 1e-6


@dataclass(frozen=True, slots=True)
class Bin:
    """Calls whose stated share was from `least` to `most`: how many, the mean stated, and the share that were right."""

    least: float
    most: float
    calls: int
    stated: float
    right: float


@dataclass(frozen=True, slots=True)
class Scores:
    """One strategy over all calls. Shares are of calls; minutes and money are means, money in the sheet's currency."""

    strategy: str
    calls: int
    first_right: float
    wrong_part: float
    wrong_parts: float
    cured: float
    checks: float
    live: float
    minutes: float
    money: float
    brier: float
    log_loss: float
    reliability: tuple[Bin, ...]


def score(outcomes: Sequence[Outcome]) -> Scores:
    """Scores of one strategy's outcomes."""
    stated = np.array([outcome.share for outcome in outcomes])
    right = np.array([outcome.first_right for outcome in outcomes], dtype=float)
    return Scores(
        strategy=outcomes[0].strategy,
        calls=len(outcomes),
        first_right=float(right.mean()),
        wrong_part=float(np.mean([outcome.wrong_parts > 0 for outcome in outcomes])),
        wrong_parts=float(np.mean([outcome.wrong_parts for outcome in outcomes])),
        cured=float(np.mean([outcome.cured for outcome in outcomes])),
        checks=float(np.mean([outcome.checks for outcome in outcomes])),
        live=float(np.mean([outcome.live for outcome in outcomes])),
        minutes=float(np.mean([outcome.minutes for outcome in outcomes])),
        money=float(np.mean([outcome.money for outcome in outcomes])),
        brier=brier(right, stated),
        log_loss=log_loss(right, stated),
        reliability=_reliability(right, stated),
    )


def brier(came: NDArray[np.float64], stated: NDArray[np.float64]) -> float:
    """Brier score of stated shares against what came (0 or 1)."""
    return float(((stated - came) ** 2).mean())


def log_loss(came: NDArray[np.float64], stated: NDArray[np.float64]) -> float:
    """Log-loss of stated shares against what came (0 or 1)."""
    safe = np.clip(stated, _NEVER, 1.0 - _NEVER)
    return float(-(came * np.log(safe) + (1.0 - came) * np.log(1.0 - safe)).mean())


def _reliability(right: NDArray[np.float64], stated: NDArray[np.float64]) -> tuple[Bin, ...]:
    bins = []
    for least, most in pairwise(_EDGES):
        inside = (stated >= least) & ((stated < most) | (most == _EDGES[-1]))
        if inside.any():
            bins.append(Bin(least, most, int(inside.sum()), float(stated[inside].mean()), float(right[inside].mean())))
    return tuple(bins)

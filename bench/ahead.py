"""Two plies on a large made-up repair: 8,000 suspects, 300 checks, the best 20 priced with the best further check.

Shares are as uneven as on a real call (Pareto); tables, covers and prices are drawn by a seed and invented.
Time is also given as the processor's, which a busy machine does not stretch as much.
"""

from __future__ import annotations

import time

import numpy as np

from halfsplit.nextcheck import Remedies
from halfsplit.nextcheck.plies import MOST_SUSPECTS, Table, two_plies

SUSPECTS, CHECKS, FEW, REMEDIES, COVERS = 8_000, 300, 20, 1_500, 5


def measure() -> dict[str, float]:
    """Milliseconds, the best of five, and what was cut."""
    rng = np.random.default_rng(1)
    shares = rng.pareto(1.0, SUSPECTS)
    shares /= shares.sum()
    cured_by = np.append(rng.integers(0, REMEDIES, SUSPECTS - 1), -1)
    ways = [_way(rng, cured_by, looking=looking) for looking in (False, True)]
    checks = [_check(rng, place) for place in range(CHECKS)]
    times, worked = [], []
    for _ in range(5):
        started, began = time.perf_counter(), time.process_time()
        ahead = two_plies(shares, checks[:FEW], checks, ways)
        times.append(1e3 * (time.perf_counter() - started))
        worked.append(1e3 * (time.process_time() - began))
    return {
        "two plies, suspects": SUSPECTS,
        "two plies, first checks": FEW,
        "two plies, further checks": CHECKS,
        "two plies, suspects kept": MOST_SUSPECTS,
        "two plies, share dropped": ahead.dropped,
        "two plies, ms": min(times),
        "two plies, ms of processor": min(worked),
    }


def _way(rng: np.random.Generator, cured_by: np.ndarray, *, looking: bool) -> Remedies:
    return Remedies(
        names=tuple(map(str, range(REMEDIES))),
        cured_by=cured_by,
        looking=rng.uniform(3.0, 12.0, REMEDIES) if looking else np.full(REMEDIES, np.inf),
        costs=rng.uniform(15.0, 200.0, REMEDIES),
        failing=np.full(REMEDIES, 15.0),
        behind=rng.random((COVERS, REMEDIES)) < 0.3,
        opening=rng.uniform(5.0, 25.0, COVERS),
        refer=300.0,
    )


def _check(rng: np.random.Generator, place: int) -> Table:
    outcomes = int(rng.integers(2, 5))
    likely = rng.integers(0, outcomes, SUSPECTS)
    chances = np.where(np.arange(outcomes)[:, None] == likely, 0.97, 0.03 / (outcomes - 1))
    return Table(float(rng.uniform(1.5, 8.0)), chances, rng.random(COVERS) < 0.3, place)

"""Expected cost of a whole repair: what it costs to go on from a belief.

What may live here: costs and shares as arrays. It never sees a circuit.

Remedies are tried in turn until one cures; each costs its price and time whether it cures or not. In the order
r1, r2, … the expected cost is Σ_i (1 − Σ_{j<i} p_j) c_i, least in descending p/c (Kadane & Simon 1977; Heckerman,
Breese & Rommelse, CACM 38(3), 1995). With looking before repairing, cost is (1 − Σ_{j<i} p_j) observe_i + p_i repair_i.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import permutations

import numpy as np
from numpy.typing import NDArray

Real = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Step:
    """One thing that may be at fault: its share, cost to look, cost to repair, and the cover it is behind."""

    share: float
    observe: float
    repair: float = 0.0
    cover: str = ""


def sequence_cost(steps: Sequence[Step], opening: dict[str, float] | None = None) -> float:
    """Expected cost of looking at (and, if found, repairing) things in this order.

    Args:
        steps: In order.
        opening: Cost of opening each cover, paid when first needed.
    """
    left, total, opened = 1.0, 0.0, {""}
    for step in steps:
        cost = step.observe
        if step.cover not in opened:
            cost += (opening or {}).get(step.cover, 0.0)
            opened.add(step.cover)
        total += left * cost + step.share * step.repair
        left -= step.share
    return total


def best_sequence(steps: Sequence[Step], opening: dict[str, float] | None = None) -> tuple[float, tuple[int, ...]]:
    """Least expected cost over all orders, and that order; for up to eight steps."""
    orders = permutations(range(len(steps)))
    return min((sequence_cost([steps[index] for index in order], opening), order) for order in orders)


@dataclass(frozen=True, slots=True)
class Remedies:
    """What can be done at the end.

    Attributes:
        names: One per remedy.
        cures: Which suspects each remedy cures, shape (R, S) of 0 and 1.
        costs: Cost of each remedy, price and time, shape (R,), above zero.
        failing: What it costs on top when a remedy did not cure (a part changed in vain, the test run), shape (R,).
    """

    names: tuple[str, ...]
    cures: Real
    costs: Real
    failing: Real


def cost_to_go(weights: Real, remedies: Remedies) -> Real:
    """Expected cost of trying remedies in descending p/c, from each of several beliefs.

    Args:
        weights: Shares (not necessarily adding up to one), shape (beliefs, S).
        remedies: R remedies.

    Returns:
        Cost times the weight of each belief, shape (beliefs,).
    """
    cured = weights @ remedies.cures.T
    tried = remedies.costs + remedies.failing
    order = np.argsort(-cured / tried, axis=1, kind="stable")
    sorted_cured = np.take_along_axis(cured, order, axis=1)
    left = weights.sum(axis=1, keepdims=True) - np.cumsum(sorted_cured, axis=1)
    before = np.maximum(left + sorted_cured, 0.0)
    spent = before * remedies.costs[order] + np.maximum(left, 0.0) * remedies.failing[order]
    return np.asarray(spent.sum(axis=1))


def cost_after(weights: Real, outcomes: Real, leaf: Callable[[Real], Real]) -> float:
    """Expected cost after a check whose outcome is known before going on.

    Args:
        weights: Shares, shape (S,).
        outcomes: Probability of each outcome under each suspect, shape (outcomes, S).
        leaf: Weighted cost to go of beliefs, shape (outcomes, S) to (outcomes,).
    """
    return float(leaf(outcomes * weights).sum())

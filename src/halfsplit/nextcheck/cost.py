"""Expected cost of a whole repair: what it costs to go on from a belief.

What may live here: costs and shares as arrays. It never sees a circuit or a sheet.

Things are taken in turn until one cures. Looking at a thing costs observe_i and, if it is found at fault, repair_i;
the expected cost of an order is Σ_i (1 − Σ_{j<i} p_j) observe_i + p_i repair_i, least in descending p/observe. A thing
that nothing shows must be changed to find out, which is the same with observe_i its whole price (Kadane & Simon 1977;
Heckerman, Breese & Rommelse, CACM 38(3), 1995). Covers cost something the first time only (the idea of Ottosen &
Jensen, arXiv 1203.3502). At any place the rest may be handed on at a fixed cost, their "service call".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from halfsplit.trade import Action

Real = NDArray[np.float64]
Float = NDArray[np.floating[Any]]
Mask = NDArray[np.bool_]
UNCURED = -1
_Sort = Literal["stable", "quicksort"]
_NOTHING = 1e-30


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
    """What can be done, thing by thing. R remedies, S suspects, Z covers.

    Attributes:
        names: One per remedy.
        cured_by: The remedy that cures each suspect, shape (S,); -1 for one that none cures.
        looking: Cost of looking whether it is this one, shape (R,); infinity where only trying shows it.
        costs: Cost of each remedy, price and time and test run, covers apart, shape (R,), above zero.
        failing: What it costs on top when a remedy did not cure (a part changed in vain, a callback), shape (R,).
        behind: Which covers must be off for it, shape (Z, R).
        opening: Cost of opening and closing each cover, nothing where it is open already, shape (Z,).
        refer: Cost of handing the case on, which ends it whatever it is.
        looks: What to look at for each remedy; nothing where only trying shows it.
    """

    names: tuple[str, ...]
    cured_by: NDArray[np.intp]
    looking: Real
    costs: Real
    failing: Real
    behind: Mask
    opening: Real
    refer: float
    looks: tuple[tuple[Action, ...], ...] = ()

    def only(self, kept: Mask) -> Remedies:
        """The remedies marked in `kept`, shape (R,); what the others cure is cured by none."""
        renumbered = np.append(np.where(kept, np.cumsum(kept) - 1, UNCURED), UNCURED)
        return Remedies(
            tuple(name for name, keep in zip(self.names, kept, strict=True) if keep),
            renumbered[self.cured_by],
            self.looking[kept],
            self.costs[kept],
            self.failing[kept],
            self.behind[:, kept],
            self.opening,
            self.refer,
            self.looks and tuple(look for look, keep in zip(self.looks, kept, strict=True) if keep),
        )


def cured_shares(weights: Real, remedies: Remedies) -> Real:
    """How much each remedy cures of each of several beliefs, shape (beliefs, S) to (beliefs, R)."""
    order = np.argsort(remedies.cured_by, kind="stable")
    starts = np.searchsorted(remedies.cured_by[order], np.arange(len(remedies.names)))
    # Sums over neighbours, not a matrix product: that would start threads, which cost more than they bring here.
    return np.asarray(np.add.reduceat(weights[:, order], starts, axis=1))


def cost_to_go(weights: Real, remedies: Remedies) -> Real:
    """Expected cost of going through the remedies in descending p/c, handing on where that is cheapest.

    Each remedy is looked at first or tried at once, whichever is cheaper where it stands. The cost is that of a plan
    one can carry out, so the best plan costs no more. It is the best plan itself where there is nothing to look at,
    covers cost nothing, and failing costs the same for all; then a free check can never make it dearer.

    Args:
        weights: Shares (not necessarily adding up to one), shape (beliefs, S).
        remedies: R remedies.

    Returns:
        Cost times the weight of each belief, shape (beliefs,).
    """
    walk = _walk(weights, remedies)
    return np.asarray(walk.ends.min(axis=1))


def course(weights: Real, remedies: Remedies) -> tuple[tuple[int, bool], ...]:
    """The plan that `cost_to_go` prices, for one belief of shape (S,): remedies in order, and whether looked at first.

    It stops where handing the case on is cheaper.
    """
    walk = _walk(weights[None, :], remedies)
    taken = int(walk.ends[0].argmin())
    return tuple((int(place), bool(looked)) for place, looked in zip(walk.order[0], walk.looked[0], strict=True))[
        :taken
    ]


@dataclass(frozen=True, slots=True)
class _Walk:
    """Going through the remedies, for each belief.

    Attributes:
        order: Remedies in order, shape (beliefs, R).
        looked: Whether each is looked at first, shape (beliefs, R).
        ends: Cost of handing the case on after 0, 1, … R of them, shape (beliefs, R + 1).
    """

    order: NDArray[np.intp]
    looked: Mask
    ends: Float


def costs_of_cured(cured: Float, whole: Float, remedies: Remedies, opening: Float) -> Float:
    """The same as `cost_to_go`, for beliefs of which only what each remedy cures is known, each with its own covers.

    Args:
        cured: What each remedy cures, shape (beliefs, R).
        whole: Weight of each belief, cured or not, shape (beliefs,).
        remedies: R remedies.
        opening: Cost of opening each cover in each belief, shape (beliefs, Z).

    Returns:
        Cost times the weight of each belief, shape (beliefs,).
    """
    return np.asarray(_turns(cured, whole[:, None], remedies, opening, "quicksort").ends.min(axis=1))


def _walk(weights: Real, remedies: Remedies) -> _Walk:
    opening = np.broadcast_to(remedies.opening, (len(weights), len(remedies.opening)))
    return _turns(cured_shares(weights, remedies), weights.sum(axis=1, keepdims=True), remedies, opening)


def _turns(cured: Float, whole: Float, remedies: Remedies, opening: Float, kind: _Sort = "stable") -> _Walk:
    order = np.argsort(-cured / _cost_of_turn(cured, remedies, opening), axis=1, kind=kind)
    cured = np.take_along_axis(cured, order, axis=1)
    left = np.maximum(whole - np.cumsum(cured, axis=1), 0.0)
    before = left + cured
    trying = (remedies.costs + remedies.failing)[order]
    looking = np.minimum(remedies.looking, 1.0 / _NOTHING)[order]  # infinity times no share is nothing, not a puzzle
    tried = before * trying - cured * remedies.failing[order]
    seen = before * looking + cured * remedies.costs[order]
    spent = np.minimum(seen, tried)
    _pay_for_covers(spent, before, order, remedies, opening)
    ends = np.concatenate([whole, left], axis=1) * remedies.refer
    ends[:, 1:] += np.cumsum(spent, axis=1)
    return _Walk(order, seen < tried, ends)


def _cost_of_turn(cured: Float, remedies: Remedies, opening: Float) -> Float:
    """What a remedy's turn costs whoever is left, its part in the covers by its part in what is behind them, (B, R)."""
    turn = np.tile(np.minimum(remedies.looking, remedies.costs + remedies.failing), (len(cured), 1))
    for behind, cost in zip(remedies.behind, opening.T, strict=True):
        if cost.any() and behind.any():
            mass = cured[:, behind]
            turn[:, behind] += cost[:, None] * mass / np.maximum(mass.sum(axis=1, keepdims=True), _NOTHING)
    return turn


def _pay_for_covers(spent: Float, before: Float, order: NDArray[np.intp], remedies: Remedies, opening: Float) -> None:
    """Add each cover's cost to the first remedy behind it, in every belief."""
    rows = np.arange(len(order))
    for behind, cost in zip(remedies.behind, opening.T, strict=True):
        if cost.any() and behind.any():
            first = behind[order].argmax(axis=1)
            spent[rows, first] += before[rows, first] * cost

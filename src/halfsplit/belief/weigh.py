"""Bayes over any table of likelihoods, with honest room for mistakes.

What may live here: tables in, shares out. It never sees a circuit, a sheet or a unit, so a published example tests it.

An item of evidence is explained by a suspect in one of three ways: as stated; in a setup one step short of the one
stated; or not at all, because it was mistaken. Items that share a key share their mistakes: ten readings on one wrong
pin are one mistake. For a group g of items with the same key, and suspect s,

    P(g | s) = (1 - m - w) ∏ fits_i(s) + w ∏ forgotten_i(s) + m ∏ broad_i .

"Not on this sheet" explains everything only as broadly as a mistake does: P(g | not on sheet) = ∏ broad_i.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfsplit.errors import InputError

Real = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Item:
    """One item of evidence under S suspects; likelihoods may be densities, all in the same measure.

    Attributes:
        fits: Likelihood as stated, shape (S,).
        forgotten: Likelihood when one step of the setup was left out, shape (S,).
        broad: Likelihood when the item is mistaken.
        mistaken: Share of such items that are mistaken (m).
        wrong_setup: Share of such items seen in another setup (w).
        key: Items with the same key share their mistakes.
    """

    fits: Real
    forgotten: Real
    broad: float
    mistaken: float
    wrong_setup: float
    key: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Belief:
    """Shares of every suspect, shape (S,), and of "not on this sheet"; together they add up to one."""

    shares: Real
    not_on_sheet: float


def weigh(prior: Real, not_on_sheet: float, items: Sequence[Item]) -> Belief:
    """Posterior shares after all items.

    Args:
        prior: Share of each suspect, shape (S,).
        not_on_sheet: Prior share of "not on this sheet".
        items: The evidence, in any order.

    Raises:
        InputError: Nothing at all is left: the evidence is impossible under everything.
    """
    groups: dict[tuple[str, ...], list[Item]] = defaultdict(list)
    for item in items:
        groups[item.key].append(item)
    with np.errstate(divide="ignore"):
        logs = np.log(np.append(prior, not_on_sheet))
        for group in groups.values():
            logs += np.log(np.append(group_likelihood(group), np.prod([item.broad for item in group])))
    if not np.isfinite(logs).any():
        raise InputError("This evidence is impossible under everything that is known.", "Take back the item in doubt.")
    weights = np.exp(logs - logs.max())
    weights /= weights.sum()
    return Belief(weights[:-1], float(weights[-1]))


def group_likelihood(group: Sequence[Item]) -> Real:
    """Likelihood of items that share their mistakes, under each suspect, shape (S,)."""
    first = group[0]
    fits = np.prod([item.fits for item in group], axis=0)
    forgotten = np.prod([item.forgotten for item in group], axis=0)
    broad = float(np.prod([item.broad for item in group]))
    honest = 1.0 - first.mistaken - first.wrong_setup
    return np.asarray(honest * fits + first.wrong_setup * forgotten + first.mistaken * broad)


def entropy(shares: Real) -> float:
    """Entropy of shares that add up to one, in bits."""
    some = shares[shares > 0]
    return float(-(some * np.log2(some)).sum())


def expected_entropy(shares: Real, outcomes: Real) -> float:
    """Expected entropy after a check, in bits.

    Args:
        shares: Shape (S,), adding up to one.
        outcomes: Probability of each outcome under each suspect, shape (outcomes, S); columns add up to one.
    """
    joint = outcomes * shares
    chance = joint.sum(axis=1)
    return float(sum(p * entropy(row / p) for p, row in zip(chance, joint, strict=True) if p > 0))

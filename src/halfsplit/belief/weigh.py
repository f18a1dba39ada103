"""Bayes over any table of likelihoods, with honest room for mistakes.

What may live here: tables in, shares out. It never sees a circuit, a sheet or a unit, so a published example tests it.

An item of evidence is explained by a suspect in one of three ways: as stated; in a setup one step short of the one
stated; or not at all, because it was mistaken:

    P(i | s) = (1 - m - w) fits_i(s) + w forgotten_i(s) + m broad_i .

Items that share a key share their mistakes: ten readings on one wrong pin are one mistake, and a customer who says it
three times has seen it once. So the n items of a group g weigh together as much as one, their geometric mean,

    P(g | s) = ∏ P(i | s)^(1/n) ,

which is never below m broad, however often the same is read again. Groups are independent given the suspect.

"Not on this sheet" may show itself as some listed suspect would: with weights q over the suspects, and the likelihood
of each item where the truth is not listed but looks like s,

    P(all | not on the sheet) = ∑ q(s) ∏ off_sheet_i(s)^(1/n) .

Left out, it explains an item only as broadly as a mistake does.
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
        off_sheet: Likelihood when the truth is not on the sheet but looks like each suspect, shape (S,); None: `broad`.
    """

    fits: Real
    forgotten: Real
    broad: float
    mistaken: float
    wrong_setup: float
    key: tuple[str, ...]
    off_sheet: Real | None = None


@dataclass(frozen=True, slots=True)
class Belief:
    """What is believed.

    Attributes:
        shares: Of every suspect, shape (S,).
        not_on_sheet: Share of "not on this sheet"; with the others it adds up to one.
        looks_like: If it is not on the sheet, how likely it looks like each suspect, shape (S,), adding up to one.
    """

    shares: Real
    not_on_sheet: float
    looks_like: Real


def weigh(prior: Real, not_on_sheet: float, items: Sequence[Item], looks_like: Real | None = None) -> Belief:
    """Posterior shares after all items.

    Args:
        prior: Share of each suspect, shape (S,).
        not_on_sheet: Prior share of "not on this sheet".
        items: The evidence, in any order.
        looks_like: Weights q over the suspects, adding up to one, shape (S,); even if left out.

    Raises:
        InputError: Nothing at all is left: the evidence is impossible under everything.
    """
    groups: dict[tuple[str, ...], list[Item]] = defaultdict(list)
    for item in items:
        groups[item.key].append(item)
    alike = np.full(len(prior), 1.0 / len(prior)) if looks_like is None else looks_like
    with np.errstate(divide="ignore"):
        listed, unlisted = np.log(prior), np.log(alike)
        for group in groups.values():
            listed += np.log([item_likelihood(item) for item in group]).mean(axis=0)
            unlisted += np.log([_off_sheet(item) for item in group]).mean(axis=0)
        logs = np.append(listed, np.log(not_on_sheet) + np.logaddexp.reduce(unlisted))
    if not np.isfinite(logs).any():
        raise InputError("This evidence is impossible under everything that is known.", "Take back the item in doubt.")
    weights = _normal(logs)
    return Belief(weights[:-1], float(weights[-1]), _normal(unlisted) if np.isfinite(unlisted).any() else alike)


def _normal(logs: Real) -> Real:
    """Shares adding up to one from their logarithms."""
    weights = np.exp(logs - logs.max())
    return np.asarray(weights / weights.sum())


def item_likelihood(item: Item) -> Real:
    """Likelihood of one item under each suspect, shape (S,)."""
    honest = 1.0 - item.mistaken - item.wrong_setup
    return np.asarray(honest * item.fits + item.wrong_setup * item.forgotten + item.mistaken * item.broad)


def _off_sheet(item: Item) -> Real:
    return np.full(len(item.fits), item.broad) if item.off_sheet is None else item.off_sheet


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

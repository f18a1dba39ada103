"""Two plies: what the whole repair costs when a check is followed by the best further check, for the best few checks.

What may live here: tables of chances and costs. With w the shares after an outcome, not scaled back to one,

    V2(check) = cost + Σ_o min( V0(w_o),  min_c |w_o| cost_c + Σ_p V0(chance_cp w_o) )

where V0 is the cost to go with no further check (`cost.py`). Every first check meets every further one. Speed comes
from what a leaf can see: it knows a belief only by what each remedy cures, so the suspects of one remedy are summed
first. Suspects and remedies are cut by count, and the share so left out is told; what the further check saves is
therefore told too, for it can be taken off a price that leaves nothing out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from halfsplit.nextcheck.cost import UNCURED, Float, Mask, Real, Remedies, costs_of_cured

MOST_SUSPECTS, MOST_REMEDIES = 256, 16
"""Suspects and remedies that take part in looking ahead, the likeliest."""
_NEVER = 1e-6
"""An outcome less likely than this is left out."""


@dataclass(frozen=True, slots=True)
class Table:
    """A check as a table.

    Attributes:
        cost: What making it costs with everything open.
        chances: Probability of each outcome under each suspect, shape (outcomes, S).
        opens: Covers that come off for it, shape (Z,).
        place: Where it is made: the same place twice tells nothing new.
    """

    cost: float
    chances: Real
    opens: Mask
    place: object


@dataclass(frozen=True, slots=True)
class Ahead:
    """What looking ahead found.

    Attributes:
        costs: Expected cost of the whole repair for each first check, shape (firsts,), covers and itself included;
            what was left out costs nothing here, and what is cured by a remedy left out is handed on.
        saves: How much of what it would cost without them the further checks save, shape (firsts,).
        dropped: Share of the suspects that were left out, or whose remedy was.
    """

    costs: Real
    saves: Real
    dropped: float


def two_plies(
    shares: Real, firsts: Sequence[Table], seconds: Sequence[Table], ways: Sequence[Remedies], most: int = MOST_SUSPECTS
) -> Ahead:
    """Expected cost of beginning with each of `firsts` and going on with the best of `seconds`, or with none.

    Args:
        shares: Of every suspect, shape (S,).
        firsts: The checks to weigh.
        seconds: What may follow each.
        ways: Remedies over the suspects; the cheapest of these courses counts.
        most: How many suspects take part.
    """
    kept = np.sort(np.argsort(-shares, kind="stable")[:most])
    further = _Further.of(seconds, kept)
    shorter = [_Leaf.of(shares[kept], way, kept, further) for way in ways]
    found = [_first(shares[kept], first, kept, further, shorter) for first in firsts]
    costs, saves = np.array(found, dtype=np.float64).reshape(-1, 2).T
    return Ahead(costs, saves, float(shares.sum()) - min(leaf.held for leaf in shorter))


@dataclass(frozen=True, slots=True)
class _Further:
    """All further checks as one table: M outcomes of n checks, shape (M, K), and where each begins; the last: none."""

    chances: Float
    starts: NDArray[np.intp]
    owner: NDArray[np.intp]
    costs: Float
    opens: Mask
    places: tuple[object, ...]

    @classmethod
    def of(cls, checks: Sequence[Table], kept: NDArray[np.intp]) -> _Further:
        counts = [len(check.chances) for check in checks]
        nothing = np.ones((1, len(kept)))
        opens = [check.opens for check in checks]
        return cls(
            np.concatenate([*(check.chances[:, kept] for check in checks), nothing], dtype=np.float32),
            np.cumsum([0, *counts]),
            np.repeat(np.arange(len(checks) + 1), [*counts, 1]),
            np.array([*(check.cost for check in checks), 0.0], dtype=np.float32),
            np.array([*opens, np.zeros_like(opens[0])], dtype=bool),
            (*(check.place for check in checks), None),
        )


@dataclass(frozen=True, slots=True)
class _Leaf:
    """A course cut to the remedies that matter, with the kept suspects of each, and the further checks for just these.

    What no remedy here cures is the last of the members; `held` is the share of all that one cures or none ever did.
    """

    remedies: Remedies
    members: tuple[NDArray[np.intp], ...]
    tables: tuple[Float, ...]
    held: float

    @classmethod
    def of(cls, shares: Real, way: Remedies, kept: NDArray[np.intp], further: _Further) -> _Leaf:
        """What the likeliest remedies leave is handed on."""
        count = len(way.names)
        cured_by = way.cured_by[kept]
        cured = np.bincount(np.where(cured_by == UNCURED, count, cured_by), shares, count + 1)[:count]
        best = np.zeros(count, dtype=bool)
        best[np.argsort(-cured, kind="stable")[:MOST_REMEDIES]] = True
        few = _light(way.only(best & (cured > 0.0)))
        numbers = (*range(len(few.names)), UNCURED)
        members = tuple(np.flatnonzero(few.cured_by[kept] == number) for number in numbers)
        held = cured[best].sum() + shares[cured_by == UNCURED].sum()
        tables = tuple(np.ascontiguousarray(further.chances[:, them]) for them in members)
        return cls(few, members, tables, float(held))

    def costs(self, weights: Float, opening: Float) -> Float:
        """Cost to go after every outcome of every further check, shape (M,)."""
        sums = np.empty((len(opening), len(self.members)), dtype=np.float32)
        for number, (them, table) in enumerate(zip(self.members, self.tables, strict=True)):
            # Not a matrix product: on a busy machine the threads it starts cost more than they bring.
            np.einsum("ms,s->m", table, weights[them], out=sums[:, number])
        return costs_of_cured(sums[:, :-1], sums.sum(axis=1), self.remedies, opening)


def _light(way: Remedies) -> Remedies:
    """The same in single precision: seven digits of a price are plenty, and it takes half the time."""
    numbers = ("looking", "costs", "failing", "opening")
    return replace(way, **{name: getattr(way, name).astype(np.float32) for name in numbers})


def _first(
    shares: Real, first: Table, kept: NDArray[np.intp], further: _Further, leaves: Sequence[_Leaf]
) -> tuple[float, float]:
    """Cost with the best further check after each outcome, and what these save."""
    opening = leaves[0].remedies.opening
    still = opening * ~first.opens
    extra = further.costs + (further.opens * still).sum(axis=1)
    extra[[place is not None and place == first.place for place in further.places]] = np.inf
    rows = (still * ~further.opens)[further.owner]
    total, saves = first.cost + float(opening @ first.opens), 0.0
    for weights in (first.chances[:, kept] * shares).astype(np.float32):
        whole = float(weights.sum())
        if whole > _NEVER:
            later = np.minimum.reduce([leaf.costs(weights, rows) for leaf in leaves])
            best = float((whole * extra + np.add.reduceat(later, further.starts)).min())
            total, saves = total + best, saves + float(later[-1]) - best
    return total, saves

"""The least expected cost of a repair, exactly, for small problems: the yardstick of the planner.

What may live here: tables of costs and chances. It never sees a circuit or a sheet.

Dynamic programming over every belief that can be reached. A belief follows from which outcome each check had and which
remedies are ruled out (their suspects then hold nothing); what it costs to go on depends besides on the covers that are
off. With weights w that are not scaled back to one (their sum is the chance of having come here), the least cost V is

    V(w) = min( min_e Σ_s e_s w_s ,                                     an act that ends it
                min_r |w| (open_r + cost_r) + (|w| − w_r) failing_r + V(w without r) ,      trying a remedy
                min_r |w| (open_r + look_r) + min(w_r cost_r, end it) + V(w without r) ,    looking at it first
                min_c |w| (open_c + cost_c) + Σ_o V(chance_co w) )                          making a check

(the finite-horizon case of a partially observed decision process: Smallwood & Sondik, Operations Research 21(5), 1973;
from memory). A look tells for certain; a check may be made once, since the same again repeats its mistakes. The number
of beliefs grows as Π (outcomes + 1) · 2^remedies · 2^covers, so what is larger than `MOST_BELIEFS` is refused.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from math import inf, prod

import numpy as np

from halfsplit.errors import InputError
from halfsplit.nextcheck.cost import UNCURED, Mask, Real, Remedies

MOST_BELIEFS = 400_000
"""Beliefs at most: a minute or so of work."""
_NOTHING = 1e-12
"""Weight of a belief that cannot come about."""


@dataclass(frozen=True, slots=True)
class Check:
    """A check as a table.

    Attributes:
        cost: What making it costs, covers apart.
        chances: Probability of each outcome under each suspect, shape (outcomes, S), columns adding up to one.
        behind: Which covers must be off for it, shape (Z,); none if left out.
    """

    cost: float
    chances: Real
    behind: Mask | None = None


@dataclass(frozen=True, slots=True)
class Problem:
    """A small repair as tables.

    Attributes:
        shares: Of each suspect, shape (S,), adding up to one.
        remedies: What cures what; `refer` is one of the acts that end it.
        checks: What can be found out.
        ends: Further acts that end it, cost of each under each suspect, shape (E, S); gains are negative.
    """

    shares: Real
    remedies: Remedies
    checks: tuple[Check, ...] = ()
    ends: Real | None = None


@dataclass(frozen=True, slots=True)
class Deed:
    """One thing to do: `end` (number -1 is handing on), `try` a remedy, `look` at it first, or make a `check`."""

    verb: str
    number: int


@dataclass(frozen=True, slots=True)
class Here:
    """Where one stands: outcome of each check (-1: not made), remedies ruled out, covers off; and the weights there."""

    outcomes: tuple[int, ...]
    ruled_out: frozenset[int]
    opened: frozenset[int]
    weights: Real

    @property
    def key(self) -> tuple[tuple[int, ...], frozenset[int], frozenset[int]]:
        """What tells one place from another."""
        return self.outcomes, self.ruled_out, self.opened


def start(problem: Problem) -> Here:
    """Before anything is done: what costs nothing to open is open."""
    free = frozenset(int(cover) for cover in np.flatnonzero(problem.remedies.opening <= 0.0))
    return Here((-1,) * len(problem.checks), frozenset(), free, problem.shares)


def exact_cost(problem: Problem) -> float:
    """Least expected cost over every way of going about it.

    Raises:
        InputError: The problem has more than `MOST_BELIEFS` beliefs.
    """
    refuse_large(problem)
    return _Exact(problem).least(start(problem))


def refuse_large(problem: Problem) -> None:
    """See that a problem is small enough to be solved.

    Raises:
        InputError: It has more than `MOST_BELIEFS` beliefs.
    """
    remedies, covers = len(problem.remedies.names), int((problem.remedies.opening > 0.0).sum())
    beliefs = prod(len(check.chances) + 1 for check in problem.checks) * 2 ** (remedies + covers)
    if beliefs > MOST_BELIEFS:
        what = f"This problem has up to {beliefs} beliefs, too many to solve exactly."
        raise InputError(what, f"Take fewer checks, remedies or covers: {MOST_BELIEFS} beliefs at most.")


def deeds(problem: Problem, here: Here) -> Iterator[Deed]:
    """Everything that can be done here."""
    yield Deed("end", -1)
    for number in range(0 if problem.ends is None else len(problem.ends)):
        yield Deed("end", number)
    remedies = problem.remedies
    for number in set(remedies.cured_by[here.weights > 0.0].tolist()) - {UNCURED}:
        yield Deed("try", number)
        if remedies.looking[number] < inf:
            yield Deed("look", number)
    for number, outcome in enumerate(here.outcomes):
        if outcome < 0:
            yield Deed("check", number)


def take(problem: Problem, here: Here, deed: Deed) -> tuple[float, tuple[Here, ...]]:
    """What a deed costs here, times the weight of being here, and where one may stand after it."""
    if deed.verb == "end":
        return _end(problem, here.weights, deed.number), ()
    return _check(problem, here, deed.number) if deed.verb == "check" else _remedy(problem, here, deed)


def _end(problem: Problem, weights: Real, number: int) -> float:
    row = problem.remedies.refer if number < 0 or problem.ends is None else problem.ends[number]
    return float((weights * row).sum())


def _check(problem: Problem, here: Here, number: int) -> tuple[float, tuple[Here, ...]]:
    check = problem.checks[number]
    opening, opened = _open(problem, here, check.behind)
    after = []
    for outcome, weights in enumerate(check.chances * here.weights):
        if weights.sum() > _NOTHING:
            outcomes = (*here.outcomes[:number], outcome, *here.outcomes[number + 1 :])
            after.append(Here(outcomes, here.ruled_out, opened, weights))
    return float(here.weights.sum()) * (check.cost + opening), tuple(after)


def _remedy(problem: Problem, here: Here, deed: Deed) -> tuple[float, tuple[Here, ...]]:
    remedies, number = problem.remedies, deed.number
    opening, opened = _open(problem, here, remedies.behind[:, number])
    cured = remedies.cured_by == number
    left = np.where(cured, 0.0, here.weights)
    whole, still = float(here.weights.sum()), float(left.sum())
    without = Here(here.outcomes, here.ruled_out | {number}, opened, left)
    after = (without,) if still > _NOTHING else ()
    if deed.verb == "try":
        return whole * (opening + remedies.costs[number]) + still * remedies.failing[number], after
    # Found at fault it is mended, with nothing more to open, or the case is ended otherwise where that is cheaper.
    ends = range(-1, 0 if problem.ends is None else len(problem.ends))
    otherwise = min(_end(problem, here.weights - left, end) for end in ends)
    found = min((whole - still) * float(remedies.costs[number]), otherwise)
    return whole * (opening + remedies.looking[number]) + found, after


def _open(problem: Problem, here: Here, behind: Mask | None) -> tuple[float, frozenset[int]]:
    if behind is None:
        return 0.0, here.opened
    needed = frozenset(int(cover) for cover in np.flatnonzero(behind))
    return float(problem.remedies.opening[list(needed - here.opened)].sum()), here.opened | needed


@dataclass
class _Exact:
    """Least cost from every place, each worked out once.

    What is sure to be paid whatever is known (the remedy that cures, or the cheapest end) bounds a deed from below, so
    that most deeds need not be followed to the end. What is left out so could not have been cheaper.
    """

    problem: Problem
    known: dict[tuple[tuple[int, ...], frozenset[int], frozenset[int]], float] = field(default_factory=dict)

    @cached_property
    def sure(self) -> Real:
        """What every suspect costs at least, were it known, shape (S,)."""
        remedies, ends = self.problem.remedies, self.problem.ends
        mending = np.append(remedies.costs, inf)[remedies.cured_by]
        ending = inf if ends is None else ends.min(axis=0)
        return np.asarray(np.minimum(np.minimum(mending, ending), remedies.refer))

    def least(self, here: Here) -> float:
        if here.key not in self.known:
            best = inf
            ways = [take(self.problem, here, deed) for deed in deeds(self.problem, here)]
            for bound, after in sorted(((self._bound(way), way[1]) for way in ways), key=lambda it: it[0]):
                best = min(best, self._cost(bound, after, best))
            self.known[here.key] = best
        return self.known[here.key]

    def _bound(self, way: tuple[float, tuple[Here, ...]]) -> float:
        cost, after = way
        return cost + sum(self._surely(place) for place in after)

    def _surely(self, place: Here) -> float:
        return float(self.sure @ place.weights)

    def _cost(self, bound: float, after: tuple[Here, ...], best: float) -> float:
        """What a deed costs, the bound made good place by place; left off where it cannot be the best any more."""
        for place in after:
            if bound >= best:
                break
            bound += self.least(place) - self._surely(place)
        return bound

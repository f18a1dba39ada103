"""Small random repairs for which the least cost is known exactly, and what following the planner in them costs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from types import SimpleNamespace
from typing import Any

import numpy as np

from halfsplit.nextcheck import Courses, Offer, Plan, Rates, Remedies, cost_to_go
from halfsplit.nextcheck.cost import course
from halfsplit.nextcheck.exact import Check, Deed, Here, Problem, exact_cost, start, take
from halfsplit.predict import Outcomes
from halfsplit.trade import Look

Planner = Callable[..., Plan]


@dataclass(frozen=True, slots=True)
class Yardstick:
    """What following the planner to the end costs, in times the least there is: over so many small repairs."""

    repairs: int
    mean: float
    ninety_five: float
    worst: float


def against_exact(repairs: int, planner: Planner) -> Yardstick:
    """A planner on the first so many small repairs; each is drawn by its own seed."""
    problems = [small_repair(seed) for seed in range(repairs)]
    times = np.array([Follower(problem, planner).cost() / exact_cost(problem) for problem in problems])
    return Yardstick(repairs, float(times.mean()), float(np.percentile(times, 95)), float(times.max()))


REFER = Deed("end", -1)


def small_repair(seed: int, most_suspects: int = 6, most_checks: int = 5) -> Problem:
    """A repair of 2 to 6 suspects and 1 to 5 checks at prices of the trade, drawn by a seed; invented."""
    rng = np.random.default_rng([2026, seed])
    suspects, checks, covers = rng.integers(2, most_suspects + 1), rng.integers(1, most_checks + 1), rng.integers(0, 3)
    shares = rng.dirichlet(np.full(suspects, 1.0))
    cured = np.arange(suspects)
    if rng.random() < 0.5:
        cured[-1] = -1  # something that nothing on hand cures
    count = int((cured >= 0).sum())
    shops = Remedies(
        names=tuple(str(number) for number in range(count)),
        cured_by=cured,
        looking=np.where(rng.random(count) < 0.3, rng.uniform(3.0, 12.0, count), np.inf),
        costs=rng.uniform(15.0, 200.0, count),
        failing=np.full(count, 15.0),
        behind=rng.random((covers, count)) < 0.4,
        opening=rng.uniform(5.0, 25.0, covers),
        refer=300.0,
    )
    return Problem(shares, shops, tuple(_check(rng, int(suspects), int(covers)) for _ in range(checks)))


def _check(rng: np.random.Generator, suspects: int, covers: int) -> Check:
    """Two or three outcomes; mostly one for each suspect, as with a meter, now and then vague, as with a look."""
    outcomes = int(rng.integers(2, 4))
    sure = rng.choice([0.97, 0.8])
    likely = rng.integers(0, outcomes, suspects)
    chances = np.where(np.arange(outcomes)[:, None] == likely, sure, (1.0 - sure) / (outcomes - 1))
    return Check(float(rng.uniform(1.5, 8.0)), chances, rng.random(covers) < 0.3)


@dataclass
class Follower:
    """Follows a planner from place to place until the end, and adds up what that costs."""

    problem: Problem
    planner: Planner
    known: dict[Any, float] = field(default_factory=dict)

    def cost(self, here: Here | None = None) -> float:
        """Expected cost from here, times the weight of being here."""
        place = start(self.problem) if here is None else here
        if place.key not in self.known:
            spent, after = take(self.problem, place, self.choose(place))
            self.known[place.key] = spent + sum(self.cost(later) for later in after)
        return self.known[place.key]

    def choose(self, here: Here) -> Deed:
        """What the planner would do: its check, or else the first step of the course that it prices."""
        shares = here.weights / here.weights.sum()
        courses, opened = self._courses(here), frozenset(str(cover) for cover in here.opened)
        made = self.planner(_machine(self.problem), shares, self._offers(here), courses, opened, Rates(minute=1.0))
        if made.best is not None:
            return Deed("check", int(made.best.offer.outcomes.labels[0].partition(":")[0]))
        way = min((courses.blind, courses.looking), key=lambda it: float(cost_to_go(shares[None, :], it)[0]))
        for remedy, looked in course(shares, way):
            return Deed("look" if looked else "try", remedy)
        return REFER

    def _courses(self, here: Here) -> Courses:
        remedies = self.problem.remedies
        shut = np.array([cover not in here.opened for cover in range(len(remedies.opening))])
        looks = tuple(() for _ in remedies.names)
        looking = replace(remedies, opening=remedies.opening * shut, looks=looks)
        return Courses(replace(looking, looking=np.full(len(remedies.names), np.inf)), looking)

    def _offers(self, here: Here) -> list[Offer]:
        offers = []
        for number, check in enumerate(self.problem.checks):
            if here.outcomes[number] < 0:
                labels = tuple(f"{number}:{outcome}" for outcome in range(len(check.chances)))
                behind = () if check.behind is None else np.flatnonzero(check.behind)
                zones = frozenset(str(cover) for cover in behind)
                offers.append(Offer(Outcomes(Look(str(number), ""), labels, check.chances), check.cost, zones, False))
        return offers


def _machine(problem: Problem) -> Any:
    """All that the planner asks a machine for: what its covers take."""
    opening = problem.remedies.opening
    return SimpleNamespace(
        zones={str(n): SimpleNamespace(open_minutes=float(cost), close_minutes=0.0) for n, cost in enumerate(opening)}
    )

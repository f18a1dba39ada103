"""Which check to make next: the one that makes the whole repair cheapest, among those that are safe enough to offer.

Hazard is a gate, not a price: a check on a live machine is offered only when no look and no dead check is worth its
time. Past the gate the expected cost of the whole repair decides: minutes of the check, then the cost to go from each
of its outcomes, where things may be looked at before they are changed; what that saves is set against time. Where no
check is worth it alone, the best few are priced with the best further check after each outcome (two plies), before the
search is given up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from halfsplit.belief import entropy, expected_entropy
from halfsplit.nextcheck.cost import Real, Remedies, cost_to_go, course, cured_shares
from halfsplit.nextcheck.effort import act_minutes, is_live, place_of, zone_minutes, zones_of
from halfsplit.nextcheck.plies import Table, two_plies
from halfsplit.nextcheck.remedies import Rates
from halfsplit.predict import Outcomes
from halfsplit.techsheet import Machine

LEAST_GAIN = 1.0
"""A check must save at least this much money over going on without it, or it is not worth a thought."""
FEW, MANY = 8, 300
"""Checks priced by looking ahead, and further checks tried after each of their outcomes: the cheapest by one ply."""
_STANDING_MINUTES = 10.0
"""Checks are ranked by what they save for their minutes and these: a quick look is asked before covers come off.

Tried on every single fault of the dryer, weighted by rate: 24.4 min with none, 23.7 with these, 24.0 by saving alone.
"""
_LEAST_LOOK = 0.05
"""A dead look at something less likely than this does not hold up a live check."""
_LEAST_SHARE = 3e-4
"""Remedies less likely than this are left out of the reckoning: a few in ten thousand, against a great deal of work."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A check that can be made.

    Attributes:
        outcomes: What it can turn out to be; chances of shape (outcomes, S).
        minutes: Time it takes with everything open.
        zones: What must be open for it.
        live: Whether it is made on a live machine.
    """

    outcomes: Outcomes
    minutes: float
    zones: frozenset[str]
    live: bool


def offer(machine: Machine, outcomes: Outcomes) -> Offer:
    """A check with its time, its covers and its hazard."""
    action = outcomes.action
    return Offer(outcomes, act_minutes(machine, action), zones_of(machine, action), is_live(action))


@dataclass(frozen=True, slots=True)
class Worth:
    """What a check is worth.

    Attributes:
        offer: The check.
        minutes: Time it takes, covers included.
        cost: Expected cost of the whole repair, this check included.
        gain: How much less that is than going on without it.
    """

    offer: Offer
    minutes: float
    cost: float
    gain: float


@dataclass(frozen=True, slots=True)
class Plan:
    """What checks are worth.

    Attributes:
        ranked: Those worth making, best first behind the hazard gate.
        weighed: All, the cheapest course first, whatever their hazard.
        without: Expected cost of going on without any of them.
        dropped: Share of the suspects that looking ahead left out for speed; nothing where it was not needed.
    """

    ranked: tuple[Worth, ...]
    weighed: tuple[Worth, ...]
    without: float
    dropped: float = 0.0

    @property
    def best(self) -> Worth | None:
        """The check to propose; None when none is worth its time."""
        return self.ranked[0] if self.ranked else None


@dataclass(frozen=True, slots=True)
class Courses:
    """How one may go on: changing things with no further look, or looking at each before it is changed.

    Attributes:
        blind: From `remedies`.
        looking: From `looked_at_first`.
    """

    blind: Remedies
    looking: Remedies

    def likely(self, shares: Real) -> Courses:
        """The same without remedies that hold next to nothing: what they cure is handed on."""
        ways = (self.blind, self.looking)
        return Courses(*(it.only(cured_shares(shares[None, :], it)[0] > _LEAST_SHARE) for it in ways))

    def opened(self, machine: Machine, zones: frozenset[str]) -> Courses:
        """The same with more covers off."""
        shut = np.array([zone not in zones for zone in machine.zones])
        blind, looking = (replace(it, opening=it.opening * shut) for it in (self.blind, self.looking))
        return Courses(blind, looking)


def plan(
    machine: Machine, shares: Real, offers: Sequence[Offer], courses: Courses, opened: frozenset[str], rates: Rates
) -> Plan:
    """Rank checks.

    Args:
        machine: For the zones.
        shares: Of every suspect, the last being "not on this sheet", shape (S,), adding up to one.
        offers: The checks that may be made.
        courses: Remedies over the same suspects.
        opened: Zones open already.
        rates: What time costs.
    """
    courses = courses.likely(shares)
    without = float(_least_cost(shares[None, :], courses)[0])
    worths = []
    for it, later in zip(offers, _costs_after(machine, shares, offers, courses), strict=True):
        minutes = it.minutes + zone_minutes(machine, it.zones - opened)
        cost = minutes * rates.minute + later
        worths.append(Worth(it, minutes, cost, without - cost))
    worths.sort(key=lambda worth: (worth.cost, worth.minutes))
    dropped, weighed = 0.0, tuple(worths)
    if worths and max(worth.gain for worth in worths) <= LEAST_GAIN:
        ahead, dropped = _looked_ahead(machine, shares, worths, courses, rates)
        weighed = (*ahead, *worths[len(ahead) :])
    ranked = _behind_the_gate(weighed, _next_looks(shares, weighed, courses))
    return Plan(tuple(ranked), weighed, without, dropped)


def _behind_the_gate(worths: Sequence[Worth], looks: Sequence[tuple[Worth, float]]) -> list[Worth]:
    """Dead checks worth their time, or else the plan's dead looks at likely things; then live checks worth their time.

    Where that leaves nothing, the plan's looks as they come, the dead ones first.
    """
    useful = [worth for worth in worths if worth.gain > LEAST_GAIN]
    useful.sort(key=lambda worth: -worth.gain / (worth.minutes + _STANDING_MINUTES))
    dead = [worth for worth in useful if not worth.offer.live]
    dead = dead or [worth for worth, share in looks if not worth.offer.live and share >= _LEAST_LOOK]
    ranked = [*dead, *(worth for worth in useful if worth.offer.live)]
    return ranked or sorted((worth for worth, _ in looks), key=lambda worth: worth.offer.live)


def _looked_ahead(
    machine: Machine, shares: Real, worths: Sequence[Worth], courses: Courses, rates: Rates
) -> tuple[list[Worth], float]:
    """The best few, priced with the best further check after each outcome, cheapest first; and the share left out."""
    few, many = worths[:FEW], worths[:MANY]
    if not few:
        return [], 0.0
    tables = [_table(machine, worth.offer, rates) for worth in many]
    ahead = two_plies(shares, tables[: len(few)], tables, (courses.blind, courses.looking))
    priced = [_saving(worth, float(saves)) for worth, saves in zip(few, ahead.saves, strict=True)]
    return sorted(priced, key=lambda worth: (worth.cost, worth.minutes)), ahead.dropped


def _saving(worth: Worth, saves: float) -> Worth:
    return replace(worth, cost=worth.cost - saves, gain=worth.gain + saves)


def _table(machine: Machine, it: Offer, rates: Rates) -> Table:
    opens = np.array([zone in it.zones for zone in machine.zones], dtype=bool)
    return Table(it.minutes * rates.minute, it.outcomes.chances, opens, place_of(it.outcomes.action))


def _least_cost(weights: Real, courses: Courses) -> Real:
    return np.minimum(cost_to_go(weights, courses.blind), cost_to_go(weights, courses.looking))


def _next_looks(shares: Real, worths: Sequence[Worth], courses: Courses) -> list[tuple[Worth, float]]:
    """The looks with which the plan of looking at one thing after the other begins, each with the share of its thing.

    None where that plan begins with changing something or handing the case on, or where changing blindly is cheaper.
    """
    blind, looking = (float(cost_to_go(shares[None, :], way)[0]) for way in (courses.blind, courses.looking))
    if blind <= looking:
        return []
    by_action = {worth.offer.outcomes.action: worth for worth in worths}
    held = cured_shares(shares[None, :], courses.looking)[0]
    looks = []
    for remedy, looked in course(shares, courses.looking):
        if not looked:
            break
        found = [by_action[action] for action in courses.looking.looks[remedy] if action in by_action]
        looks += [(worth, float(held[remedy])) for worth in found]
    return looks


def _costs_after(machine: Machine, shares: Real, offers: Sequence[Offer], courses: Courses) -> list[float]:
    """Cost to go after each check, the covers it needs being open then; all checks with the same covers at once."""
    groups: dict[frozenset[str], list[int]] = {}
    for place, it in enumerate(offers):
        groups.setdefault(it.zones, []).append(place)
    after = [0.0] * len(offers)
    for zones, places in groups.items():
        stacked = np.concatenate([offers[place].outcomes.chances for place in places]) * shares
        cost = _least_cost(stacked, courses.opened(machine, zones))
        starts = np.cumsum([0, *(len(offers[place].outcomes.labels) for place in places[:-1])])
        for place, total in zip(places, np.add.reduceat(cost, starts), strict=True):
            after[place] = float(total)
    return after


def chance_of(check: Outcomes, shares: Real) -> Real:
    """Probability of each outcome of a check, shape (outcomes,)."""
    return np.asarray(check.chances @ shares)


def bits_of(check: Outcomes, shares: Real) -> float:
    """Expected information of a check, bits."""
    return entropy(shares) - expected_entropy(shares, check.chances)

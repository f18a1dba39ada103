"""What holds for the worth of checks and the cost of a repair, whatever the shares and prices."""

from __future__ import annotations

from itertools import permutations, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from halfsplit.belief import entropy, expected_entropy
from halfsplit.call import Case, told
from halfsplit.call.advise import advise
from halfsplit.call.engine import engine_for
from halfsplit.nextcheck import (
    Courses,
    Offer,
    Rates,
    Remedies,
    bits_of,
    cost_to_go,
    looked_at_first,
    plan,
    remedies,
)
from halfsplit.predict import Outcomes
from halfsplit.techsheet import load_machine
from halfsplit.trade import NOT_ON_SHEET, Look, Measure

law = settings(derandomize=True, deadline=None, max_examples=200, database=None)
few = settings(law, max_examples=25)

Real = NDArray[np.float64]
DRYER = load_machine("dryer")


@st.composite
def shops(draw: st.DrawFn, looking: bool, covers: bool) -> tuple[Real, Remedies]:
    """Shares of up to four things and one that nothing cures, and what it costs to deal with them."""
    count = draw(st.integers(1, 4))
    price = st.floats(0.5, 100.0)
    weights = np.array(draw(st.lists(st.floats(0.0, 1.0), min_size=count + 1, max_size=count + 1)))
    weights[0] += 0.01
    some = [draw(price) for _ in range(count)]
    made = Remedies(
        names=tuple(str(number) for number in range(count)),
        cured_by=np.array([*range(count), -1]),
        looking=np.array([draw(price) if looking else np.inf for _ in range(count)]),
        costs=np.array(some),
        failing=np.full(count, draw(st.floats(0.0, 50.0))),
        behind=np.array([[covers and draw(st.booleans()) for _ in range(count)]]),
        opening=np.array([draw(st.floats(0.0, 40.0))]),
        refer=draw(st.floats(1.0, 400.0)),
    )
    return weights / weights.sum(), made


def _cost_of(weights: Real, made: Remedies, order: tuple[int, ...], looked: tuple[bool, ...]) -> float:
    """What one plan costs, step by step: these remedies in this order, looked at first or not, then handed on."""
    left, spent, shut = float(weights.sum()), 0.0, made.opening.copy()
    for number, look in zip(order, looked, strict=True):
        share = float(weights[number])
        spent += left * float((shut * made.behind[:, number]).sum())
        shut = shut * ~made.behind[:, number]
        if look:
            spent += left * made.looking[number] + share * made.costs[number]
        else:
            spent += left * made.costs[number] + (left - share) * made.failing[number]
        left -= share
    return spent + left * made.refer


def _least_cost(weights: Real, made: Remedies) -> float:
    """The least over every order, every place to stop, and every choice of looking first: the yardstick."""
    count = len(made.names)
    choices = (False, True) if np.isfinite(made.looking).all() else (False,)
    return min(
        _cost_of(weights, made, order, looked)
        for stop in range(count + 1)
        for order in permutations(range(count), stop)
        for looked in product(choices, repeat=stop)
    )


@law
@given(shops(looking=False, covers=False))
def test_with_nothing_to_look_at_and_no_covers_the_price_is_the_least_there_is(shop: tuple[Real, Remedies]) -> None:
    weights, made = shop
    assert cost_to_go(weights[None, :], made)[0] == pytest.approx(_least_cost(weights, made), rel=1e-9, abs=1e-9)


@law
@given(shops(looking=True, covers=True))
def test_the_price_is_never_below_the_least_there_is(shop: tuple[Real, Remedies]) -> None:
    weights, made = shop
    assert cost_to_go(weights[None, :], made)[0] >= _least_cost(weights, made) - 1e-9


@law
@given(shops(looking=True, covers=True), st.floats(0.01, 10.0))
def test_the_price_of_a_part_of_a_belief_is_in_proportion(shop: tuple[Real, Remedies], part: float) -> None:
    weights, made = shop
    whole, some = cost_to_go(np.stack([weights, part * weights]), made)
    assert some == pytest.approx(part * whole)


def _outcomes(rows: list[list[float]], suspects: int) -> Real:
    """Probability of each outcome under each suspect, columns adding up to one."""
    chances = np.array([row[:suspects] for row in rows])
    return np.asarray(chances / chances.sum(axis=0))


CHANCES = st.lists(st.lists(st.floats(0.01, 1.0), min_size=5, max_size=5), min_size=2, max_size=4)


@law
@given(shops(looking=False, covers=False), CHANCES)
def test_a_free_check_never_makes_a_repair_dearer(shop: tuple[Real, Remedies], rows: list[list[float]]) -> None:
    # Exact where the price is the least there is: then it is concave in the belief. With looking or covers the price
    # is only that of a good plan, and the planner never offers a check that would raise it.
    weights, made = shop
    outcomes = _outcomes(rows, len(weights))
    after = cost_to_go(outcomes * weights, made).sum()
    assert after <= cost_to_go(weights[None, :], made)[0] + 1e-9


@law
@given(CHANCES, st.lists(st.floats(0.01, 1.0), min_size=5, max_size=5))
def test_a_check_never_loses_information(rows: list[list[float]], weights: list[float]) -> None:
    shares = np.array(weights) / sum(weights)
    assert expected_entropy(shares, _outcomes(rows, 5)) <= entropy(shares) + 1e-9


SUSPECTS = (*engine_for(DRYER, Case()).singles.suspects, NOT_ON_SHEET)


def _courses(opened: frozenset[str]) -> Courses:
    proofs = {fault: actions[0] for fault, actions in engine_for(DRYER, Case()).proofs.items()}
    blind = remedies(DRYER, SUSPECTS, opened, Rates())
    return Courses(blind, looked_at_first(DRYER, SUSPECTS, proofs, opened, Rates()))


def _spread(seed: int) -> Real:
    """Shares of all single faults that are as uneven as those of a real call."""
    weights = np.random.default_rng(seed).pareto(1.0, len(SUSPECTS)) + 1e-6
    return np.asarray(weights / weights.sum())


@few
@given(st.integers(0, 10_000), st.lists(st.floats(0.01, 1.0), min_size=2, max_size=4), st.booleans())
def test_a_check_that_separates_nothing_is_worth_nothing(seed: int, odds: list[float], opens: bool) -> None:
    shares = _spread(seed)
    chances = np.repeat(np.array(odds)[:, None] / sum(odds), len(SUSPECTS), axis=1)
    labels = tuple(str(number) for number in range(len(odds)))
    idle = Outcomes(Measure(("heater.1", "heater.2"), "ohms", "dead"), labels, chances)
    zones = frozenset({"rear panel"}) if opens else frozenset[str]()
    made = plan(DRYER, shares, [Offer(idle, 2.0, zones, False)], _courses(frozenset()), frozenset(), Rates())
    assert made.weighed[0].gain <= 0.0
    assert bits_of(idle, shares) == pytest.approx(0.0, abs=1e-9)
    assert made.ranked == ()


@few
@given(st.integers(0, 10_000))
def test_a_live_check_never_comes_before_a_dead_one_worth_making(seed: int) -> None:
    engine = engine_for(DRYER, Case())
    offers = engine.offers(tuple(group[0] for group in engine.checks), (), engine.weigh(Case()).looks_like)
    made = plan(DRYER, _spread(seed), offers, _courses(frozenset()), frozenset(), Rates())
    live = [worth.offer.live for worth in made.ranked]
    assert live == sorted(live)


@few
@given(st.sampled_from(list(DRYER.complaints)))
def test_the_same_case_always_gets_the_same_advice(complaint: str) -> None:
    case = Case().plus(*told(DRYER, complaint))
    assert advise(DRYER, case) == advise(DRYER, case)


def test_open_covers_make_the_checks_behind_them_cheaper_and_no_other() -> None:
    engine = engine_for(DRYER, Case())
    looks = Look("heat", "running"), Measure(("heater.1", "heater.2"), "ohms", "dead")
    offers = engine.offers(looks, (), engine.weigh(Case()).looks_like)
    shut = plan(DRYER, _spread(1), offers, _courses(frozenset()), frozenset(), Rates())
    opened = frozenset({"rear panel"})
    open_ = plan(DRYER, _spread(1), offers, _courses(opened), opened, Rates())
    minutes = [{worth.offer.outcomes.action: worth.minutes for worth in made.weighed} for made in (shut, open_)]
    assert minutes[0][looks[0]] == minutes[1][looks[0]]
    assert minutes[0][looks[1]] - minutes[1][looks[1]] == pytest.approx(10.0)

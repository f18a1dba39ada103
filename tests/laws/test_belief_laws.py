"""What holds for belief over any table of likelihoods, and for any evidence on a case."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from halfsplit.belief import Item, item_likelihood, weigh
from halfsplit.call import Case, advise, told
from halfsplit.call.engine import engine_for
from halfsplit.techsheet import load_machine
from halfsplit.trade import Evidence, Reading, Seen

# The same examples on every machine and every day, and no clock.
law = settings(derandomize=True, deadline=None, max_examples=100, database=None)
few = settings(law, max_examples=15)

Real = NDArray[np.float64]
LIKELIHOOD = st.floats(0.0, 1.0)
DRYER = load_machine("dryer")


@st.composite
def items(draw: st.DrawFn, suspects: int, key: int) -> Item:
    """An item that may be impossible as stated, but never as a mistake."""
    rows = st.lists(LIKELIHOOD, min_size=suspects, max_size=suspects).map(np.array)
    mistaken, elsewhere = draw(st.floats(0.01, 0.2)), draw(st.floats(0.0, 0.2))
    off_sheet = draw(st.none() | rows)
    return Item(draw(rows), draw(rows), draw(st.floats(0.01, 1.0)), mistaken, elsewhere, (str(key),), off_sheet)


@st.composite
def cases(draw: st.DrawFn) -> tuple[Real, float, list[Item]]:
    """Prior, share of "not on this sheet", and items that each have a key of their own."""
    suspects = draw(st.integers(2, 7))
    weights = np.array(draw(st.lists(st.floats(0.001, 1.0), min_size=suspects + 1, max_size=suspects + 1)))
    weights /= weights.sum()
    count = draw(st.integers(1, 6))
    return weights[:-1], float(weights[-1]), [draw(items(suspects, key)) for key in range(count)]


@law
@given(cases())
def test_belief_sums_to_one(case: tuple[Real, float, list[Item]]) -> None:
    belief = weigh(*case)
    assert belief.shares.sum() + belief.not_on_sheet == pytest.approx(1.0, abs=1e-12)
    assert belief.looks_like.sum() == pytest.approx(1.0, abs=1e-12)
    assert (belief.shares >= 0).all()


@law
@given(cases(), st.randoms(use_true_random=False))
def test_the_order_of_independent_evidence_does_not_matter(
    case: tuple[Real, float, list[Item]], random: Random
) -> None:
    prior, unlisted, evidence = case
    shuffled = list(evidence)
    random.shuffle(shuffled)
    first, second = weigh(prior, unlisted, evidence), weigh(prior, unlisted, shuffled)
    assert first.shares == pytest.approx(second.shares, abs=1e-12)
    assert first.not_on_sheet == pytest.approx(second.not_on_sheet, abs=1e-12)


@law
@given(cases(), st.integers(2, 20))
def test_the_same_said_again_weighs_no_more_than_said_once(case: tuple[Real, float, list[Item]], times: int) -> None:
    prior, unlisted, evidence = case
    once, often = weigh(prior, unlisted, evidence), weigh(prior, unlisted, [*evidence, *[evidence[0]] * times])
    assert often.shares == pytest.approx(once.shares, abs=1e-9)


@law
@given(cases(), st.lists(st.integers(0, 10_000), min_size=1, max_size=20))
def test_readings_on_one_wrong_pin_are_one_mistake_however_many(
    case: tuple[Real, float, list[Item]], seeds: list[int]
) -> None:
    # Whatever they read, no suspect is put down by more than one mistake could: its likelihood stays above m · broad.
    prior, _, evidence = case
    first = evidence[0]
    again = [replace(first, fits=np.random.default_rng(seed).random(len(prior))) for seed in seeds]
    belief = weigh(prior, 0.0, again)
    most = max(float(item_likelihood(item).max()) for item in again)
    odds = belief.shares[:, None] / belief.shares[None, :]
    least = (prior[:, None] / prior[None, :]) * first.mistaken * first.broad / most
    assert (odds >= least * (1 - 1e-9)).all()


@law
@given(cases(), st.integers(0, 6))
def test_evidence_never_makes_the_impossible_possible(case: tuple[Real, float, list[Item]], which: int) -> None:
    prior, unlisted, evidence = case
    prior = prior.copy()
    prior[which % len(prior)] = 0.0
    assert weigh(prior, unlisted, evidence).shares[which % len(prior)] == 0.0


@law
@given(cases())
def test_an_item_that_is_as_likely_under_all_changes_nothing(case: tuple[Real, float, list[Item]]) -> None:
    prior, unlisted, evidence = case
    same = np.full(len(prior), 0.37)
    idle = Item(same, same, 0.37, 0.1, 0.1, ("idle",), same)
    assert weigh(prior, unlisted, [*evidence, idle]).shares == pytest.approx(weigh(prior, unlisted, evidence).shares)


def _evidence() -> st.SearchStrategy[Evidence]:
    """What somebody might say of the dryer, sense or nonsense."""
    seen = st.builds(
        lambda function, level, by: Seen(function, level, by, DRYER.functions[function].setup),
        st.sampled_from(list(DRYER.functions)),
        st.sampled_from(["none", "weak", "normal", "too much"]),
        st.sampled_from(["customer", "technician"]),
    )
    ohms = st.floats(0.0, 1e4) | st.just(float("inf"))
    points = st.sampled_from(
        [("heater.1", "heater.2"), ("TB.L1", "TB.N"), ("motor.6", "motor.4"), ("door.COM", "door.NO")]
    )
    dead = st.builds(Reading, points, st.just("ohms"), st.sampled_from(["dead", "dead door open"]), ohms)
    live = st.builds(Reading, points, st.just("volts"), st.sampled_from(["running", "resting"]), st.floats(0.0, 260.0))
    return seen | dead | live


@few
@given(st.lists(_evidence(), min_size=1, max_size=6), _evidence(), st.integers(0, 6))
def test_what_is_taken_back_leaves_no_trace(evidence: list[Evidence], doubted: Evidence, place: int) -> None:
    case = Case().plus(*evidence)
    place = min(place, len(evidence))
    with_it = Case().plus(*evidence[:place], doubted, *evidence[place:])
    assert with_it.without(place) == case
    engine = engine_for(DRYER, case)
    before, asked = engine.weigh(case), engine.weigh(with_it)
    after = engine.weigh(with_it.without(place))
    assert (after.belief.shares == before.belief.shares).all()
    assert asked.belief.shares.sum() + asked.belief.not_on_sheet == pytest.approx(1.0, abs=1e-12)


@few
@given(st.lists(_evidence(), min_size=2, max_size=6), st.randoms(use_true_random=False))
def test_on_a_case_too_the_order_of_evidence_does_not_matter(evidence: list[Evidence], random: Random) -> None:
    shuffled = list(evidence)
    random.shuffle(shuffled)
    engine = engine_for(DRYER, Case())
    first, second = engine.weigh(Case().plus(*evidence)).belief, engine.weigh(Case().plus(*shuffled)).belief
    assert first.shares == pytest.approx(second.shares, abs=1e-9)


@few
@given(st.lists(_evidence(), min_size=0, max_size=5))
def test_advice_never_fails_and_never_claims_certainty(evidence: list[Evidence]) -> None:
    advice = advise(DRYER, Case().plus(*told(DRYER, "no heat"), *evidence))
    shares = [view.share for view in advice.suspects]
    assert shares == sorted(shares, reverse=True)
    assert (advice.next is not None) == (advice.ending == "keep looking")
    assert all(0.0 <= share < 1.0 for share in shares)

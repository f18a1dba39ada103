"""What holds for the least cost of a repair, whatever the shares and prices."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfsplit.errors import InputError
from halfsplit.nextcheck import MOST_BELIEFS, Check, Problem, cost_to_go, exact_cost, plan
from halfsplit.trial.small import Follower, small_repair

law = settings(derandomize=True, deadline=None, max_examples=60, database=None)
SEEDS = st.integers(0, 100_000)
CHANCES = st.lists(st.lists(st.floats(0.01, 1.0), min_size=4, max_size=4), min_size=2, max_size=3)


def _small(seed: int) -> Problem:
    return small_repair(seed, most_suspects=4, most_checks=2)


def _check(problem: Problem, cost: float, rows: list[list[float]]) -> Check:
    chances = np.array(rows)[:, : len(problem.shares)]
    return Check(cost, chances / chances.sum(axis=0))


@law
@given(SEEDS, CHANCES)
def test_one_more_free_check_never_raises_the_least_cost(seed: int, rows: list[list[float]]) -> None:
    problem = _small(seed)
    more = replace(problem, checks=(*problem.checks, _check(problem, 0.0, rows)))
    assert exact_cost(more) <= exact_cost(problem) + 1e-9


@law
@given(SEEDS, CHANCES, st.floats(0.0, 50.0))
def test_a_check_is_worth_no_more_than_being_told_the_truth(seed: int, rows: list[list[float]], cost: float) -> None:
    problem = _small(seed)
    told = replace(problem, checks=(*problem.checks, Check(0.0, np.eye(len(problem.shares)))))
    more = replace(problem, checks=(*problem.checks, _check(problem, cost, rows)))
    assert exact_cost(told) <= exact_cost(more) + 1e-9


@law
@given(SEEDS)
def test_a_check_that_separates_nothing_is_worth_nothing(seed: int) -> None:
    problem = _small(seed)
    idle = Check(1.0, np.full((2, len(problem.shares)), 0.5))
    more = replace(problem, checks=(*problem.checks, idle))
    assert exact_cost(more) == pytest.approx(exact_cost(problem), rel=1e-9)


@law
@given(SEEDS)
def test_no_plan_is_cheaper_than_the_least(seed: int) -> None:
    problem = _small(seed)
    least = exact_cost(problem)
    assert least <= Follower(problem, plan).cost() + 1e-9
    assert least <= cost_to_go(problem.shares[None, :], problem.remedies)[0] + 1e-9


@law
@given(SEEDS, st.floats(0.0, 300.0))
def test_handing_on_bounds_the_least_cost(seed: int, refer: float) -> None:
    problem = _small(seed)
    cheap = replace(problem, remedies=replace(problem.remedies, refer=refer))
    assert exact_cost(cheap) <= refer + 1e-9


def test_a_problem_that_is_too_large_is_refused_in_a_sentence() -> None:
    problem = small_repair(1)
    checks = tuple(Check(1.0, np.full((3, len(problem.shares)), 1 / 3)) for _ in range(12))
    with pytest.raises(InputError, match=re.escape("too many to solve exactly.")) as caught:
        exact_cost(replace(problem, checks=checks))
    assert caught.value.right == f"Take fewer checks, remedies or covers: {MOST_BELIEFS} beliefs at most."

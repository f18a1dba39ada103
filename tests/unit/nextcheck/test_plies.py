"""Two plies by the plainest loops, and what cutting for speed leaves out."""

from itertools import product

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.nextcheck import Remedies, cost_to_go
from halfsplit.nextcheck.plies import Table, two_plies

Real = NDArray[np.float64]


def _way(rng: np.random.Generator, suspects: int, *, looking: bool) -> Remedies:
    count = suspects - 1
    return Remedies(
        names=tuple(map(str, range(count))),
        cured_by=np.array([*range(count), -1]),
        looking=rng.uniform(3.0, 12.0, count) if looking else np.full(count, np.inf),
        costs=rng.uniform(15.0, 200.0, count),
        failing=np.full(count, 15.0),
        behind=rng.random((2, count)) < 0.4,
        opening=np.array([9.0, 14.0]),
        refer=300.0,
    )


def _check(rng: np.random.Generator, suspects: int, place: int) -> Table:
    chances = rng.dirichlet(np.ones(3), suspects).T
    return Table(float(rng.uniform(1.5, 8.0)), chances, rng.random(2) < 0.4, place)


def _plainly(shares: Real, first: Table, seconds: list[Table], ways: list[Remedies]) -> tuple[float, float]:
    """Cost with the best further check, and with none."""
    opening = ways[0].opening

    def leaf(weights: Real, opened: NDArray[np.bool_]) -> float:
        shut = [Remedies(*(getattr(way, name) for name in NAMES[:6]), opening * ~opened, 300.0) for way in ways]
        return min(float(cost_to_go(weights[None, :], way)[0]) for way in shut)

    with_it = without = first.cost + float(opening @ first.opens)
    for row in first.chances:
        weights = row * shares
        ends = [leaf(weights, first.opens)]
        without += ends[0]
        for check in seconds:
            if check.place != first.place:
                more = check.cost + float(opening @ (check.opens & ~first.opens))
                after = sum(leaf(chances * weights, first.opens | check.opens) for chances in check.chances)
                ends.append(float(weights.sum()) * more + after)
        with_it += min(ends)
    return with_it, without


NAMES = ("names", "cured_by", "looking", "costs", "failing", "behind")


@pytest.mark.parametrize(("seed", "looking"), list(product(range(6), (False, True))))
def test_two_plies_are_what_the_plainest_loops_give(seed: int, looking: bool) -> None:
    rng = np.random.default_rng([17, seed])
    shares = rng.dirichlet(np.ones(6))
    ways = [_way(rng, 6, looking=looking)]
    checks = [_check(rng, 6, place) for place in range(5)]
    ahead = two_plies(shares, checks[:3], checks, ways)
    for number, first in enumerate(checks[:3]):
        cost, without = _plainly(shares, first, checks, ways)
        assert ahead.costs[number] == pytest.approx(cost, rel=1e-5)
        assert ahead.saves[number] == pytest.approx(without - cost, abs=1e-3)
    assert ahead.dropped == pytest.approx(0.0, abs=1e-12)


def test_a_further_check_never_makes_it_dearer() -> None:
    rng = np.random.default_rng(18)
    checks = [_check(rng, 8, place) for place in range(6)]
    ahead = two_plies(rng.dirichlet(np.ones(8)), checks, checks, [_way(rng, 8, looking=True)])
    assert (ahead.saves >= -1e-3).all()


def test_what_is_cut_for_speed_is_told() -> None:
    rng = np.random.default_rng(19)
    shares = np.array([0.4, 0.3, 0.2, 0.07, 0.03])
    checks = [_check(rng, 5, place) for place in range(2)]
    ahead = two_plies(shares, checks, checks, [_way(rng, 5, looking=False)], most=3)
    assert ahead.dropped == pytest.approx(0.1)


def test_a_check_is_not_followed_by_itself() -> None:
    rng = np.random.default_rng(20)
    check = Table(0.0, np.array([[0.9, 0.1, 0.1], [0.1, 0.9, 0.9]]), np.zeros(2, dtype=bool), "here")
    again = two_plies(np.array([0.5, 0.3, 0.2]), [check], [check], [_way(rng, 3, looking=False)])
    assert again.saves == pytest.approx([0.0], abs=1e-4)

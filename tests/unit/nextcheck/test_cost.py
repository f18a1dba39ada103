"""Costs by hand: looking or trying, covers, handing on."""

import numpy as np
import pytest

from halfsplit.nextcheck import Remedies, cost_to_go
from halfsplit.nextcheck.cost import course, cured_shares


def _remedies(costs: list[float], **changed: object) -> Remedies:
    count = len(costs)
    values: dict[str, object] = {
        "names": tuple("abcdefgh"[:count]),
        "cured_by": np.array([*range(count), -1]),
        "looking": np.full(count, np.inf),
        "costs": np.array(costs),
        "failing": np.zeros(count),
        "behind": np.zeros((1, count), dtype=bool),
        "opening": np.zeros(1),
        "refer": 1000.0,
    }
    return Remedies(**(values | changed))  # type: ignore[arg-type]


def _cost(weights: list[float], made: Remedies) -> float:
    return float(cost_to_go(np.array([weights]), made)[0])


def test_what_nothing_cures_is_handed_on_in_the_end() -> None:
    # 10 for all, then 1000 for the fifth that is left.
    assert _cost([0.8, 0.2], _remedies([10.0])) == pytest.approx(10.0 + 0.2 * 1000.0)


def test_handing_on_at_once_may_be_cheapest() -> None:
    assert _cost([0.01, 0.99], _remedies([50.0])) == pytest.approx(1000.0)


def test_a_part_changed_in_vain_costs_on_top() -> None:
    made = _remedies([10.0, 10.0], failing=np.array([5.0, 5.0]))
    # first 10, for 4 in 10 in vain: 5 more, and the second, which cures.
    assert _cost([0.6, 0.4, 0.0], made) == pytest.approx(10.0 + 0.4 * 5.0 + 0.4 * 10.0)


def test_a_look_saves_a_part_that_is_sound() -> None:
    made = _remedies([100.0, 100.0], looking=np.array([2.0, 2.0]))
    # look at the first (2), mend it in 6 of 10; the other must be it, and needs no look.
    assert _cost([0.6, 0.4, 0.0], made) == pytest.approx(2.0 + 0.6 * 100.0 + 0.4 * 100.0)
    assert course(np.array([0.6, 0.4, 0.0]), made) == ((0, True), (1, False))


def test_a_look_dearer_than_the_part_is_not_taken() -> None:
    made = _remedies([3.0, 100.0], looking=np.array([10.0, 10.0]))
    assert course(np.array([0.5, 0.5, 0.0]), made)[0] == (0, False)


def test_a_cover_is_paid_once_for_all_that_is_behind_it() -> None:
    made = _remedies([5.0, 5.0], behind=np.array([[True, True]]), opening=np.array([20.0]))
    assert _cost([0.5, 0.5, 0.0], made) == pytest.approx(20.0 + 5.0 + 0.5 * 5.0)


def test_things_in_the_open_come_before_a_cover() -> None:
    made = _remedies([5.0, 5.0], behind=np.array([[True, False]]), opening=np.array([20.0]))
    assert [place for place, _ in course(np.array([0.5, 0.5, 0.0]), made)] == [1, 0]


def test_remedies_left_out_leave_their_share_to_be_handed_on() -> None:
    made = _remedies([5.0, 7.0]).only(np.array([True, False]))
    assert made.names == ("a",)
    assert _cost([0.5, 0.3, 0.2], made) == pytest.approx(5.0 + 0.5 * 1000.0)


def test_one_remedy_may_cure_several_suspects() -> None:
    made = _remedies([5.0, 7.0], cured_by=np.array([0, 1, 0, -1]))
    assert cured_shares(np.array([[0.1, 0.2, 0.3, 0.4]]), made)[0] == pytest.approx([0.4, 0.2])


def test_knowing_before_acting_saves_what_acting_blindly_wastes() -> None:
    made = _remedies([10.0, 10.0], failing=np.array([5.0, 5.0]))
    after = cost_to_go(np.eye(3) * np.array([0.5, 0.5, 0.0]), made).sum()
    assert after == pytest.approx(10.0)
    assert _cost([0.5, 0.5, 0.0], made) == pytest.approx(10.0 + 0.5 * 5.0 + 0.5 * 10.0)

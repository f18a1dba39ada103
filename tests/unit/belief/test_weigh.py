"""Bayes by hand on tables of two and three suspects."""

import numpy as np
import pytest

from halfsplit.belief import Item, entropy, expected_entropy, item_likelihood, weigh
from halfsplit.errors import InputError

EVEN = np.array([0.5, 0.5])


def _item(fits: list[float], *, broad: float = 0.5, mistaken: float = 0.0, key: str = "a") -> Item:
    return Item(np.array(fits), np.array(fits), broad, mistaken, 0.0, (key,))


def test_bayes_with_nobody_mistaken() -> None:
    # 0.5 * 0.9 against 0.5 * 0.1
    assert weigh(EVEN, 0.0, [_item([0.9, 0.1])]).shares == pytest.approx([0.9, 0.1])


def test_an_item_comes_about_in_three_ways() -> None:
    item = Item(np.array([0.8, 0.0]), np.array([0.0, 0.4]), 0.25, 0.1, 0.2, ("a",))
    assert item_likelihood(item) == pytest.approx([0.7 * 0.8 + 0.1 * 0.25, 0.2 * 0.4 + 0.1 * 0.25])


def test_no_evidence_leaves_the_prior() -> None:
    belief = weigh(np.array([0.6, 0.3]), 0.1, [])
    assert belief.shares == pytest.approx([0.6, 0.3])
    assert belief.not_on_sheet == pytest.approx(0.1)
    assert belief.looks_like == pytest.approx([0.5, 0.5])


def test_not_on_the_sheet_explains_an_item_as_broadly_as_a_mistake_if_nothing_else_is_said() -> None:
    belief = weigh(np.array([0.9]), 0.1, [_item([0.01], broad=0.5)])
    assert belief.not_on_sheet == pytest.approx(0.05 / (0.05 + 0.009))


def test_not_on_the_sheet_may_look_like_a_suspect() -> None:
    # It looks like either with half: 0.1 * (0.5 * 0.8 + 0.5 * 0.2) against 0.45 * 0.9 and 0.45 * 0.1.
    item = Item(np.array([0.9, 0.1]), np.array([0.9, 0.1]), 0.5, 0.0, 0.0, ("a",), off_sheet=np.array([0.8, 0.2]))
    belief = weigh(np.array([0.45, 0.45]), 0.1, [item])
    assert belief.not_on_sheet == pytest.approx(0.05 / (0.05 + 0.45))
    assert belief.looks_like == pytest.approx([0.8, 0.2])


def test_two_items_of_different_kinds_multiply_and_two_of_one_kind_do_not() -> None:
    apart = weigh(EVEN, 0.0, [_item([0.9, 0.1], key="a"), _item([0.9, 0.1], key="b")])
    alike = weigh(EVEN, 0.0, [_item([0.9, 0.1], key="a"), _item([0.9, 0.1], key="a")])
    assert apart.shares == pytest.approx([0.81 / 0.82, 0.01 / 0.82])
    assert alike.shares == pytest.approx([0.9, 0.1])


def test_evidence_impossible_under_everything_is_told_and_not_divided_by_zero() -> None:
    with pytest.raises(InputError) as told:
        weigh(EVEN, 0.0, [_item([0.0, 0.0])])
    assert told.value.right == "Take back the item in doubt."


def test_a_hundred_items_do_not_run_out_of_numbers() -> None:
    belief = weigh(EVEN, 0.0, [_item([1e-9, 1e-12], key=str(number)) for number in range(100)])
    assert belief.shares == pytest.approx([1.0, 0.0])


def test_entropy_of_coins() -> None:
    assert entropy(EVEN) == 1.0
    assert entropy(np.array([1.0, 0.0])) == 0.0
    assert entropy(np.full(8, 1 / 8)) == pytest.approx(3.0)


def test_expected_entropy_of_a_check_that_tells_all_and_one_that_tells_nothing() -> None:
    assert expected_entropy(EVEN, np.eye(2)) == 0.0
    assert expected_entropy(EVEN, np.array([[0.3, 0.3], [0.7, 0.7]])) == pytest.approx(1.0)

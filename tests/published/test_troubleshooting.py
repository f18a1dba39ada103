"""Costs of a repair against published and worked answers.

J. B. Kadane and H. A. Simon, "Optimal strategies for a class of constrained sequential problems", Annals of Statistics
5(2), 1977; D. Heckerman, J. S. Breese and K. Rommelse, "Decision-theoretic troubleshooting", Communications of the ACM
38(3), 1995; J. S. Breese and D. Heckerman, arXiv 1302.3563. The formula of the expected cost of repair is theirs (from
memory); S means that the value was seen in a worked answer, M that it is from memory, C that it was computed outside
this project by trying every order.
"""

from itertools import permutations

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.nextcheck import Remedies, Step, best_sequence, cost_to_go, sequence_cost

Real = NDArray[np.float64]
NEVER = 1e9
"""Handing the case on, at a cost that nobody pays."""


def _remedies(looking: Real, costs: Real) -> Remedies:
    """One remedy for each suspect, behind no cover, with nothing lost by trying in vain."""
    count = len(costs)
    return Remedies(
        names=tuple(str(index) for index in range(count)),
        cured_by=np.arange(count),
        looking=looking,
        costs=costs,
        failing=np.zeros(count),
        behind=np.zeros((0, count), dtype=bool),
        opening=np.zeros(0),
        refer=NEVER,
    )


def test_two_things_in_order_of_share_over_cost() -> None:
    # S: a worked answer; C. p = .8 and .2, C = 3 and 2: 3.4 against 4.4.
    likely, cheap = Step(0.8, 3.0), Step(0.2, 2.0)
    assert sequence_cost([likely, cheap]) == pytest.approx(3.4, abs=1e-12)
    assert sequence_cost([cheap, likely]) == pytest.approx(4.4, abs=1e-12)
    assert best_sequence([cheap, likely]) == (pytest.approx(3.4, abs=1e-12), (1, 0))


def test_the_engine_prices_two_things_alike() -> None:
    # The same answer by the other route: the vectorised price that the planner uses.
    remedies = _remedies(np.full(2, np.inf), np.array([3.0, 2.0]))
    assert cost_to_go(np.array([[0.8, 0.2]]), remedies) == pytest.approx(3.4, abs=1e-6)


SHARES, LOOKING, MENDING = (0.5, 0.3, 0.2), (10.0, 4.0, 1.0), (20.0, 30.0, 40.0)


def test_three_things_looked_at_before_they_are_mended() -> None:
    # C: all six orders. Best 3-2-1 = 36.2, worst 1-2-3 = 39.2.
    steps = [Step(*values) for values in zip(SHARES, LOOKING, MENDING, strict=True)]
    costs = {order: sequence_cost([steps[index] for index in order]) for order in permutations(range(3))}
    assert min(costs, key=lambda order: costs[order]) == (2, 1, 0)
    assert costs[2, 1, 0] == pytest.approx(36.2, abs=1e-12)
    assert max(costs, key=lambda order: costs[order]) == (0, 1, 2)
    assert costs[0, 1, 2] == pytest.approx(39.2, abs=1e-12)
    assert best_sequence(steps) == (pytest.approx(36.2, abs=1e-12), (2, 1, 0))


def test_the_engine_does_not_look_at_the_last_thing_left() -> None:
    # The published formula looks at all three. Once two are cleared it must be the third, with share .5 and a look that
    # costs 10: the planner saves just that, and finds the order (descending p/C) without trying them all.
    remedies = _remedies(np.array(LOOKING), np.array(MENDING))
    assert cost_to_go(np.array([SHARES]), remedies) == pytest.approx(36.2 - 0.5 * 10.0, abs=1e-6)


def _covered() -> list[Step]:
    """Two things in the open and two behind a cover that costs 10."""
    open_ones = [Step(0.30, 5.0), Step(0.10, 1.0)]
    return [*open_ones, Step(0.35, 4.0, cover="panel"), Step(0.25, 6.0, cover="panel")]


def test_a_cover_is_paid_once_and_changes_the_best_order() -> None:
    # C: all 24 orders. The idea: T. J. Ottosen and F. V. Jensen, arXiv 1203.3502; the numbers are this test's own.
    steps, opening = _covered(), {"panel": 10.0}
    costs = sorted(sequence_cost([steps[index] for index in order], opening) for order in permutations(range(4)))
    assert costs[:3] == pytest.approx([15.4, 15.6, 16.5], abs=1e-9)
    assert costs[-1] == pytest.approx(21.65, abs=1e-9)
    assert best_sequence(steps, opening) == (pytest.approx(15.4, abs=1e-9), (1, 0, 2, 3))


def test_an_order_that_forgets_the_cover_is_dearer() -> None:
    # C: p/C alone says b-c-a-d, which then costs 17.85.
    steps = _covered()
    order = sorted(range(4), key=lambda index: -steps[index].share / steps[index].observe)
    assert order == [1, 2, 0, 3]
    assert sequence_cost([steps[index] for index in order], {"panel": 10.0}) == pytest.approx(17.85, abs=1e-9)


def test_the_engine_finds_the_best_order_past_a_cover() -> None:
    # It shares a cover's cost out over what is behind it, which finds the optimum here; it need not always.
    steps = _covered()
    plain = _remedies(np.full(4, np.inf), np.array([step.observe for step in steps]))
    behind = np.array([[bool(step.cover) for step in steps]])
    remedies = Remedies(
        plain.names, plain.cured_by, plain.looking, plain.costs, plain.failing, behind, np.array([10.0]), NEVER
    )
    assert cost_to_go(np.array([[step.share for step in steps]]), remedies) == pytest.approx(15.4, abs=1e-6)

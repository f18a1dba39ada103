"""The published and worked answers of troubleshooting, by the exact solver.

Sources as in `test_troubleshooting.py`: S seen in a worked answer, M from memory, C computed outside this project by
trying every order, or with pyagrum.
"""

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.nextcheck import Check, Problem, Remedies, exact_cost

Real = NDArray[np.float64]
NEVER = 1e9
"""Handing the case on, at a cost that nobody pays."""


def _repair(shares: list[float], looking: list[float], costs: list[float], panel: tuple[list[int], float]) -> Problem:
    """One remedy for each suspect, some of them behind one panel, with nothing lost by trying in vain."""
    behind, opening = panel
    count = len(costs)
    remedies = Remedies(
        names=tuple(str(index) for index in range(count)),
        cured_by=np.arange(count),
        looking=np.array(looking),
        costs=np.array(costs),
        failing=np.zeros(count),
        behind=np.isin(np.arange(count), behind)[None, :],
        opening=np.array([opening]),
        refer=NEVER,
    )
    return Problem(np.array(shares), remedies)


OPEN: tuple[list[int], float] = ([], 0.0)


def test_two_things_in_the_better_order() -> None:
    # S: a worked answer; C. 3.4 against 4.4.
    assert exact_cost(_repair([0.8, 0.2], [np.inf] * 2, [3.0, 2.0], OPEN)) == pytest.approx(3.4, abs=1e-9)


def test_three_things_looked_at_before_they_are_mended() -> None:
    # C: all six orders; the best is 36.2 where all three are looked at. Nobody must look at the last: .5 · 10 less.
    problem = _repair([0.5, 0.3, 0.2], [10.0, 4.0, 1.0], [20.0, 30.0, 40.0], OPEN)
    assert exact_cost(problem) == pytest.approx(36.2 - 0.5 * 10.0, abs=1e-9)


def test_a_cover_that_is_paid_once() -> None:
    # C: all 24 orders. The idea: T. J. Ottosen and F. V. Jensen, arXiv 1203.3502; the numbers are not theirs.
    problem = _repair([0.30, 0.10, 0.35, 0.25], [np.inf] * 4, [5.0, 1.0, 4.0, 6.0], ([2, 3], 10.0))
    assert exact_cost(problem) == pytest.approx(15.4, abs=1e-9)


def test_a_test_before_the_act_the_oil_wildcatter() -> None:
    # M: H. Raiffa, "Decision Analysis", 1968, the numbers from memory; C: 22.5 with pyagrum. Walking away costs
    # nothing (`refer`); drilling ends it too and costs what it does not bring.
    nothing = np.zeros(0)
    walking_away = Remedies((), np.full(3, -1), nothing, nothing, nothing, np.zeros((0, 0), dtype=bool), nothing, 0.0)
    soundings = Check(10.0, np.array([[0.6, 0.3, 0.1], [0.3, 0.4, 0.4], [0.1, 0.3, 0.5]]))
    drilling = np.array([[70.0, -50.0, -200.0]])
    wildcatter = Problem(np.array([0.5, 0.3, 0.2]), walking_away, (soundings,), drilling)
    assert exact_cost(wildcatter) == pytest.approx(-22.5, abs=1e-9)

"""Scores against worked numbers.

Brier: y = 0, 1, 1, 0 and p = .1, .9, .8, .3 give .0375 (scikit-learn's documentation of `brier_score_loss`; seen, and
computed here). Log-loss of the same: .197635 (computed with scikit-learn).
"""

import numpy as np
import pytest
from sklearn.metrics import brier_score_loss
from sklearn.metrics import log_loss as sklearn_log_loss

from halfsplit.trial.score import brier, log_loss

CAME = np.array([0.0, 1.0, 1.0, 0.0])
STATED = np.array([0.1, 0.9, 0.8, 0.3])


def test_the_brier_score_of_the_documented_example() -> None:
    assert brier(CAME, STATED) == pytest.approx(0.0375, abs=1e-12)
    assert brier(CAME, STATED) == pytest.approx(brier_score_loss(CAME, STATED), abs=1e-12)


def test_the_log_loss_of_the_same() -> None:
    assert log_loss(CAME, STATED) == pytest.approx(0.197635, abs=5e-7)
    assert log_loss(CAME, STATED) == pytest.approx(sklearn_log_loss(CAME, STATED), abs=1e-12)

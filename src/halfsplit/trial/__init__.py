"""Blind trials: hidden faults, people who err, and strategies compared on the same calls.

Random only through a passed generator; what is drawn is invented, and says nothing about a real shop.
"""

from halfsplit.trial.people import CLEAN, NOISY, Noise
from halfsplit.trial.run import Hidden, Outcome, run_case, trial
from halfsplit.trial.score import Scores, score
from halfsplit.trial.small import Yardstick, against_exact
from halfsplit.trial.strategies import STRATEGIES

__all__ = [
    "CLEAN",
    "NOISY",
    "STRATEGIES",
    "Hidden",
    "Noise",
    "Outcome",
    "Scores",
    "Yardstick",
    "against_exact",
    "run_case",
    "score",
    "trial",
]

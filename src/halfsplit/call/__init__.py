"""The service call: a case and its file, and the advice for it. Pure functions over values."""

from halfsplit.call.advise import Advice, Ending, SuspectView, advise
from halfsplit.call.case import Case, hardest_to_reach, machine_for, told
from halfsplit.call.casefile import case_schema, one_of, read_case, two_points, write_case
from halfsplit.call.checks import DEAD, LIVE, LOOKING, NextCheck, OutcomeView, action_of, caution_of, title_of
from halfsplit.call.explain import Reason, in_words, suspect_says

__all__ = [
    "DEAD",
    "LIVE",
    "LOOKING",
    "Advice",
    "Case",
    "Ending",
    "NextCheck",
    "OutcomeView",
    "Reason",
    "SuspectView",
    "action_of",
    "advise",
    "case_schema",
    "caution_of",
    "hardest_to_reach",
    "in_words",
    "machine_for",
    "one_of",
    "read_case",
    "suspect_says",
    "title_of",
    "told",
    "two_points",
    "write_case",
]

"""The service call: a case and its file, and the advice for it. Pure functions over values."""

from halfsplit.call.access import Access, access_list
from halfsplit.call.advise import MOST_SHOWN, Advice, SuspectView, advise
from halfsplit.call.ask import MeterReading, meter_reading, netlist_of
from halfsplit.call.case import Case, hardest_to_reach, machine_for, told
from halfsplit.call.casefile import case_schema, one_of, points_for, read_case, two_points, write_case
from halfsplit.call.checks import (
    BY_HAND,
    DEAD,
    LIVE,
    LOOKING,
    PUTS_VOLTS,
    NextCheck,
    OutcomeView,
    action_of,
    caution_of,
    offered_checks,
    opened_on,
    title_of,
)
from halfsplit.call.cleared import Cleared, Turn, cleared, origins, turns
from halfsplit.call.ending import Ending, conflicting, things_of, title_of_things
from halfsplit.call.engine import Engine, accept, engine_for
from halfsplit.call.explain import Reason, in_words, suspect_says
from halfsplit.call.tree import Branch, Node, compile_tree
from halfsplit.call.wiring import PairReading, ReadingOf, between, marked, show_between, standing_of

__all__ = [
    "BY_HAND",
    "DEAD",
    "LIVE",
    "LOOKING",
    "MOST_SHOWN",
    "PUTS_VOLTS",
    "Access",
    "Advice",
    "Branch",
    "Case",
    "Cleared",
    "Ending",
    "Engine",
    "MeterReading",
    "NextCheck",
    "Node",
    "OutcomeView",
    "PairReading",
    "ReadingOf",
    "Reason",
    "SuspectView",
    "Turn",
    "accept",
    "access_list",
    "action_of",
    "advise",
    "between",
    "case_schema",
    "caution_of",
    "cleared",
    "compile_tree",
    "conflicting",
    "engine_for",
    "hardest_to_reach",
    "in_words",
    "machine_for",
    "marked",
    "meter_reading",
    "netlist_of",
    "offered_checks",
    "one_of",
    "opened_on",
    "origins",
    "points_for",
    "read_case",
    "show_between",
    "standing_of",
    "suspect_says",
    "things_of",
    "title_of",
    "title_of_things",
    "told",
    "turns",
    "two_points",
    "write_case",
]

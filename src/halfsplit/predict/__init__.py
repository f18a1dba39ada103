"""What each suspect would show and read at each check, in any setup. Knows no probability of a fault."""

from halfsplit.predict.candidates import DROP_AMPS, candidates
from halfsplit.predict.evidence import Row, key_of, one_step_forgotten, row
from halfsplit.predict.functions import levels, share
from halfsplit.predict.live import is_dead, live_points
from halfsplit.predict.meters import branch_between, plug_points
from halfsplit.predict.outcomes import Outcomes, bands, outcomes
from halfsplit.predict.paper import Contradiction, contradictions, nameplate_agrees, nameplate_amps
from halfsplit.predict.paths import Lifted, Way, lifts_worth, ways_between
from halfsplit.predict.predictor import Predictor, Real, lifted_wires, switch_steps
from halfsplit.predict.readings import Expected, expected, ghosts

__all__ = [
    "DROP_AMPS",
    "Contradiction",
    "Expected",
    "Lifted",
    "Outcomes",
    "Predictor",
    "Real",
    "Row",
    "Way",
    "bands",
    "branch_between",
    "candidates",
    "contradictions",
    "expected",
    "ghosts",
    "is_dead",
    "key_of",
    "levels",
    "lifted_wires",
    "lifts_worth",
    "live_points",
    "nameplate_agrees",
    "nameplate_amps",
    "one_step_forgotten",
    "outcomes",
    "plug_points",
    "row",
    "share",
    "switch_steps",
    "ways_between",
]

"""What to do next: expected cost of the whole repair, remedies, and the worth of each check behind the hazard gate."""

from halfsplit.nextcheck.cost import Remedies, Step, best_sequence, cost_to_go, sequence_cost
from halfsplit.nextcheck.effort import (
    act_minutes,
    check_minutes,
    is_live,
    place_of,
    zone_minutes,
    zones_of,
    zones_opened,
)
from halfsplit.nextcheck.exact import MOST_BELIEFS, Check, Problem, exact_cost
from halfsplit.nextcheck.licensed import TO_ELECTRICIAN, Mend, mend_of
from halfsplit.nextcheck.proofs import proofs
from halfsplit.nextcheck.propose import LEAST_GAIN, Courses, Offer, Plan, Worth, bits_of, chance_of, offer, plan
from halfsplit.nextcheck.remedies import REFER, Rates, looked_at_first, remedies, remedy_name

__all__ = [
    "LEAST_GAIN",
    "MOST_BELIEFS",
    "REFER",
    "TO_ELECTRICIAN",
    "Check",
    "Courses",
    "Mend",
    "Offer",
    "Plan",
    "Problem",
    "Rates",
    "Remedies",
    "Step",
    "Worth",
    "act_minutes",
    "best_sequence",
    "bits_of",
    "chance_of",
    "check_minutes",
    "cost_to_go",
    "exact_cost",
    "is_live",
    "looked_at_first",
    "mend_of",
    "offer",
    "place_of",
    "plan",
    "proofs",
    "remedies",
    "remedy_name",
    "sequence_cost",
    "zone_minutes",
    "zones_of",
    "zones_opened",
]

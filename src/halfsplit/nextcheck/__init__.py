"""What to do next: expected cost of the whole repair, remedies, and the worth of each check behind the hazard gate."""

from halfsplit.nextcheck.cost import Remedies, Step, best_sequence, cost_after, cost_to_go, sequence_cost
from halfsplit.nextcheck.propose import Plan, State, Worth, chance_of, check_minutes, is_live, plan, zones_opened
from halfsplit.nextcheck.remedies import REFER, Rates, remedies, remedy_name, zone_minutes

__all__ = [
    "REFER",
    "Plan",
    "Rates",
    "Remedies",
    "State",
    "Step",
    "Worth",
    "best_sequence",
    "chance_of",
    "check_minutes",
    "cost_after",
    "cost_to_go",
    "is_live",
    "plan",
    "remedies",
    "remedy_name",
    "sequence_cost",
    "zone_minutes",
    "zones_opened",
]

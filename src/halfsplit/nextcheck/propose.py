"""Which check to make next: the one that makes the whole repair cheapest, among those that are safe enough to offer.

Hazard is a gate, not a price. Checks come in three gates: looking and asking, ohms on a dead machine, volts on a live
one. A live check is offered only when no check of the earlier gates is worth its time. Past the gate, the expected
cost of the whole repair decides: minutes of the check, then the cost to go from each outcome (one ply).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfsplit.belief import entropy, expected_entropy
from halfsplit.nextcheck.cost import Real, Remedies, cost_after, cost_to_go
from halfsplit.nextcheck.remedies import Rates, zone_minutes
from halfsplit.predict import Outcomes
from halfsplit.techsheet import Machine
from halfsplit.trade import Action, Look

_LOOK_MINUTES, _OHMS_MINUTES, _VOLTS_MINUTES = 1.0, 2.0, 3.0
_LEAST_GAIN = 0.05
"""A check must save at least this much money over going on without it, or it is not worth a thought."""


@dataclass(frozen=True, slots=True)
class Worth:
    """What a check is worth.

    Attributes:
        outcomes: What it can turn out to be.
        minutes: Time it takes, covers included.
        cost: Expected cost of the whole repair, this check included.
        gain: How much less that is than going on without it.
        bits: Expected information, bits.
        live: Whether it is made on a live machine.
    """

    outcomes: Outcomes
    minutes: float
    cost: float
    gain: float
    bits: float
    live: bool


@dataclass(frozen=True, slots=True)
class Plan:
    """The worth of every check, best first behind the hazard gate, and the cost of going on without any."""

    ranked: tuple[Worth, ...]
    without: float

    @property
    def best(self) -> Worth | None:
        """The check to propose; None when none is worth its time."""
        return self.ranked[0] if self.ranked else None


@dataclass(frozen=True, slots=True)
class State:
    """Where the technician stands: zones open, and checks that are not to be offered (made, skipped, out of reach)."""

    opened: frozenset[str] = frozenset()
    closed_to: frozenset[Action] = frozenset()


def plan(
    machine: Machine, shares: Real, checks: Sequence[Outcomes], cures: Remedies, state: State, rates: Rates
) -> Plan:
    """Rank checks.

    Args:
        machine: For zones and hazards.
        shares: Of every suspect, the last being "not on this sheet", shape (S,), adding up to one.
        checks: Outcomes with chances of shape (outcomes, S).
        cures: Remedies over the same suspects.
        state: Where the technician stands.
        rates: What time costs.
    """
    without = float(cost_to_go(shares[None, :], cures)[0])
    worths = [
        _worth(machine, shares, check, cures, state, rates, without)
        for check in checks
        if check.action not in state.closed_to
    ]
    useful = [worth for worth in worths if worth.gain > _LEAST_GAIN]
    useful.sort(key=lambda worth: (worth.live, worth.cost, worth.minutes))
    return Plan(tuple(useful), without)


def _worth(
    machine: Machine, shares: Real, check: Outcomes, cures: Remedies, state: State, rates: Rates, without: float
) -> Worth:
    minutes = check_minutes(machine, check.action, state.opened)
    cost = minutes * rates.minute + cost_after(shares, check.chances, lambda weights: cost_to_go(weights, cures))
    bits = entropy(shares) - expected_entropy(shares, check.chances)
    return Worth(check, minutes, cost, without - cost, bits, is_live(check.action))


def is_live(action: Action) -> bool:
    """Whether a check puts probes on a live machine."""
    return not isinstance(action, Look) and action.mode != "ohms"


def check_minutes(machine: Machine, action: Action, opened: frozenset[str]) -> float:
    """Minutes of a check: the act, its setup, and what must come off for it."""
    setup = machine.setups[action.setup].minutes
    if isinstance(action, Look):
        return _LOOK_MINUTES + setup
    zones = {machine.zone_of_point(point) for point in action.points}
    act = _OHMS_MINUTES if action.mode == "ohms" else _VOLTS_MINUTES
    return act + setup + zone_minutes(machine, zones - opened)


def zones_opened(machine: Machine, actions: Sequence[Action]) -> frozenset[str]:
    """Zones that the checks already made must have opened."""
    points = [point for action in actions if not isinstance(action, Look) for point in action.points]
    return frozenset(machine.zone_of_point(point) for point in points)


def chance_of(check: Outcomes, shares: Real) -> Real:
    """Probability of each outcome of a check, shape (outcomes,)."""
    return np.asarray(check.chances @ shares)



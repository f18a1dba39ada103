"""Which check proves which fault: one with an outcome that no other thing gives, as long as one thing is wrong."""

from __future__ import annotations

from collections.abc import Sequence

from halfsplit.nextcheck.effort import check_minutes
from halfsplit.nextcheck.remedies import remedy_name
from halfsplit.predict import Outcomes
from halfsplit.techsheet import Machine
from halfsplit.trade import Action, Suspect

_LIKELY = 0.8
"""An outcome less likely than this under its own suspect proves nothing."""


def proofs(machine: Machine, suspects: Sequence[Suspect], checks: Sequence[Outcomes]) -> dict[str, tuple[Action, ...]]:
    """All checks that prove a fault, the quickest first, for every fault that has one.

    Args:
        machine: For times and for what cures a suspect.
        suspects: Nothing wrong and the single faults, in the order of the columns of the checks.
        checks: Outcomes with chances of shape (outcomes, S).
    """
    cures = [remedy_name(machine, suspect) for suspect in suspects]
    found: dict[str, list[Action]] = {}
    for check in sorted(checks, key=lambda check: check_minutes(machine, check.action, frozenset())):
        for fault in _proved(check, suspects, cures):
            found.setdefault(fault, []).append(check.action)
    return {fault: tuple(actions) for fault, actions in found.items()}


def _proved(check: Outcomes, suspects: Sequence[Suspect], cures: Sequence[str]) -> list[str]:
    likeliest, chance = check.chances.argmax(axis=0), check.chances.max(axis=0)
    proved: list[str] = []
    for outcome in range(len(check.labels)):
        members = [index for index in range(len(suspects)) if likeliest[index] == outcome]
        if len({cures[index] for index in members}) == 1 and chance[members].min() >= _LIKELY:
            proved += [fault for index in members for fault in suspects[index].faults]
    return proved

"""Degrees of one fault shown as one suspect: a joint of 2 Ω or of 20 Ω is the same joint to whoever mends it."""

from __future__ import annotations

from collections.abc import Iterable

from halfsplit.predict import Real
from halfsplit.techsheet import Fault, Machine
from halfsplit.trade import Suspect

_LEAST_NAMED = 0.1
"""A degree with less than this part of its suspect's share is not named."""


def whole_of(machine: Machine, suspect: Suspect) -> tuple[str, ...]:
    """What a suspect is whatever the degrees of its faults: the same for all degrees of a joint."""
    return tuple(machine.faults[fault].whole for fault in suspect.faults)


def by_whole(machine: Machine, suspects: tuple[Suspect, ...], places: Iterable[int]) -> tuple[tuple[int, ...], ...]:
    """The places put together by what they are whatever the degree, each group and all groups in the order given."""
    groups: dict[tuple[str, ...], list[int]] = {}
    for place in places:
        groups.setdefault(whole_of(machine, suspects[place]), []).append(place)
    return tuple(tuple(group) for group in groups.values())


def says_in_degrees(machine: Machine, suspects: tuple[Suspect, ...], group: tuple[int, ...], shares: Real) -> str:
    """One sentence without its full stop for suspects that differ in degree only, the likeliest degrees named."""
    first = suspects[group[0]]
    if not first.faults:
        return "nothing is wrong in the machine"
    total = max(float(shares[list(group)].sum()), 1e-300)
    named = [suspects[place] for place in group if shares[place] >= _LEAST_NAMED * total] or [first]
    pieces = []
    for number in range(len(first.faults)):
        faults = [machine.faults[suspect.faults[number]] for suspect in named]
        pieces.append(_in_degrees(faults))
    return ", and ".join(pieces)


def _in_degrees(faults: list[Fault]) -> str:
    degrees = list(dict.fromkeys(fault.degree for fault in faults if fault.degree))
    if not degrees:
        return faults[0].says
    return f"{faults[0].says_at_all}, {' or '.join([degrees[0], *(it.removeprefix('about ') for it in degrees[1:])])}"

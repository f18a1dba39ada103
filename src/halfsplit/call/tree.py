"""A plan compiled into a decision tree: the advice after every likely answer, to carry without a machine that thinks.

The same engine answers at every node, so the first check is the one it proposes for the complaint. An answer becomes
evidence as on a call: a level seen by the technician, or the middle of a band of readings. The tree is bounded: it
grows where one is likeliest to get to, until there are enough checks; what is left says so.
"""

from __future__ import annotations

import heapq
from dataclasses import dataclass
from itertools import count

from halfsplit.call.advise import Advice, advise
from halfsplit.call.case import Case, told
from halfsplit.call.casefile import one_of
from halfsplit.call.checks import NextCheck
from halfsplit.techsheet import Machine
from halfsplit.trade import Action, Measure, Reading

DEPTH, MOST = 5, 24
"""Checks in a row, and checks in all, if nothing else is asked for."""
_SHOWN = 4


@dataclass(frozen=True, slots=True)
class Branch:
    """One answer to a check: its label, how likely it is there, how likely to get there at all, and what then."""

    label: str
    chance: float
    reach: float
    then: Node


@dataclass(frozen=True, slots=True)
class Node:
    """A place in the tree.

    Attributes:
        check: What to check here; None at an end, and where the tree was cut off.
        ending: Where the search stands, as on a call.
        says: The same in a sentence or two.
        blamed: Things blamed at an end.
        mend: What to do at an end.
        cut_off: Whether there would be more checks to make, for which there was no room.
        branches: The likely answers; empty without a check.
    """

    check: NextCheck | None
    ending: str
    says: str
    blamed: tuple[str, ...]
    mend: str
    cut_off: bool
    branches: tuple[Branch, ...] = ()

    @property
    def rare(self) -> float:
        """Chance of an answer that is too unlikely to be listed."""
        return max(0.0, 1.0 - sum(branch.chance for branch in self.branches)) if self.branches else 0.0


def compile_tree(
    machine: Machine, complaint: str, depth: int = DEPTH, most: int = MOST, case: Case | None = None
) -> Node:
    """The decision tree of a complaint.

    Args:
        machine: The machine.
        complaint: A complaint of the sheet, by name.
        depth: How many checks in a row, 1 or more.
        most: How many checks in all, 1 or more.
        case: What is known of the call already, as what is fixed on it or cannot be reached; the complaint is added.

    Raises:
        InputError: The sheet has no such complaint.
    """
    name = one_of(complaint, tuple(machine.complaints), "complaint of this sheet")
    return _grow(machine, (case or Case()).plus(*told(machine, name)), depth, most).node()


@dataclass(slots=True)
class _Place:
    """A node while the tree grows. `after` stays empty where no check is made, or none could be any more."""

    case: Case
    advice: Advice
    reach: float
    deep: int
    after: tuple[_Place, ...] = ()

    def node(self) -> Node:
        """This place and all that follows from it, for good."""
        advice, check = self.advice, self.advice.next
        mend = advice.suspects[0].mend if advice.blamed and advice.suspects else ""
        if check is None or not self.after:
            return Node(None, advice.ending, advice.says, advice.blamed, mend, check is not None)
        branches = (
            Branch(view.label, view.chance, place.reach, place.node())
            for view, place in zip(check.outcomes, self.after, strict=True)
        )
        return Node(check, advice.ending, advice.says, advice.blamed, mend, False, tuple(branches))


def _grow(machine: Machine, case: Case, depth: int, most: int) -> _Place:
    root = _place(machine, case, 1.0, 0)
    turn = count()
    waiting = [(-root.reach, next(turn), root)]
    checks = 0
    while waiting and checks < most:
        place = heapq.heappop(waiting)[-1]
        check = place.advice.next
        if check is None or place.deep >= depth:
            continue
        checks += 1
        place.after = tuple(
            _place(
                machine,
                place.case.plus(view.item),
                place.reach * view.chance,
                place.deep + 1,
            )
            for view in check.outcomes
        )
        for later in place.after:
            heapq.heappush(waiting, (-later.reach, next(turn), later))
    return root


def _place(machine: Machine, case: Case, reach: float, deep: int) -> _Place:
    """Nothing is taken once more on paper: who reads it there knows what they read."""
    advice = advise(machine, case, most=_SHOWN)
    if advice.next is not None and _was_made(case, advice.next.action):
        case = case.skip(advice.next.action)
        advice = advise(machine, case, most=_SHOWN)
    return _Place(case, advice, reach, deep)


def _was_made(case: Case, action: Action) -> bool:
    made = ((item.points, item.mode, item.setup) for item in case.evidence if isinstance(item, Reading))
    return isinstance(action, Measure) and (action.points, action.mode, action.setup) in made

"""Where a search stands: go on looking, blame a thing or a group, nothing wrong, or nothing fits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from halfsplit.call.case import Case
from halfsplit.call.engine import Engine, Weighed
from halfsplit.call.explain import in_words, suspect_says
from halfsplit.nextcheck import Plan, remedy_name
from halfsplit.techsheet import Machine
from halfsplit.trade import Seen
from halfsplit.units import show_share

Ending = Literal["keep looking", "one part", "group", "nothing wrong", "nothing fits"]
_SURE = 0.8
"""A thing with this share of what the sheet explains is blamed alone."""
_AS_GOOD_AS = 0.05
"""Things with this share of the likeliest one's share form a group with it."""
_UNEXPLAINED, _CONFLICT = 0.5, 0.3
_IMPOSSIBLE = 1e-9


@dataclass(frozen=True, slots=True)
class Verdict:
    """Where the search stands.

    Attributes:
        ending: In a word.
        blamed: Things blamed, likeliest first; "" stands for nothing wrong, `A + B` for both together.
        unseen: When nothing is wrong: things that may be at fault all the same, and that no look would show.
    """

    ending: Ending
    blamed: tuple[str, ...] = ()
    unseen: tuple[str, ...] = ()


def verdict(engine: Engine, weighed: Weighed, case: Case, made: Plan) -> Verdict:
    """Where the search stands.

    Nothing fits when "not on this sheet" holds more than half, or when every suspect is contradicted by some item and
    it is as good an explanation as any, or when the search is at its end and what leads is contradicted by something
    that the technician saw or read (a customer may err). Nothing is wrong when that leads and the rest is what no look
    would show.
    """
    totals = things_of(engine, weighed)
    unlisted = weighed.belief.not_on_sheet
    fitting = weighed.consistent() & (weighed.belief.shares > _IMPOSSIBLE)
    if weighed.rows and (unlisted > _UNEXPLAINED or (not fitting.any() and unlisted >= max(totals.values()))):
        return Verdict("nothing fits")
    if made.best is not None:
        return Verdict("keep looking")
    leading = _leading(totals)
    if not _holds(engine, weighed, case, leading[0]):
        return Verdict("nothing fits")
    if leading[0] == "" and engine.unseen.issuperset(leading[1:]):
        return Verdict("nothing wrong", unseen=leading[1:])
    return Verdict("one part" if len(leading) == 1 else "group", leading)


def _holds(engine: Engine, weighed: Weighed, case: Case, thing: str) -> bool:
    """Whether some suspect that blames just this goes with all that the technician saw or read."""
    against = np.zeros(len(weighed.suspects), dtype=bool)
    for item, row in zip(case.evidence, weighed.rows, strict=True):
        if not (isinstance(item, Seen) and item.by == "customer"):
            against |= row.contradicts
    names = (remedy_name(engine.machine, weighed.suspects[left]) for left in weighed.now)
    return any(name == thing and not wrong for name, wrong in zip(names, against, strict=True))


def things_of(engine: Engine, weighed: Weighed) -> dict[str, float]:
    """Share of every set of things that some suspect blames; nothing wrong is ""."""
    totals: dict[str, float] = {}
    for suspect, share in zip(weighed.suspects, np.concatenate(engine.folded(weighed)), strict=True):
        name = remedy_name(engine.machine, suspect)
        totals[name] = totals.get(name, 0.0) + float(share)
    return totals


def _leading(totals: dict[str, float]) -> tuple[str, ...]:
    """The first thing alone if it is sure; else all that are not far less likely than the first, likeliest first."""
    names = sorted(totals, key=lambda name: -totals[name])
    first = totals[names[0]]
    if first >= _SURE * sum(totals.values()):
        return (names[0],)
    return tuple(name for name in names if totals[name] >= _AS_GOOD_AS * first)


def say(weighed: Weighed, found: Verdict, changed: tuple[str, ...] = ()) -> str:
    """A verdict in a sentence or two."""
    machine = weighed.machine
    if found.ending == "keep looking":
        best = int(weighed.shares.argmax())
        share = float(weighed.shares[best])
        return f"Most likely so far: {suspect_says(machine, weighed.suspects[best])} ({show_share(share)})."
    if found.ending == "nothing wrong":
        more = f" What no look would show is not ruled out: {_titles(machine, found.unseen)}." if found.unseen else ""
        if changed:
            return f"With {_titles(machine, changed)} changed, the machine does what a sound one does.{more}"
        return f"Everything seen and read is what a sound machine gives: nothing is wrong in the machine.{more}"
    if found.ending == "nothing fits":
        again = "Read again what conflicts; the sheet may be wrong, or the fault not on it."
        return f"Nothing on this sheet explains this. {again}"
    if found.ending == "one part":
        return f"It is the {_titles(machine, found.blamed)}: {_likeliest_of(weighed, found.blamed[0])}."
    return f"No check worth its time can part these: {_titles(machine, found.blamed)}."


def _likeliest_of(weighed: Weighed, blamed: str) -> str:
    shares, suspects = weighed.shares, weighed.suspects
    of_it = [place for place, it in enumerate(suspects) if remedy_name(weighed.machine, it) == blamed]
    return suspect_says(weighed.machine, suspects[max(of_it, key=lambda place: shares[place])])


def _titles(machine: Machine, names: tuple[str, ...]) -> str:
    return "; ".join(title_of_things(machine, name) for name in names)


def title_of_things(machine: Machine, name: str) -> str:
    """Things changed together, in words."""
    return " and ".join(machine.title_of(thing) for thing in name.split(" + ")) if name else "nothing wrong"


def conflicts(weighed: Weighed, case: Case) -> tuple[str, ...]:
    """The items that contradict most of the belief, in words, worst first: those to read again."""
    return tuple(in_words(weighed.machine, case.evidence[index]) for index in conflicting(weighed))


def conflicting(weighed: Weighed) -> tuple[int, ...]:
    """Numbers of the items that contradict most of the belief, worst first; at most three."""
    shares = weighed.belief.shares / max(weighed.belief.shares.sum(), _IMPOSSIBLE)
    against = np.array([float(row.contradicts @ shares) for row in weighed.rows])
    return tuple(int(index) for index in np.argsort(-against, kind="stable") if against[index] > _CONFLICT)[:3]

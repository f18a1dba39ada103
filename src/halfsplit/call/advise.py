"""The answer to "what now?": suspects with reasons, the next check, or the end of the search.

Both faces print what is here and add nothing of their own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from halfsplit.call.case import Case
from halfsplit.call.checks import NextCheck, describe_check, offered_checks, open_proofs, opened_on
from halfsplit.call.degrees import by_whole, says_in_degrees
from halfsplit.call.doubt import doubted
from halfsplit.call.ending import Ending, Verdict, conflicts, say, verdict
from halfsplit.call.engine import Engine, Mask, Weighed, engine_for
from halfsplit.call.explain import Reason, reasons
from halfsplit.nextcheck import (
    Courses,
    Plan,
    Rates,
    Worth,
    looked_at_first,
    mend_of,
    plan,
    remedies,
    zone_minutes,
)
from halfsplit.predict import Real
from halfsplit.techsheet import Machine
from halfsplit.trade import NOT_ON_SHEET, Action, Suspect
from halfsplit.units import show_share

MOST_SHOWN = 12
_SHORTLIST = 24


@dataclass(frozen=True, slots=True)
class SuspectView:
    """One suspect as shown: its faults, share, sentence, reasons, and whether nothing contradicts it.

    Degrees of one fault are one suspect: the share is that of all, `suspect` and `reasons` are those of the likeliest.
    """

    suspect: Suspect
    share: float
    says: str
    mend: str
    things: tuple[str, ...]
    consistent: bool
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Advice:
    """What is believed and what to do.

    Attributes:
        suspects: Most likely first.
        not_on_sheet: Share of "not on this sheet, or the sheet is wrong".
        ending: Where the search stands.
        says: The same in a sentence or two.
        blamed: Things blamed at the end: one part, or a group that cannot be parted.
        next: The next check; None at an end.
        others: Further checks worth their time.
        conflicts: When nothing fits, the items that conflict with the best suspects.
        idle_pairs: Share of pairs of which one fault alone contradicts nothing; they are not listed.
        dropped: Share of calls with pairs of faults that were left out for speed.
        cost: Expected cost of the whole repair from here, in the sheet's currency.
    """

    suspects: tuple[SuspectView, ...]
    not_on_sheet: float
    ending: Ending
    says: str
    blamed: tuple[str, ...]
    next: NextCheck | None
    others: tuple[NextCheck, ...]
    conflicts: tuple[str, ...]
    idle_pairs: float
    dropped: float
    cost: float


def advise(machine: Machine, case: Case, rates: Rates | None = None, most: int = MOST_SHOWN) -> Advice:
    """What to believe and do in a case.

    Args:
        machine: The machine.
        case: What is known so far.
        rates: What time and mistakes cost.
        most: How many suspects to show.

    Raises:
        InputError: An item of evidence that its setup does not allow.
    """
    engine = engine_for(machine, case)
    weighed = engine.weigh(case)
    playing = _in_play(engine, weighed)
    made = _plan(engine, case, playing, _on_call(machine, case, rates or Rates()))
    found = verdict(engine, weighed, case, made)
    again = _read_again(engine, weighed, case, playing, found)
    if again is not None:
        found = Verdict("keep looking")
    idle = engine.idle_pairs(weighed.consistent())
    views = _views(engine, weighed, case, idle, most)
    checks = tuple(
        describe_check(engine, worth, playing.shares, playing.suspects, made.without) for worth in made.ranked[:4]
    )
    going_on = found.ending == "keep looking"
    cost = made.best.cost if made.best else made.without
    return Advice(
        suspects=views,
        not_on_sheet=weighed.belief.not_on_sheet,
        ending=found.ending,
        says=say(weighed, found, case.changed) + _over_limit(machine, case, cost),
        blamed=found.blamed,
        next=again or (checks[0] if checks and going_on else None),
        others=checks[1:] if going_on else (),
        conflicts=conflicts(weighed, case) if found.ending == "nothing fits" else (),
        idle_pairs=float(weighed.belief.shares[idle].sum()),
        dropped=weighed.dropped,
        cost=cost,
    )


def _read_again(engine: Engine, weighed: Weighed, case: Case, playing: _InPlay, found: Verdict) -> NextCheck | None:
    """The reading that a part would be changed on, once more, where it is in doubt; None elsewhere."""
    doubt = doubted(engine, weighed, case) if found.ending in ("one part", "group") and found.blamed[0] else None
    if doubt is None:
        return None
    action, share = doubt
    (it,) = engine.offers((action,), playing.pairs, playing.looks_like)
    minutes = it.minutes + zone_minutes(engine.machine, it.zones - opened_on(engine.machine, case))
    check = describe_check(engine, Worth(it, minutes, 0.0, 0.0), playing.shares, playing.suspects, 0.0)
    why = f"Before anything is changed: that reading is mistaken with a share of {show_share(share)}, and it is quick."
    return replace(check, title=f"{check.title} once more", why=why)


def _on_call(machine: Machine, case: Case, rates: Rates) -> Rates:
    """Rates with what is not on the truck of this call."""
    if case.truck is None:
        return rates
    return replace(rates, missing=frozenset(machine.parts) - case.truck, return_minutes=case.return_minutes)


def _over_limit(machine: Machine, case: Case, cost: float) -> str:
    """A sentence to add where the customer's limit will not do; empty while it will."""
    if case.limit is None or cost <= case.limit:
        return ""
    about = f"{cost:.0f} {machine.currency} to the end of the repair, over the customer's limit of {case.limit:.0f}"
    return f" STOP: expect about {about}. Ask the customer before going on, or hand the case on."


@dataclass(frozen=True, slots=True)
class _InPlay:
    """Suspects that choose the next check, with their shares: singles, leading pairs, and not on this sheet."""

    shares: Real
    suspects: tuple[Suspect, ...]
    pairs: tuple[Suspect, ...]
    looks_like: Real

    @property
    def alone(self) -> _InPlay:
        """The same without pairs."""
        kept = [index for index, suspect in enumerate(self.suspects) if suspect not in self.pairs]
        return _InPlay(
            self.shares[kept] / self.shares[kept].sum(),
            tuple(self.suspects[index] for index in kept),
            (),
            self.looks_like,
        )


def _in_play(engine: Engine, weighed: Weighed) -> _InPlay:
    singles, paired = engine.folded(weighed)
    leading = engine.leading_pairs(paired)
    pairs = tuple(engine.pairs.suspects[place] for place in leading)
    shares = np.concatenate([singles, paired[leading], [weighed.belief.not_on_sheet]])
    return _InPlay(shares / shares.sum(), (*engine.singles.suspects, *pairs, NOT_ON_SHEET), pairs, weighed.looks_like)


def _plan(engine: Engine, case: Case, playing: _InPlay, rates: Rates) -> Plan:
    opened = opened_on(engine.machine, case)
    offered = offered_checks(engine.machine, engine.checks, case, opened)
    proofs = open_proofs(engine.proofs, offered, case)
    if playing.pairs:  # they are predicted only for what tells their own faults, and for the best among single ones
        first = _rank(engine, offered, proofs, playing.alone, opened, rates)
        own = [proofs[fault] for pair in playing.pairs for fault in pair.faults if fault in proofs]
        best = [worth.offer.outcomes.action for worth in first.weighed[:_SHORTLIST]]
        offered = tuple(dict.fromkeys((*own, *best)))
    return _rank(engine, offered, proofs, playing, opened, rates)


def _rank(
    engine: Engine,
    offered: tuple[Action, ...],
    proofs: Mapping[str, Action],
    playing: _InPlay,
    opened: frozenset[str],
    rates: Rates,
) -> Plan:
    machine, suspects = engine.machine, playing.suspects
    blind = remedies(machine, suspects, opened, rates)
    looking = looked_at_first(machine, suspects, proofs, opened, rates)
    offers = engine.offers(offered, playing.pairs, playing.looks_like)
    return plan(machine, playing.shares, offers, Courses(blind, looking), opened, rates)


def _views(engine: Engine, weighed: Weighed, case: Case, idle: Mask, most: int) -> tuple[SuspectView, ...]:
    machine, fits = engine.machine, weighed.consistent()
    shares = np.bincount(weighed.now[~idle], weighed.belief.shares[~idle], len(fits)).astype(np.float64)
    places = np.flatnonzero(np.bincount(weighed.now[~idle], minlength=len(fits)))
    order = (int(place) for place in places[np.argsort(-shares[places], kind="stable")])
    groups = sorted(by_whole(machine, weighed.suspects, order), key=lambda group: -shares[list(group)].sum())
    views = []
    for group in groups[:most]:
        them = np.flatnonzero(np.isin(weighed.now, group) & ~idle)
        index = int(them[weighed.belief.shares[them].argmax()])  # speaks for all that come to the same now
        suspect = weighed.suspects[group[0]]
        mends = [mend_of(machine, name) for name in suspect.faults]
        views.append(
            SuspectView(
                suspect,
                float(shares[list(group)].sum()),
                says_in_degrees(machine, weighed.suspects, group, shares),
                "; ".join(dict.fromkeys(mend.says for mend in mends)) or "show the customer that it works",
                tuple(dict.fromkeys(mend.thing for mend in mends)),
                bool(fits[them].any()),
                reasons(engine, weighed, case, index),
            )
        )
    return tuple(views)

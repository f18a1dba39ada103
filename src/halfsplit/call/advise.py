"""The answer to "what now?": suspects with reasons, the next check, or the end of the search.

Both faces print what is here and add nothing of their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from halfsplit.call.case import Case
from halfsplit.call.checks import NextCheck, action_of, describe_check, offered_checks, with_not_on_sheet
from halfsplit.call.engine import Engine, Weighed, engine_for
from halfsplit.call.explain import Reason, in_words, reasons, suspect_says
from halfsplit.nextcheck import REFER, Plan, Rates, State, plan, remedies, remedy_name, zones_opened
from halfsplit.predict import Real
from halfsplit.techsheet import Machine
from halfsplit.trade import NOT_ON_SHEET, Action, Suspect
from halfsplit.units import show_share

Ending = Literal["keep looking", "one part", "group", "nothing wrong", "nothing fits"]
_SURE, _LEADING, _UNEXPLAINED = 0.8, 0.05, 0.5
_CONFLICT = 0.3
MOST_SHOWN = 12
_SHORTLIST = 24


@dataclass(frozen=True, slots=True)
class SuspectView:
    """One suspect as shown: its faults, share, sentence, reasons, and whether nothing contradicts it."""

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
    pairs = engine.leading_pairs(weighed)
    shares, suspects = _in_play(engine, weighed, pairs)
    made = _plan(engine, case, shares, suspects, rates or Rates())
    ending, blamed = _ending(weighed, _by_remedy(engine.machine, shares, suspects), made)
    views = _views(engine, weighed, case, most)
    checks = tuple(describe_check(engine, worth, shares, suspects, made.without) for worth in made.ranked[:4])
    going_on = ending == "keep looking"
    return Advice(
        suspects=views,
        not_on_sheet=weighed.belief.not_on_sheet,
        ending=ending,
        says=_say(engine.machine, ending, blamed, views),
        blamed=blamed,
        next=checks[0] if checks and going_on else None,
        others=checks[1:] if going_on else (),
        conflicts=_conflicts(engine, weighed, case) if ending == "nothing fits" else (),
        idle_pairs=float(weighed.belief.shares[engine.idle_pairs(weighed.consistent())].sum()),
        dropped=weighed.dropped,
        cost=made.best.cost if made.best else made.without,
    )


def _in_play(engine: Engine, weighed: Weighed, pairs: tuple[Suspect, ...]) -> tuple[Real, tuple[Suspect, ...]]:
    """Shares and suspects that choose the next check: singles, leading pairs, and not on this sheet."""
    singles = engine.prior.singles
    place = {suspect: index for index, suspect in enumerate(weighed.suspects)}
    belief = weighed.belief
    shares = np.concatenate([belief.shares[:singles], belief.shares[[place[p] for p in pairs]], [belief.not_on_sheet]])
    return shares / shares.sum(), (*weighed.suspects[:singles], *pairs, NOT_ON_SHEET)


def _plan(engine: Engine, case: Case, shares: Real, suspects: tuple[Suspect, ...], rates: Rates) -> Plan:
    opened = zones_opened(engine.machine, [action_of(item) for item in case.evidence])
    offered = offered_checks(engine.checks, case)
    pairs = tuple(suspect for suspect in suspects if len(suspect.faults) > 1)
    if pairs:  # pairs are only predicted for the checks that do best among the single faults
        alone = [index for index, suspect in enumerate(suspects) if suspect not in pairs]
        left = shares[alone] / shares[alone].sum()
        first = _rank(engine, offered, left, tuple(suspects[index] for index in alone), opened, rates)
        offered = tuple(worth.outcomes.action for worth in first.ranked[:_SHORTLIST])
    return _rank(engine, offered, shares, suspects, opened, rates)


def _rank(
    engine: Engine,
    offered: tuple[Action, ...],
    shares: Real,
    suspects: tuple[Suspect, ...],
    opened: frozenset[str],
    rates: Rates,
) -> Plan:
    pairs = tuple(suspect for suspect in suspects if len(suspect.faults) > 1)
    checks = tuple(with_not_on_sheet(outcome) for outcome in engine.outcomes(offered, pairs))
    return plan(engine.machine, shares, checks, remedies(engine.machine, suspects, opened, rates), State(opened), rates)


def _by_remedy(machine: Machine, shares: Real, suspects: tuple[Suspect, ...]) -> dict[str, float]:
    """Share of each remedy: of each set of things to change, of nothing wrong (""), and of referring it."""
    totals: dict[str, float] = {}
    for suspect, share in zip(suspects, shares, strict=True):
        name = remedy_name(machine, suspect)
        totals[name] = totals.get(name, 0.0) + float(share)
    return totals


def _ending(weighed: Weighed, remedy_shares: dict[str, float], made: Plan) -> tuple[Ending, tuple[str, ...]]:
    """Where the search stands, and what is blamed.

    Nothing fits when every suspect is contradicted and the sheet's own failure is as good an explanation as any.
    """
    referred = remedy_shares.get(REFER, 0.0)
    fitting = weighed.consistent() & (weighed.belief.shares > 1e-9)
    if weighed.rows and (referred > _UNEXPLAINED or (not fitting.any() and referred >= max(remedy_shares.values()))):
        return "nothing fits", ()
    if made.best is not None:
        return "keep looking", ()
    leading = [name for name, share in remedy_shares.items() if name != REFER and share >= _LEADING]
    best = max(leading or remedy_shares, key=lambda name: remedy_shares[name])
    if remedy_shares[best] >= _SURE or len(leading) == 1:
        return ("one part" if best else "nothing wrong"), (best,) if best else ()
    return "group", tuple(sorted(leading, key=lambda name: -remedy_shares[name]))


def _views(engine: Engine, weighed: Weighed, case: Case, most: int) -> tuple[SuspectView, ...]:
    machine, shares, fits = engine.machine, weighed.belief.shares, weighed.consistent()
    idle = engine.idle_pairs(fits)
    order = [index for index in np.argsort(-shares, kind="stable") if not idle[index]][:most]
    views = []
    for index in (int(index) for index in order):
        suspect = weighed.suspects[index]
        faults = [machine.faults[name] for name in suspect.faults]
        views.append(
            SuspectView(
                suspect,
                float(shares[index]),
                suspect_says(machine, suspect),
                "; ".join(fault.mend for fault in faults) or "show the customer that it works",
                tuple(dict.fromkeys(fault.thing for fault in faults)),
                bool(fits[index]),
                reasons(engine, weighed, case.evidence, index),
            )
        )
    return tuple(views)


def _say(machine: Machine, ending: Ending, blamed: tuple[str, ...], views: tuple[SuspectView, ...]) -> str:
    if ending == "keep looking":
        return f"Most likely so far: {views[0].says} ({show_share(views[0].share)})."
    if ending == "nothing wrong":
        return "Everything seen and read is what a sound machine gives: nothing is wrong in the machine."
    if ending == "nothing fits":
        return "Nothing on this sheet explains this. Re-read the items below; the sheet may be wrong, or the fault not on it."
    titles = [_titles(machine, name) for name in blamed]
    if ending == "one part":
        return f"It is the {titles[0]}: {views[0].says}."
    return f"No check worth its time can part these: {'; '.join(titles)}."


def _titles(machine: Machine, remedy: str) -> str:
    """The things a remedy changes, in words; the empty remedy changes nothing."""
    return " and ".join(machine.title_of(thing) for thing in remedy.split(" + ")) if remedy else "nothing wrong"


def _conflicts(engine: Engine, weighed: Weighed, case: Case) -> tuple[str, ...]:
    """The items that contradict most of the belief, worst first: those to read again."""
    shares = weighed.belief.shares / max(weighed.belief.shares.sum(), 1e-300)
    against = [(float(row.contradicts @ shares), index) for index, row in enumerate(weighed.rows)]
    worst = sorted(against, key=lambda pair: -pair[0])
    return tuple(in_words(engine.machine, case.evidence[index]) for share, index in worst if share > _CONFLICT)[:3]

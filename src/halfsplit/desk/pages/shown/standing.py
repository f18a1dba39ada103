"""Where a call stands: the sentence, and at an end what is blamed and what mending it takes; the suspects."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from halfsplit.call import BY_HAND, Advice, SuspectView, in_words
from halfsplit.desk.pages.words import signal
from halfsplit.desk.records.entries import EntryRecord
from halfsplit.nextcheck import mend_of
from halfsplit.techsheet import Machine
from halfsplit.trade import Reading, Seen
from halfsplit.units import show_share

_MOST_SUSPECTS = 8
_LEAST_SHARE = 0.005


@dataclass(frozen=True, slots=True)
class Mend:
    """One thing blamed, and what mending it takes."""

    title: str
    says: str
    mend: str
    price: str
    minutes: str
    zone: str


@dataclass(frozen=True, slots=True)
class Conflict:
    """An item that cannot be true together with the rest, and the entries that say it."""

    says: str
    entries: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SuspectLine:
    """One suspect: the share as text and as a number for the bar, its sentence, and what fits and does not."""

    says: str
    share: str
    value: float
    fits: bool
    things: str
    reasons: tuple[tuple[str, bool], ...]


@dataclass(frozen=True, slots=True)
class StandingShown:
    """Where the search stands; the caution is for the mending."""

    ending: str
    says: str
    mends: tuple[Mend, ...]
    or_nothing: bool
    signal_word: str
    caution: str
    conflicts: tuple[Conflict, ...]
    suspects: tuple[SuspectLine, ...]
    not_on_sheet: str


def standing_shown(machine: Machine, advice: Advice, entries: tuple[EntryRecord, ...]) -> StandingShown:
    """Where a call stands, in words."""
    at_end = advice.ending in ("one part", "group")
    signal_word, caution = signal(BY_HAND)
    return StandingShown(
        ending=advice.ending,
        says=advice.says,
        mends=tuple(mend for name in advice.blamed for mend in _mends(machine, name, advice)) if at_end else (),
        or_nothing=at_end and "" in advice.blamed,
        signal_word=signal_word,
        caution=caution,
        conflicts=_conflicts(machine, advice, entries),
        suspects=tuple(_line(view) for view in advice.suspects[:_MOST_SUSPECTS] if view.share >= _LEAST_SHARE),
        not_on_sheet=show_share(advice.not_on_sheet),
    )


def _mends(machine: Machine, remedy: str, advice: Advice) -> tuple[Mend, ...]:
    """What a remedy takes, from the likeliest suspect that it cures; none for "nothing wrong"."""
    views = (view for view in advice.suspects if " + ".join(view.things) == remedy)
    found = next(views, None)
    return tuple(_mend(machine, name) for name in found.suspect.faults) if found else ()


def _mend(machine: Machine, name: str) -> Mend:
    fault, what = machine.faults[name], mend_of(machine, name)
    zone = machine.zones[fault.zone]
    cover = f"{zone.title}: {zone.open_minutes:.0f} min to open, {zone.close_minutes:.0f} min to close"
    return Mend(
        title=machine.title_of(what.thing),
        says=fault.says,
        mend=what.says,
        price=f"{what.price:.0f} {machine.currency}" if what.price else "no part needed",
        minutes=f"{what.minutes:.0f} min once it is open",
        zone=cover if zone.open_minutes or zone.close_minutes else zone.title,
    )


def _conflicts(machine: Machine, advice: Advice, entries: tuple[EntryRecord, ...]) -> tuple[Conflict, ...]:
    said: Mapping[str, list[int]] = {words: [] for words in advice.conflicts}
    for entry in entries:
        if entry.stands and isinstance(entry.what, Seen | Reading):
            said.get(in_words(machine, entry.what), []).append(entry.number)
    return tuple(Conflict(words, tuple(numbers)) for words, numbers in said.items())


def _line(view: SuspectView) -> SuspectLine:
    return SuspectLine(
        says=view.says,
        share=show_share(view.share),
        value=view.share,
        fits=view.consistent,
        things=", ".join(view.things),
        reasons=tuple((str(reason), reason.supports) for reason in view.reasons),
    )

"""The few words that pages add of their own: levels as answers, entries as log lines, the clock on the wall."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from halfsplit.call import in_words, title_of
from halfsplit.desk.records.entries import CannotReach, Changed, EntryRecord, SetTo, Skipped, TakenBack, What
from halfsplit.techsheet import Machine
from halfsplit.trade import LEVELS, MODES, Level, Mode, Observer, Reading, Seen
from halfsplit.units import METER_MODES, show_reading

LEVEL_WORDS: dict[Level, str] = dict(zip(LEVELS, ("No", "Weakly", "Yes", "Too much"), strict=True))
"""Every function asks "does it …?", so a level is an answer."""
MODE_WORDS: dict[Mode, str] = {mode: METER_MODES[mode].button for mode in MODES}
UNIT_WORDS: dict[Mode, str] = {mode: METER_MODES[mode].takes for mode in MODES}
OBSERVER_WORDS: dict[Observer, str] = {"technician": "I saw it", "customer": "Customer says"}
ENDING_WORDS = {
    "": "Not weighed yet",
    "keep looking": "Looking",
    "one part": "Found",
    "group": "Down to a few",
    "nothing wrong": "Nothing wrong",
    "nothing fits": "Nothing fits",
}


def entry_says(machine: Machine, what: What, others: Mapping[int, EntryRecord]) -> str:
    """An entry as a log line."""
    match what:
        case Seen() | Reading():
            return in_words(machine, what)
        case Skipped():
            return f"Skipped: {title_of(machine, what.action)} ({machine.setups[what.action.setup].says})"
        case CannotReach():
            return f"Cannot reach {what.point}"
        case Changed():
            return f"Changed: {machine.title_of(what.thing)}"
        case SetTo():
            return f"{what.setting.capitalize()}: {what.position}"
        case TakenBack():
            word, target = _reversal(what, others)
            return f"{word}: {entry_says(machine, target.what, others)}"


def in_short(machine: Machine, entry: EntryRecord, others: Mapping[int, EntryRecord]) -> str:
    """An entry in one short line, what was found first: on a narrow screen the end is cut off."""
    match entry.what:
        case Seen(function=function, level=level):
            return f"{LEVEL_WORDS[level]}: {machine.functions[function].ask}"
        case Reading(points=(a, b), mode=mode, value=value):
            at_plug = METER_MODES[mode].where == "plug"
            return f"{show_reading(value, mode)}: {'at the plug' if at_plug else f'{a} to {b}'}"
        case TakenBack():
            word, target = _reversal(entry.what, others)
            return f"{word}: {in_short(machine, target, others)}"
        case _:
            return entry_says(machine, entry.what, others)


def _reversal(what: TakenBack, others: Mapping[int, EntryRecord]) -> tuple[str, EntryRecord]:
    """What a taking back amounts to in the end, and the entry it is about: one of a taking back puts back."""
    target, word = others[what.entry], "Taken back"
    while isinstance(target.what, TakenBack):
        target, word = others[target.what.entry], "Put back" if word == "Taken back" else "Taken back"
    return word, target


def clock(moment: datetime) -> str:
    """Hour and minute where this machine stands."""
    return f"{moment.astimezone():%H:%M}"


def day_and_clock(moment: datetime) -> str:
    """Day, month, hour and minute where this machine stands."""
    local = moment.astimezone()
    return f"{local.day} {local:%b %Y, %H:%M}"


def signal(caution: str) -> tuple[str, str]:
    """The signal word of a caution (ANSI Z535.6: DANGER, WARNING, CAUTION) and what it says."""
    word, _, text = caution.partition(": ")
    return word, f"{text[:1].upper()}{text[1:]}"

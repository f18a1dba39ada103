"""What was entered: the list of functions with what is known of each, and the log with its take-backs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from halfsplit.desk.pages.words import LEVEL_WORDS, OBSERVER_WORDS, clock, entry_says, in_short
from halfsplit.desk.records.entries import EntryRecord, SetTo, TakenBack
from halfsplit.techsheet import Machine
from halfsplit.trade import Observer, Seen


@dataclass(frozen=True, slots=True)
class Mark:
    """What was entered of a function: number of the entry, who says so, and the answer."""

    number: int
    by: str
    word: str


@dataclass(frozen=True, slots=True)
class FunctionLine:
    """One function: its question, the setup it is asked in, buttons (value, word, pressed), and what was entered."""

    slug: str
    ask: str
    setup: str
    buttons: tuple[tuple[str, str, bool], ...]
    marks: tuple[Mark, ...]
    just_written: bool


@dataclass(frozen=True, slots=True)
class LogLine:
    """One entry of the log.

    Attributes:
        undo: Number of the entry to take back: this one, or the one that took it back; 0 if there is none.
        word: What that is called.
        reversal: Whether this entry only takes another one back.
    """

    number: int
    clock: str
    says: str
    stands: bool
    undo: int
    word: str
    reversal: bool


@dataclass(frozen=True, slots=True)
class SettingLine:
    """Something that holds for the whole call: its positions, and which one it is in."""

    name: str
    positions: tuple[tuple[str, bool], ...]


@dataclass(frozen=True, slots=True)
class DoneLine:
    """The entry just written, in short; the entry to take back if it was a mistake (0 if none), and the word for it."""

    says: str
    undo: int
    word: str


def done_line(machine: Machine, entries: tuple[EntryRecord, ...], number: int) -> DoneLine | None:
    """The entry with this number, as the page acknowledges it; None if the call has none."""
    others = {entry.number: entry for entry in entries}
    line = next((line for line in log_lines(machine, entries) if line.number == number), None)
    return DoneLine(in_short(machine, others[number], others), line.undo, line.word) if line else None


def function_lines(
    machine: Machine, entries: tuple[EntryRecord, ...], by: Observer, done: int
) -> tuple[FunctionLine, ...]:
    """Every function of the machine, in the sheet's order."""
    seen = [(entry.number, entry.what) for entry in entries if entry.stands and isinstance(entry.what, Seen)]
    return tuple(
        _function(machine, name, [(n, what) for n, what in seen if what.function == name], by, done)
        for name in machine.functions
    )


def _function(machine: Machine, name: str, known: list[tuple[int, Seen]], by: Observer, done: int) -> FunctionLine:
    function = machine.functions[name]
    pressed = {what.level for _, what in known if what.by == by and what.setup == function.setup}
    return FunctionLine(
        slug="-".join(name.split()),
        ask=function.ask,
        setup=machine.setups[function.setup].says,
        buttons=tuple((f"{level}/{name}", word, level in pressed) for level, word in LEVEL_WORDS.items()),
        marks=tuple(Mark(number, OBSERVER_WORDS[what.by], LEVEL_WORDS[what.level]) for number, what in known),
        just_written=done in {number for number, _ in known},
    )


def log_lines(machine: Machine, entries: tuple[EntryRecord, ...]) -> tuple[LogLine, ...]:
    """Everything entered, in order."""
    others = {entry.number: entry for entry in entries}
    undone_by = {
        entry.what.entry: entry.number for entry in entries if entry.stands and isinstance(entry.what, TakenBack)
    }
    return tuple(_log_line(machine, entry, others, undone_by) for entry in entries)


def _log_line(
    machine: Machine, entry: EntryRecord, others: Mapping[int, EntryRecord], undone_by: Mapping[int, int]
) -> LogLine:
    reversal = isinstance(entry.what, TakenBack)
    undo = entry.number if entry.stands else undone_by.get(entry.number, 0)
    return LogLine(
        number=entry.number,
        clock=clock(entry.made),
        says=entry_says(machine, entry.what, others),
        stands=entry.stands,
        undo=0 if isinstance(entry.what, SetTo) else undo,
        word="Take back" if entry.stands and not reversal else "Put back",
        reversal=reversal,
    )


def setting_lines(machine: Machine, entries: tuple[EntryRecord, ...]) -> tuple[SettingLine, ...]:
    """What holds for the whole call, as it stands."""
    now = {
        entry.what.setting: entry.what.position for entry in entries if entry.stands and isinstance(entry.what, SetTo)
    }
    return tuple(
        SettingLine(name, tuple((position, now.get(name) == position) for position in machine.network.variables[name]))
        for name in machine.per_call
    )

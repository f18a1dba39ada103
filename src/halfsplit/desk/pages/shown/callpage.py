"""The whole page of a call, put together."""

from __future__ import annotations

from dataclasses import dataclass, replace

from halfsplit.call import LIVE, Advice, machine_for
from halfsplit.desk.pages.asked import Asked, Refused
from halfsplit.desk.pages.shown.check import CheckShown, check_shown
from halfsplit.desk.pages.shown.entered import (
    FunctionLine,
    LogLine,
    SettingLine,
    function_lines,
    log_lines,
    setting_lines,
)
from halfsplit.desk.pages.shown.standing import StandingShown, standing_shown
from halfsplit.desk.pages.words import MODE_WORDS, day_and_clock, signal
from halfsplit.desk.records.entries import EntryRecord, SetTo
from halfsplit.desk.records.values import CallRecord, case_of
from halfsplit.errors import HalfsplitError
from halfsplit.techsheet import Machine
from halfsplit.trade import Reading, Seen


@dataclass(frozen=True, slots=True)
class ReadingForm:
    """The form for a reading anywhere: what can be chosen, what is chosen or typed, and the name of a field gone wrong.

    Volts and amps are read live, so it has a caution of its own.
    """

    points: tuple[str, ...]
    modes: tuple[tuple[str, str], ...]
    setups: tuple[tuple[str, str], ...]
    a: str
    b: str
    mode: str
    setup: str
    value: str
    wrong: str
    signal_word: str
    caution: str


@dataclass(frozen=True, slots=True)
class CallPage:
    """Everything that the page of a call shows.

    Attributes:
        last: Number of the last entry; forms send it along, so that a double tap counts once.
        done: The log line of the entry just written, if the address names one.
        standing: None when the engine cannot weigh what was entered; then `trouble` says why.
    """

    number: int
    title: str
    facts: str
    complaint: str
    note: str
    created: str
    last: int
    asked: Asked
    refused: Refused | None
    done: LogLine | None
    standing: StandingShown | None
    trouble: HalfsplitError | None
    check: CheckShown | None
    functions: tuple[FunctionLine, ...]
    told: int
    reading: ReadingForm
    log: tuple[LogLine, ...]
    settings: tuple[SettingLine, ...]


def call_page_of(
    call: CallRecord,
    entries: tuple[EntryRecord, ...],
    answer: Advice | HalfsplitError,
    asked: Asked,
    refused: Refused | None,
) -> CallPage:
    """Put a call's page together from its entries and the answer to them."""
    machine = _machine_with_every_setup(call, entries)
    advice = answer if isinstance(answer, Advice) else None
    functions = function_lines(machine, entries, asked.by, asked.done)
    log = log_lines(machine, entries)
    check = check_shown(machine, advice, asked.check) if advice else None
    return CallPage(
        number=call.number,
        title=call.title,
        facts=", ".join(
            f"{e.what.setting} {e.what.position}" for e in entries if e.stands and isinstance(e.what, SetTo)
        ),
        complaint=call.complaint_says,
        note=call.note,
        created=day_and_clock(call.created),
        last=max((entry.number for entry in entries), default=0),
        asked=asked,
        refused=refused,
        done=next((line for line in log if line.number == asked.done), None),
        standing=standing_shown(machine, advice, entries) if advice else None,
        trouble=answer if isinstance(answer, HalfsplitError) else None,
        check=check,
        functions=functions,
        told=sum(bool(function.marks) for function in functions),
        reading=_reading_form(machine, check, refused),
        log=log,
        settings=setting_lines(machine, entries),
    )


def _machine_with_every_setup(call: CallRecord, entries: tuple[EntryRecord, ...]) -> Machine:
    """The machine as it stands on the call, with the setups that were typed for entries since taken back as well."""
    ever = [replace(entry, stands=entry.stands or isinstance(entry.what, Reading | Seen)) for entry in entries]
    return machine_for(call.machine, case_of(ever))


def _reading_form(machine: Machine, check: CheckShown | None, refused: Refused | None) -> ReadingForm:
    """Begin where the proposed check stands; keep what was typed when it was refused here."""
    begin = dict(check.fields) if check and not check.levels else {"mode": "ohms"}
    begin = {"mode": begin["mode"], "setup": begin.get("setup", "")}
    here = refused if refused and refused.at == "reading" else None
    typed = here.typed if here else begin
    signal_word, caution = signal(LIVE)
    return ReadingForm(
        points=machine.points,
        modes=tuple(MODE_WORDS.items()),
        setups=tuple((name, setup.says) for name, setup in machine.setups.items()),
        a=typed.get("a", ""),
        b=typed.get("b", ""),
        mode=typed.get("mode", ""),
        setup=typed.get("setup", ""),
        value=typed.get("value", ""),
        wrong=here.field if here else "",
        signal_word=signal_word,
        caution=caution,
    )

"""The whole page of a call, put together."""

from __future__ import annotations

from dataclasses import dataclass, replace

from halfsplit.call import Advice, machine_for
from halfsplit.desk.pages.asked import Asked, Refused
from halfsplit.desk.pages.shown.check import CheckShown, check_shown
from halfsplit.desk.pages.shown.entered import (
    DoneLine,
    FunctionLine,
    LogLine,
    SettingLine,
    done_line,
    function_lines,
    log_lines,
    setting_lines,
)
from halfsplit.desk.pages.shown.readingform import ReadingForm, reading_form
from halfsplit.desk.pages.shown.standing import StandingShown, standing_shown
from halfsplit.desk.pages.words import day_and_clock
from halfsplit.desk.records.entries import EntryRecord
from halfsplit.desk.records.values import CallRecord, case_of
from halfsplit.errors import HalfsplitError
from halfsplit.techsheet import Machine
from halfsplit.trade import Reading, Seen


@dataclass(frozen=True, slots=True)
class CallPage:
    """Everything that the page of a call shows.

    Attributes:
        last: Number of the last entry; forms send it along, so that a double tap counts once.
        done: The entry just written, if the address names one.
        standing: None when the engine cannot weigh what was entered; then `trouble` says why.
        told: How many functions something is known of.
    """

    number: int
    title: str
    complaint: str
    note: str
    created: str
    last: int
    asked: Asked
    refused: Refused | None
    done: DoneLine | None
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
    check = check_shown(machine, advice, asked.check) if advice else None
    refused = _beside_its_own_points(refused, check)
    return CallPage(
        number=call.number,
        title=call.title,
        complaint=call.complaint_says,
        note=call.note,
        created=day_and_clock(call.created),
        last=max((entry.number for entry in entries), default=0),
        asked=replace(asked, at=refused.at) if refused else asked,
        refused=refused,
        done=done_line(machine, entries, asked.done),
        standing=standing_shown(machine, advice, entries) if advice else None,
        trouble=answer if isinstance(answer, HalfsplitError) else None,
        check=check,
        functions=functions,
        told=sum(bool(function.marks) for function in functions),
        reading=reading_form(machine, entries, check, refused),
        log=log_lines(machine, entries),
        settings=setting_lines(machine, entries),
    )


def _beside_its_own_points(refused: Refused | None, check: CheckShown | None) -> Refused | None:
    """A reading refused under a check that is not the one shown any more goes to the form that shows its points."""
    if refused is None or refused.at != "now" or "value" not in refused.typed:
        return refused
    shown = dict(check.fields) if check else {}
    same = all(refused.typed.get(name) == value for name, value in shown.items()) and "a" in shown
    return refused if same else replace(refused, at="reading")


def _machine_with_every_setup(call: CallRecord, entries: tuple[EntryRecord, ...]) -> Machine:
    """The machine as it stands on the call, with the setups that were typed for entries since taken back as well."""
    ever = [replace(entry, stands=entry.stands or isinstance(entry.what, Reading | Seen)) for entry in entries]
    return machine_for(call.machine, case_of(ever))

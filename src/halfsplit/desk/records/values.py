"""What both faces see of the records: calls, summaries, the case that entries make. No database here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from halfsplit.call import Case
from halfsplit.desk.records.entries import CannotReach, Changed, EntryRecord, SetTo, Skipped
from halfsplit.errors import HalfsplitError
from halfsplit.techsheet import Machine, machine_from_text
from halfsplit.trade import Reading, Seen


class NoSuchRecordError(HalfsplitError):
    """A call or an entry that is not in the records."""


class RecordsError(HalfsplitError):
    """The records cannot be read or written: another program holds them, or the disk is full."""


@dataclass(frozen=True, slots=True)
class CallRecord:
    """A call as it was started; it never changes.

    Attributes:
        number: Counts up from 1.
        created: When, with its time zone.
        sheet: Name of the sheet.
        title: The machine in words.
        file: Name of the file the sheet came from.
        text: The sheet as it was then.
        complaint: Name of the complaint on the sheet; empty for something else.
        complaint_says: The same in the customer's words.
        note: What helps to find the call again.
    """

    number: int
    created: datetime
    sheet: str
    title: str
    file: str
    text: str
    complaint: str
    complaint_says: str
    note: str

    @property
    def machine(self) -> Machine:
        """The machine of the sheet as it was then.

        Raises:
            SheetError: This version of halfsplit cannot read it any more.
        """
        return machine_from_text(self.text, self.file)


@dataclass(frozen=True, slots=True)
class SheetText:
    """One saved version of a sheet written here.

    Attributes:
        sheet: Number of the sheet.
        version: Counts up from 1.
        made: When, with its time zone.
        title: The machine in words, as far as the text tells.
        mistakes: How many stood in it when it was saved; 0 means that it can be used.
        text: The text.
    """

    sheet: int
    version: int
    made: datetime
    title: str
    mistakes: int
    text: str

    @property
    def file(self) -> str:
        """What a call that uses it calls it."""
        return f"own sheet {self.sheet}, version {self.version}"


@dataclass(frozen=True, slots=True)
class CallSummary:
    """A call on the list: where it stood when last weighed, and whether something was entered since."""

    number: int
    created: datetime
    title: str
    complaint_says: str
    note: str
    ending: str
    says: str
    newer_entries: bool


def case_of(found: Iterable[EntryRecord]) -> Case:
    """The case that a call's entries make: what stands, in order."""
    settings: dict[str, str] = {}
    case = Case()
    for what in (entry.what for entry in found if entry.stands):
        if isinstance(what, Seen | Reading):
            case = case.plus(what)
        elif isinstance(what, Skipped):
            case = case.skip(what.action)
        elif isinstance(what, CannotReach):
            case = case.cannot_reach(what.point)
        elif isinstance(what, Changed) and what.thing not in case.changed:
            case = case.change(what.thing)
        elif isinstance(what, SetTo):
            settings[what.setting] = what.position
    return replace(case, fixed=tuple(settings.items()))

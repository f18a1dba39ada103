"""Write and read calls. Entries are only ever added, and are on the disk when a function here returns.

Both faces use these functions and see these values; nobody else touches the tables.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from django.db.models import Max
from django.utils import timezone

from halfsplit.call import told
from halfsplit.desk.records.entries import EntryRecord, SetTo, TakenBack, What, read, standing_numbers, written
from halfsplit.desk.records.models import Call, Entry, Standing
from halfsplit.desk.records.safely import at_once, plainly
from halfsplit.desk.records.values import CallRecord, CallSummary, NoSuchRecordError
from halfsplit.errors import InputError
from halfsplit.techsheet import Machine, did_you_mean, library_names, machine_from_text
from halfsplit.trade import Seen

_NOTE_LENGTH = 200


def start_call(
    text: str, file: str, settings: Mapping[str, str] | None = None, complaint: str = "", note: str = ""
) -> CallRecord:
    """Start a call: the sheet is kept as it is now, and what the complaint means becomes the first entries.

    Args:
        text: The sheet's text.
        file: Name of the file it came from.
        settings: Position of each setting that holds for the whole call; those left out stand at the sheet's first.
        complaint: Name of a complaint on the sheet; empty for something else.
        note: What helps to find the call again.

    Raises:
        SheetError: The sheet cannot be used.
        InputError: A setting, position or complaint that is not on the sheet, or a note that is too long.
        RecordsError: Nothing was written.
    """
    machine = machine_from_text(text, file)
    first: list[What] = [*_settings(machine, settings or {}), *_told(machine, complaint)]
    if len(note.strip()) > _NOTE_LENGTH:
        raise InputError("That note is too long.", f"Keep it under {_NOTE_LENGTH} letters.")
    now = timezone.now()
    with at_once():
        row = Call.objects.create(
            created=now,
            sheet=machine.name,
            title=machine.title,
            file=file,
            text=text,
            complaint=complaint,
            complaint_says=machine.complaints[complaint].says if complaint else "",
            note=note.strip(),
        )
        for what in first:
            _append(row.pk, what, now)
    return _call_record(row)


def find_call(number: int) -> CallRecord:
    """A call by its number.

    Raises:
        NoSuchRecordError: There is none.
    """
    with plainly():
        row = Call.objects.filter(pk=number).first()
    if row is None:
        raise NoSuchRecordError(f"There is no call {number}.", "Look for it in the list of calls.")
    return _call_record(row)


def calls(before: int | None = None, most: int = 50) -> tuple[CallSummary, ...]:
    """Calls, newest first: at most `most`, and only those with a number under `before` if it is given."""
    rows = Call.objects.select_related("standing").annotate(last=Max("entries__id")).defer("text").order_by("-id")
    if before is not None:
        rows = rows.filter(id__lt=before)
    with plainly():
        return tuple(_summary(row, row.last or 0) for row in rows[:most])


def sheets_in_use(most: int = 50) -> tuple[str, ...]:
    """Built-in sheets of the last calls, the one used last first."""
    with plainly():
        files = Call.objects.order_by("-id").values_list("file", flat=True)[:most]
        found = dict.fromkeys(file.removesuffix(".yaml") for file in files)
    return tuple(name for name in found if name in library_names())


def entries(call: int) -> tuple[EntryRecord, ...]:
    """Everything entered on a call, in order, with what was taken back."""
    with plainly():
        rows = [
            (row.pk, row.made, read(row.kind, row.payload)) for row in Entry.objects.filter(call=call).order_by("id")
        ]
    standing = standing_numbers((number, what) for number, _, what in rows)
    return tuple(EntryRecord(number, made, what, number in standing) for number, made, what in rows)


def add_entry(call: int, what: What, after: int | None = None, instead_of: tuple[int, ...] = ()) -> EntryRecord:
    """Add an entry to a call. When this returns it is on the disk.

    Args:
        call: Number of the call.
        what: What was seen, read, skipped, out of reach, set, or taken back.
        after: Number of the last entry that whoever sends this had before them. If the very same was added since and
            still stands, that one is returned: a form sent twice by a double tap counts once.
        instead_of: Entries that this one replaces: they are taken back in the same breath.

    Raises:
        NoSuchRecordError: No such call, or no such entry to take back on it.
        RecordsError: Nothing was written.
    """
    with at_once():
        if not Call.objects.filter(pk=call).exists():
            raise NoSuchRecordError(f"There is no call {call}.", "Look for it in the list of calls.")
        known = entries(call)
        if (same := _already(known, what, after)) is not None:
            return same
        for number in instead_of:
            add_entry(call, TakenBack(number))
        return _append(call, what, timezone.now())


def remember_standing(call: int, ending: str, says: str, weighed_to: int) -> None:
    """Remember where a call stands for the list of calls; writes only what is new."""
    now = {"ending": ending, "says": says, "weighed_to": weighed_to}
    with plainly():
        if Standing.objects.filter(pk=call, **now).exists():
            return
    with at_once():
        Standing.objects.update_or_create(call_id=call, defaults=now)


def _settings(machine: Machine, chosen: Mapping[str, str]) -> tuple[SetTo, ...]:
    for name in chosen:
        if name not in machine.per_call:
            raise InputError(f"{name!r} is not set once for a whole call.", did_you_mean(name, machine.per_call))
    found = []
    for name in machine.per_call:
        positions = machine.network.variables[name]
        position = chosen.get(name, positions[0])
        if position not in positions:
            raise InputError(f"{name!r} has no position {position!r}.", did_you_mean(position, positions))
        found.append(SetTo(name, position))
    return tuple(found)


def _told(machine: Machine, complaint: str) -> tuple[Seen, ...]:
    if complaint and complaint not in machine.complaints:
        raise InputError(f"There is no complaint {complaint!r}.", did_you_mean(complaint, machine.complaints))
    return told(machine, complaint) if complaint else ()


def _already(known: tuple[EntryRecord, ...], what: What, after: int | None) -> EntryRecord | None:
    """The entry that makes adding `what` needless, if there is one."""
    if isinstance(what, TakenBack):
        if what.entry not in {entry.number for entry in known}:
            raise NoSuchRecordError("That entry is not on this call.", "Look at what was entered, further down.")
        return next((entry for entry in known if entry.stands and entry.what == what), None)
    if after is None:
        return None
    return next((entry for entry in known if entry.number > after and entry.stands and entry.what == what), None)


def _append(call: int, what: What, now: datetime) -> EntryRecord:
    kind, payload = written(what)
    row = Entry.objects.create(call_id=call, made=now, kind=kind, payload=payload)
    return EntryRecord(row.pk, now, what, True)


def _call_record(row: Call) -> CallRecord:
    return CallRecord(
        row.pk, row.created, row.sheet, row.title, row.file, row.text, row.complaint, row.complaint_says, row.note
    )


def _summary(row: Call, last: int) -> CallSummary:
    standing: Standing | None = getattr(row, "standing", None)
    ending, says, weighed_to = (standing.ending, standing.says, standing.weighed_to) if standing else ("", "", 0)
    return CallSummary(
        row.pk,
        row.created,
        row.title,
        row.complaint_says,
        row.note,
        ending,
        says,
        standing is None or last > weighed_to,
    )

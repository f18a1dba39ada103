"""Write and read sheets written here. A version is only ever added; a call keeps the text of the one it began with."""

from __future__ import annotations

from django.db.models import Max
from django.utils import timezone

from halfsplit.desk.records.models import OwnSheet, SheetVersion
from halfsplit.desk.records.safely import at_once, plainly
from halfsplit.desk.records.values import NoSuchRecordError, SheetText
from halfsplit.techsheet import read_document, read_sheet

_NO_TITLE = "A sheet without a title"


def begin_sheet(text: str) -> SheetText:
    """A new sheet with its first version.

    Raises:
        RecordsError: Nothing was written.
    """
    with at_once():
        sheet = OwnSheet.objects.create(created=timezone.now())
        return _add(sheet.pk, text)


def save_version(sheet: int, text: str) -> SheetText:
    """A further version of a sheet, sound or not: what was typed is kept. The same text again adds nothing.

    Raises:
        NoSuchRecordError: There is no such sheet.
        RecordsError: Nothing was written.
    """
    with at_once():
        last = find_version(sheet)
        return last if last.text == text else _add(sheet, text)


def find_version(sheet: int, version: int | None = None) -> SheetText:
    """A version of a sheet, the last one if none is named.

    Raises:
        NoSuchRecordError: There is no such sheet or version.
    """
    rows = SheetVersion.objects.filter(sheet=sheet).order_by("-number")
    if version is not None:
        rows = rows.filter(number=version)
    with plainly():
        row = rows.first()
    if row is None:
        raise NoSuchRecordError("There is no such sheet or version.", "Look for it in the list of sheets.")
    return _read(row)


def versions(sheet: int) -> tuple[SheetText, ...]:
    """Every version of a sheet, newest first."""
    with plainly():
        return tuple(_read(row) for row in SheetVersion.objects.filter(sheet=sheet).order_by("-number"))


def own_sheets() -> tuple[SheetText, ...]:
    """The last version of every sheet, the sheet saved last first."""
    with plainly():
        last = SheetVersion.objects.values("sheet").annotate(last=Max("id")).values("last")
        return tuple(_read(row) for row in SheetVersion.objects.filter(id__in=last).order_by("-id"))


def _add(sheet: int, text: str) -> SheetText:
    title, mistakes = _told_of(text)
    number = (SheetVersion.objects.filter(sheet=sheet).aggregate(last=Max("number"))["last"] or 0) + 1
    row = SheetVersion.objects.create(
        sheet_id=sheet, number=number, made=timezone.now(), title=title, mistakes=mistakes, text=text
    )
    return _read(row)


def _told_of(text: str) -> tuple[str, int]:
    """Title and number of mistakes; a text that cannot be read has a title all the same."""
    machine, problems = read_sheet(text, "")
    if machine is not None:
        return machine.title, 0
    document, _ = read_document(text, "")
    title = document.tree.get("title") if document is not None else None
    return title if isinstance(title, str) and title else _NO_TITLE, len(problems)


def _read(row: SheetVersion) -> SheetText:
    return SheetText(row.sheet_id, row.number, row.made, row.title, row.mistakes, row.text)

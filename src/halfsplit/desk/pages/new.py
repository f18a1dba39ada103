"""A new call: the machine, what holds for the whole call, and what the customer says. One page, one submit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, QueryDict
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from halfsplit.call import one_of
from halfsplit.desk.pages.asked import Refused, refused
from halfsplit.desk.records import store
from halfsplit.desk.records.values import CallRecord
from halfsplit.errors import InputError
from halfsplit.techsheet import Machine, library_names, load_machine, sheet_text

SOMETHING_ELSE = "something else"


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to tap: value, words, and whether it is chosen."""

    value: str
    words: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Setting:
    """Something that holds for the whole call."""

    name: str
    field: str
    positions: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class SheetChoice:
    """One machine with its settings and complaints; its fields carry its name."""

    machine: Choice
    about: str
    settings: tuple[Setting, ...]
    complaint_field: str
    complaints: tuple[Choice, ...]


@require_http_methods(["GET", "HEAD", "POST"])
def new_call(request: HttpRequest) -> HttpResponse:
    problem: Refused | None = None
    if request.method == "POST":
        try:
            return HttpResponseRedirect(reverse("call", args=[_start(request.POST).number]))
        except InputError as error:
            problem = refused(error, request.POST)
    sheets = _sheets(problem.typed if problem else {})
    context = {"sheets": sheets, "refused": problem}
    return render(request, "desk/new.html", context, status=422 if problem else 200)


def _start(fields: QueryDict) -> CallRecord:
    sheet = one_of(fields.get("sheet", ""), library_names(), "sheet")
    complaint = fields.get(_complaint_field(sheet), "")
    if not complaint:
        raise InputError("What does the customer say?", "Tap one of the sentences, or “Something else”.")
    settings = {
        name: fields.get(_setting_field(sheet, name), "")
        for name in load_machine(sheet).per_call
        if _setting_field(sheet, name) in fields
    }
    text, file = sheet_text(sheet)
    told = "" if complaint == SOMETHING_ELSE else complaint
    return store.start_call(text, file, settings, told, fields.get("note", ""))


def _sheets(typed: Mapping[str, str]) -> tuple[SheetChoice, ...]:
    names = library_names()
    chosen = typed.get("sheet", names[0] if names else "")
    return tuple(_sheet(name, load_machine(name), name == chosen, typed) for name in names)


def _sheet(name: str, machine: Machine, chosen: bool, typed: Mapping[str, str]) -> SheetChoice:
    field = _complaint_field(name)
    says = {complaint.name: complaint.says for complaint in machine.complaints.values()}
    says[SOMETHING_ELSE] = "Something else"
    return SheetChoice(
        machine=Choice(name, machine.title, chosen),
        about=machine.about,
        settings=tuple(_setting(name, machine, setting, typed) for setting in machine.per_call),
        complaint_field=field,
        complaints=tuple(Choice(value, words, typed.get(field) == value) for value, words in says.items()),
    )


def _setting(sheet: str, machine: Machine, name: str, typed: Mapping[str, str]) -> Setting:
    field = _setting_field(sheet, name)
    positions = machine.network.variables[name]
    chosen = typed.get(field, positions[0])
    return Setting(name, field, tuple(Choice(position, position, position == chosen) for position in positions))


def _complaint_field(sheet: str) -> str:
    return f"complaint:{sheet}"


def _setting_field(sheet: str, setting: str) -> str:
    return f"set:{sheet}:{setting}"

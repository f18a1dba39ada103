"""Sheets written here: the list, a beginning from a skeleton or a built-in sheet, and the editor with its versions."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from halfsplit.desk.guard.headers import allow_own_script
from halfsplit.desk.pages.own import typed_text
from halfsplit.desk.pages.shown.sheetpage import looked_over, sheet_rows, version_rows
from halfsplit.desk.records import sheets, store
from halfsplit.errors import InputError
from halfsplit.techsheet import FAMILIES, library_names, load_machine, sheet_text, skeleton


@require_safe
def sheets_page(request: HttpRequest) -> HttpResponse:
    return render(request, "desk/sheets.html", {"sheets": sheet_rows(sheets.own_sheets())})


@require_http_methods(["GET", "HEAD", "POST"])
def begin(request: HttpRequest) -> HttpResponse:
    if request.method == "POST":
        made = sheets.begin_sheet(_beginning(request.POST.get("from", "")))
        return HttpResponseRedirect(reverse("sheet", args=[made.sheet]))
    built_in = [(name, load_machine(name).title) for name in library_names()]
    return render(request, "desk/begin.html", {"families": FAMILIES, "built_in": built_in})


def _beginning(chosen: str) -> str:
    """Text of a skeleton (`family NAME`) or of a built-in sheet (`sheet NAME`).

    Raises:
        InputError: Neither.
    """
    what, _, name = chosen.partition(" ")
    if what == "sheet" and name in library_names():
        return sheet_text(name)[0]
    if what == "family":
        return skeleton(name)
    raise InputError("Nothing was chosen to begin with.", "Tap a family or a built-in sheet.")


@require_http_methods(["GET", "HEAD", "POST"])
def editor(request: HttpRequest, number: int) -> HttpResponse:
    if request.method == "POST":
        saved = sheets.save_version(number, typed_text(request))
        return HttpResponseRedirect(f"{reverse('sheet', args=[number])}?saved={saved.version}#looked")
    wanted = request.GET.get("version", "")
    shown = sheets.find_version(number, int(wanted) if wanted.isdecimal() else None)
    context = {
        "shown": shown,
        "versions": version_rows(sheets.versions(number), shown.version),
        "looked": looked_over(shown.text, shown.file),
        "saved": request.GET.get("saved", ""),
    }
    return allow_own_script(render(request, "desk/sheet.html", context))


@require_POST
def look(request: HttpRequest) -> HttpResponse:
    """What is said of a text that is not saved: for the page while someone types."""
    return render(request, "desk/parts/looked.html", {"looked": looked_over(typed_text(request), "")})


@require_POST
def call_with(request: HttpRequest, number: int) -> HttpResponse:
    wanted = request.POST.get("version", "")
    chosen = sheets.find_version(number, int(wanted) if wanted.isdecimal() else None)
    call = store.start_call(chosen.text, chosen.file)
    return HttpResponseRedirect(reverse("call", args=[call.number]))

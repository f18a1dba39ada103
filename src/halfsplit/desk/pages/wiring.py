"""The whole wiring of a call or of a built-in sheet: a state chosen, two terminals tapped, what a meter would read."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from halfsplit.desk import answers
from halfsplit.desk.pages.shown.wiringpage import Asked, Known, of_check, wiring_of
from halfsplit.desk.records import store
from halfsplit.desk.records.values import NoSuchRecordError, case_of
from halfsplit.techsheet import library_names, load_machine


@require_safe
def of_call(request: HttpRequest, number: int) -> HttpResponse:
    call = store.find_call(number)
    answer, marks = answers.answer_and_marks(call.machine, case_of(store.entries(number)))
    leading = tuple(view.suspect for view in answer.suspects if view.things)
    asked = _asked(request, reverse("call_wiring", args=[number]))
    if answer.next is not None and not (asked.setup or asked.a):
        asked = of_check(asked, answer.next.action)
    page = wiring_of(call.machine, asked, Known(leading, *marks))
    return render(request, "desk/wiring.html", {"page": page, "back": reverse("call", args=[number])})


@require_safe
def of_sheet(request: HttpRequest, sheet: str) -> HttpResponse:
    if sheet not in library_names():
        raise NoSuchRecordError("There is no such built-in sheet.", "Choose one when you begin a call.")
    page = wiring_of(load_machine(sheet), _asked(request, reverse("sheet_wiring", args=[sheet])), Known())
    return render(request, "desk/wiring.html", {"page": page, "back": reverse("new")})


def _asked(request: HttpRequest, address: str) -> Asked:
    return Asked(address, *(request.GET.get(name, "") for name in ("setup", "a", "b")))

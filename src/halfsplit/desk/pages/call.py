"""The page of a call: reads the records, asks the engine once, renders."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from halfsplit.call import Advice
from halfsplit.desk import answers
from halfsplit.desk.pages.asked import Asked, Refused, asked
from halfsplit.desk.pages.shown.callpage import call_page_of
from halfsplit.desk.records import store
from halfsplit.desk.records.entries import EntryRecord
from halfsplit.desk.records.values import CallRecord, case_of
from halfsplit.errors import InputError


@require_safe
def call_page(request: HttpRequest, number: int) -> HttpResponse:
    return show_call(request, store.find_call(number), asked(request.GET))


def show_call(request: HttpRequest, call: CallRecord, view: Asked, refused: Refused | None = None) -> HttpResponse:
    """Render a call; with a refusal, what was typed is kept and the answer is 422."""
    entries = store.entries(call.number)
    answer = _answer(call, entries)
    page = call_page_of(call, entries, answer, view, refused)
    if isinstance(answer, Advice):
        store.remember_standing(call.number, answer.ending, answer.says, page.last)
    return render(request, "desk/call.html", {"page": page}, status=422 if refused else 200)


def _answer(call: CallRecord, entries: tuple[EntryRecord, ...]) -> Advice | InputError:
    """The engine's answer, or its sentence when it cannot weigh what an older version took: the log must still open."""
    try:
        return answers.answer(call.machine, case_of(entries))
    except InputError as error:
        return error

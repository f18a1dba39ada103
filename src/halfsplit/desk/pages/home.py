"""The list of calls."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from halfsplit.desk.pages.words import ENDING_WORDS, day_and_clock
from halfsplit.desk.records import store
from halfsplit.desk.records.values import CallSummary

_MOST = 50


@dataclass(frozen=True, slots=True)
class CallLine:
    """One call of the list, in words."""

    number: int
    title: str
    complaint: str
    note: str
    created: str
    ending: str
    standing: str
    says: str


@require_safe
def calls_page(request: HttpRequest) -> HttpResponse:
    before = request.GET.get("before", "")
    found = store.calls(int(before) if before.isascii() and before.isdigit() and len(before) < 19 else None, _MOST)
    older = found[-1].number if len(found) == _MOST else 0
    return render(request, "desk/home.html", {"calls": [_line(call) for call in found], "older": older})


def _line(call: CallSummary) -> CallLine:
    """A call as it stood; when something was entered since, the page does not pretend to know where it stands."""
    ending = "" if call.newer_entries else call.ending
    return CallLine(
        number=call.number,
        title=call.title,
        complaint=call.complaint_says,
        note=call.note,
        created=day_and_clock(call.created),
        ending=ending.replace(" ", "-"),
        standing=ENDING_WORDS[ending],
        says="Open it to see where it stands." if call.newer_entries else call.says,
    )

"""What went wrong, as a plain page with one sentence: what happened and what to do next."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from halfsplit.desk.records.values import NoSuchRecordError, RecordsError
from halfsplit.errors import HalfsplitError, SheetError


class PlainSentences:
    """Errors that no page of its own has to show beside a field."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        if not isinstance(error, HalfsplitError):
            return None
        problems = error.problems if isinstance(error, SheetError) else (error,)
        return render(request, "desk/sorry.html", {"problems": problems}, status=_status(error))


def stale_form(request: HttpRequest, reason: str = "") -> HttpResponse:
    """The form carried no proof that it came from one of our own pages."""
    del reason
    return render(request, "desk/stale.html", status=403)


def _status(error: HalfsplitError) -> int:
    if isinstance(error, NoSuchRecordError):
        return 404
    return 503 if isinstance(error, RecordsError) else 422

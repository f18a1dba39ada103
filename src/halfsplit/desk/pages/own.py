"""A call with a sheet of one's own: pasted or chosen as a file, read, and kept with the call."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from halfsplit.desk.records import store
from halfsplit.errors import Problem, SheetError
from halfsplit.techsheet import MOST_BYTES, text_of

PASTED = "pasted sheet"


@require_http_methods(["GET", "HEAD", "POST"])
def own_sheet(request: HttpRequest) -> HttpResponse:
    problems: tuple[Problem, ...] = ()
    text = ""
    if request.method == "POST":
        try:
            text, file = _sheet_in(request)
            call = store.start_call(text, file)
            return HttpResponseRedirect(reverse("call", args=[call.number]))
        except SheetError as error:
            problems = error.problems
    context = {"problems": problems, "text": text, "too_many": len(problems) > 1}
    return render(request, "desk/own.html", context, status=422 if problems else 200)


def _sheet_in(request: HttpRequest) -> tuple[str, str]:
    """Text and file name of the sheet that was sent.

    Raises:
        SheetError: Nothing was sent, it is too large, or it is not text.
    """
    sent = request.FILES.get("file")
    if sent is not None:
        file = sent.name or PASTED
        return _with_plain_ends(text_of(sent.read(MOST_BYTES + 1), file)), file
    text = typed_text(request)
    if not text.strip():
        raise SheetError((Problem("There is no sheet here.", "Paste its text, or choose its file."),))
    return text, PASTED


def typed_text(request: HttpRequest) -> str:
    """What stands in the form's field for a sheet."""
    return _with_plain_ends(request.POST.get("text", ""))


def _with_plain_ends(text: str) -> str:
    """Lines end as in a file of ours, whatever the browser or another system made of them."""
    return text.replace("\r\n", "\n")

"""A call with a sheet of one's own: pasted or chosen as a file, read, and kept with the call."""

from __future__ import annotations

from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from halfsplit.desk.records import store
from halfsplit.errors import Problem, SheetError
from halfsplit.techsheet import MOST_BYTES

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
        return _file_text(sent), sent.name or PASTED
    text = request.POST.get("text", "").replace("\r\n", "\n")
    if not text.strip():
        raise SheetError((Problem("There is no sheet here.", "Paste its text, or choose its file."),))
    return text, PASTED


def _file_text(sent: UploadedFile[bytes]) -> str:
    name = sent.name or PASTED
    if (sent.size or 0) > MOST_BYTES:
        right = "A sheet is a few pages of text."
        raise SheetError((Problem(f"This file is larger than {MOST_BYTES // 1024} kB.", right, name),))
    try:
        return bytes(sent.read()).decode("utf-8").replace("\r\n", "\n")
    except UnicodeDecodeError:
        raise SheetError((Problem("This is not UTF-8 text.", "Choose the sheet's YAML file.", name),)) from None

"""Style sheets and their versions: a new release must not be shown in an old dress out of a telephone's memory."""

from __future__ import annotations

import hashlib
from functools import cache
from importlib import resources

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from halfsplit.drawing import drawing_css

_WEEK_SECONDS = 7 * 24 * 60 * 60


@require_safe
def drawing_style(request: HttpRequest) -> HttpResponse:
    del request
    headers = {"Cache-Control": f"public, max-age={_WEEK_SECONDS}"}
    return HttpResponse(drawing_css(), content_type="text/css; charset=utf-8", headers=headers)


def versions(request: HttpRequest) -> dict[str, str]:
    """For every template: a few letters that change when a style sheet or the editor's script does."""
    del request
    return {"desk_version": _desk_version(), "drawing_version": _version(drawing_css())}


@cache
def _desk_version() -> str:
    folder = resources.files(__package__) / "static" / "desk"
    return _version("".join((folder / name).read_text(encoding="utf-8") for name in ("desk.css", "editor.js")))


@cache
def _version(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:12]

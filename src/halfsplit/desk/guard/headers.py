"""Headers of every answer: what a browser may load (nothing but our own), and how long we took."""

from __future__ import annotations

import time
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

POLICY = "; ".join(
    (
        "default-src 'none'",
        "style-src 'self'",
        "img-src 'self' data:",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
"""Content Security Policy, level 3. There is no `script-src`: pages carry no script at all, but for the one below."""
_WITH_OWN_SCRIPT = f"{POLICY}; script-src 'self'; connect-src 'self'"
_ALLOWED = "_halfsplit_own_script"


def allow_own_script(response: HttpResponse) -> HttpResponse:
    """Let one page load a script file of ours: the editor of sheets, which tells of mistakes while one types."""
    setattr(response, _ALLOWED, True)
    return response


class Headers:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        started = time.perf_counter()
        response = self.get_response(request)
        allowed = getattr(response, _ALLOWED, False)
        response.headers["Content-Security-Policy"] = _WITH_OWN_SCRIPT if allowed else POLICY
        response.headers["X-Frame-Options"] = "DENY"  # for browsers that do not know frame-ancestors
        # A call is nobody else's business; but going back must work in a basement without a signal.
        response.headers.setdefault("Cache-Control", "private, no-cache")
        response.headers["Server-Timing"] = f"desk;dur={(time.perf_counter() - started) * 1e3:.1f}"
        return response

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
"""Content Security Policy, level 3. There is no `script-src`: pages carry no script at all."""


class Headers:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        started = time.perf_counter()
        response = self.get_response(request)
        response.headers["Content-Security-Policy"] = POLICY
        response.headers["X-Frame-Options"] = "DENY"  # for browsers that do not know frame-ancestors
        # A call is nobody else's business; but going back must work in a basement without a signal.
        response.headers.setdefault("Cache-Control", "private, no-cache")
        response.headers["Server-Timing"] = f"desk;dur={(time.perf_counter() - started) * 1e3:.1f}"
        return response

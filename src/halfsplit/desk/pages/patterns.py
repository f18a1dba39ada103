"""One page with every pattern the desk uses: what to look at after changing the style."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.safestring import mark_safe
from django.views.decorators.http import require_safe

from halfsplit.call import BY_HAND, DEAD, LIVE, LOOKING
from halfsplit.desk.pages.asked import Refused
from halfsplit.desk.pages.words import ENDING_WORDS, LEVEL_WORDS, signal
from halfsplit.drawing import draw_machine
from halfsplit.techsheet import load_machine


@require_safe
def patterns_page(request: HttpRequest) -> HttpResponse:
    context = {
        "signals": [signal(caution) for caution in (LIVE, DEAD, LOOKING, BY_HAND)],
        "endings": [(ending.replace(" ", "-"), words) for ending, words in ENDING_WORDS.items()],
        "levels": list(LEVEL_WORDS.values()),
        "refused": Refused("now", "'banana' is not a quantity.", "Type what the meter shows, as in 0.4, 2.4k or OL."),
        "wiring": mark_safe(draw_machine(load_machine("dryer"))),  # noqa: S308  # `drawing` escapes all text
    }
    return render(request, "desk/patterns.html", context)

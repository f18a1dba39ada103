"""One filter: a number and its unit stay on one line."""

from __future__ import annotations

import re

from django import template
from django.template.defaultfilters import stringfilter

register = template.Library()
_NUMBER_AND_UNIT = re.compile(r"(?<=\d) (?=(?:%|[kM]?Ω|V|A|min|°|USD)(?!\w))")


@register.filter
@stringfilter
def firm(text: str) -> str:
    """Put a no-break space between a number and its unit."""
    return _NUMBER_AND_UNIT.sub("\u00a0", text)

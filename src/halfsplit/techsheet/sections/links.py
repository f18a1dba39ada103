"""Which fault brings another about, as written: `vent:blocked -> thermal cut-off:open, 0.1`."""

from __future__ import annotations

import re
from collections.abc import Mapping

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.machine import Fault, Link
from halfsplit.techsheet.sections.draft import Draft, FollowUpError
from halfsplit.techsheet.words import did_you_mean

_LINK = re.compile(r"(.+?) -> (.+), *(0\.[0-9]{1,4})")


def read_links(draft: Draft, faults: Mapping[str, Fault]) -> tuple[Link, ...]:
    """Every link that can be read; what cannot is noted."""
    found: list[Link] = []
    for index, text in enumerate(draft.form.linked):
        with draft.noting("linked", index):
            found.append(_link(draft, text, faults))
    return tuple(found)


def _link(draft: Draft, text: str, faults: Mapping[str, Fault]) -> Link:
    form = _LINK.fullmatch(text.strip())
    if form is None or float(form.group(3)) == 0.0:
        right = "Write cause, arrow, effect and the share of calls, as in heater:grounded -> limit:open, 0.1."
        raise InputError(f"{quoted(text)} is not a link.", right)
    cause, effect = form.group(1).strip(), form.group(2).strip()
    for name in (cause, effect):
        if name not in faults:
            if draft.problems:
                raise FollowUpError
            raise InputError(f"There is no fault {quoted(name)}.", did_you_mean(name, faults))
    if faults[cause].thing == faults[effect].thing:
        raise InputError(f"{quoted(text)} links two faults of one thing.", "Link faults of different things.")
    return Link(cause, effect, float(form.group(3)))

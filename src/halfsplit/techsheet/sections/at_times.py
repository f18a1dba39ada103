"""Faults that come and go: only while the machine stands in a certain way, and then only in a share of the looks.

The network gets a variable for each such fault, there or away, and the branches that the plain fault opens or closes
get it in their conditions beside the setting. So the fault is electrical, and whatever else is wrong holds as well.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from halfsplit.circuit import Branch, Condition, Patch
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.machine import Fault
from halfsplit.techsheet.sections.draft import Draft
from halfsplit.techsheet.words import did_you_mean

_FORM = re.compile(r"(.+), *([0-9]{1,3}) ?%")
_AWAY, _THERE = "away", "there"
_RATE_SHARE = 0.5
"""How often a fault comes and goes, against how often it stays (from memory)."""
State = tuple[str, frozenset[str]]


def read_at_times(
    draft: Draft, branches: tuple[Branch, ...], faults: Mapping[str, Fault]
) -> tuple[tuple[Branch, ...], dict[str, Fault]]:
    """The branches with what comes and goes in their conditions, and a fault for each.

    Args:
        draft: The sheet.
        branches: Of all parts and wires.
        faults: The plain ones.
    """
    made = {}
    for part, written in draft.intermittent.items():
        for key, text in written.items():
            with draft.noting("parts", part, "intermittent", key):
                plain = faults.get(f"{part}:{key}")
                if plain is None:
                    own = [name.rpartition(":")[2] for name, fault in faults.items() if fault.thing == part]
                    raise InputError(f"{quoted(part)} has no fault {quoted(key)}.", did_you_mean(key, own))
                phrase, share = _read(text)
                fault = _fault(plain, phrase, share)
                branches = _coming_and_going(draft, branches, plain, (fault.name, draft.state(phrase)))
                draft.variables[fault.name] = (_AWAY, _THERE)
                made[fault.name] = fault
    return branches, made


def _read(text: str) -> tuple[str, float]:
    form = _FORM.fullmatch(text.strip())
    if form is None or int(form.group(2)) > 100:
        right = "Write the state, a comma and the share of the time, as in `air warm, 60 %`."
        raise InputError(f"{quoted(text)} does not say when it is there.", right)
    return form.group(1).strip(), int(form.group(2)) / 100


def _coming_and_going(
    draft: Draft, branches: tuple[Branch, ...], plain: Fault, when: tuple[str, State]
) -> tuple[Branch, ...]:
    variable, (setting, positions) = when
    actions = {patch.target: patch.action for patch in plain.patches}
    if not {*actions.values()} <= {"open", "closed"}:
        right = "Name one that only opens or closes a way for the current."
        raise InputError(f"The fault {quoted(plain.name)} cannot come and go.", right)
    others = frozenset(draft.variables[setting]) - positions
    made = []
    for branch in branches:
        action = actions.get(branch.name)
        if action == "open":
            sound: Condition = ((variable, frozenset({_AWAY})),), ((setting, others),)
            both = tuple((*one, *other) for one in branch.condition for other in sound)
            made.append(replace(branch, condition=both))
        elif action == "closed":
            bad = ((variable, frozenset({_THERE})), (setting, positions))
            made.append(replace(branch, condition=(*branch.condition, bad)))
        else:
            made.append(branch)
    return tuple(made)


def _fault(plain: Fault, phrase: str, share: float) -> Fault:
    often = f", and then {share:.0%} of the time".replace("%", " %") if share < 1.0 else ""
    name = f"{plain.name}-at-times"
    return replace(
        plain,
        name=name,
        says=f"{plain.says}, but only with {phrase}{often}",
        rate=plain.rate * _RATE_SHARE,
        patches=(Patch("pin", name, position=_THERE),),
        share=share,
    )

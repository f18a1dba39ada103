"""From functions and complaints as written to what a person sees, tied to the parts that show it."""

from __future__ import annotations

from typing import cast

from halfsplit.circuit import Condition
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.form import FunctionForm
from halfsplit.techsheet.kinds.base import Cycle, Shown
from halfsplit.techsheet.machine import Complaint, Function
from halfsplit.techsheet.sections.draft import Draft, FollowUpError
from halfsplit.techsheet.words import did_you_mean
from halfsplit.trade import LEVELS, Level, Setup


def read_functions(draft: Draft, setups: dict[str, Setup]) -> dict[str, Function]:
    """Every function that can be told; what is wrong with the others is noted."""
    found = {name: _function(draft, name, form, setups) for name, form in draft.form.functions.items()}
    return {name: function for name, function in found.items() if function is not None}


def _function(draft: Draft, name: str, form: FunctionForm, setups: dict[str, Setup]) -> Function | None:
    with draft.noting("functions", name, "setup"):
        if form.setup not in setups:
            draft.need("setups")
            right = did_you_mean(form.setup, setups)
            raise InputError(f"There is no setup {quoted(form.setup)}.", right)
    needs = _states(draft, name, "needs", form.needs)
    weak = _states(draft, name, "weak without", form.weak_without)
    seen = draft.tried(("functions", name, "shows"), lambda: _seen(draft, form.shows))
    cycle = draft.tried(("functions", name, "over"), lambda: _cycle(draft, form.over)) if form.over else None
    return None if seen is None else Function(name, form.ask, form.setup, *seen, needs, weak, cycle)


def _states(draft: Draft, name: str, key: str, phrases: list[str]) -> Condition:
    """The condition that holds when every phrase does."""
    states = []
    for index, phrase in enumerate(phrases):
        with draft.noting("functions", name, key, index):
            states.append(draft.state(phrase))
    return (tuple(states),)


def _cycle(draft: Draft, part: str) -> Cycle:
    """How a part switches on and off by itself."""
    if part in draft.unsure_parts:
        raise FollowUpError
    stamp = draft.stamps.get(part)
    if stamp is None or stamp.cycle is None:
        cycling = [name for name, other in draft.stamps.items() if other.cycle is not None]
        right = did_you_mean(part, cycling) or "Leave `over` out."
        raise InputError(f"{quoted(part)} does not switch on and off by itself.", right)
    return stamp.cycle


def _seen(draft: Draft, shows: str) -> tuple[str, str, Shown]:
    """Part, aspect, and what of the solution that is."""
    aspect, of, part = " ".join(shows.split()).partition(" of ")
    if not of:
        raise InputError(
            f"{quoted(shows)} does not say what is seen of which part.", "Write it as in `power of heater`."
        )
    if part in draft.unsure_parts:
        raise FollowUpError
    draft.need("parts")
    stamp = draft.stamps.get(part)
    if stamp is None:
        right = did_you_mean(part, draft.form.parts) or "Add it to `parts`."
        raise InputError(f"There is no part {quoted(part)} to show anything.", right)
    if aspect not in stamp.shows:
        right = did_you_mean(aspect, stamp.shows) or "A person cannot see this part work: name one it feeds."
        raise InputError(f"{quoted(part)} shows no {quoted(aspect)}.", right)
    return part, aspect, stamp.shows[aspect]


def read_complaints(draft: Draft) -> dict[str, Complaint]:
    """Every complaint with the levels it means."""
    complaints = {}
    for name, form in draft.form.complaints.items():
        if not form.means:
            draft.note(("complaints", name, "means"), f"{quoted(name)} means nothing.", "Write it as in {heat: none}.")
        for function, level in form.means.items():
            with draft.noting("complaints", name, "means", function):
                _check_meaning(draft, function, level)
        means = tuple((function, cast(Level, level)) for function, level in form.means.items())
        complaints[name] = Complaint(name, form.says, means)
    return complaints


def _check_meaning(draft: Draft, function: str, level: str) -> None:
    if function not in draft.form.functions:
        draft.need("functions")
        right = did_you_mean(function, draft.form.functions)
        raise InputError(f"There is no function {quoted(function)}.", right)
    if level not in LEVELS:
        raise InputError(f"{quoted(level)} is not a level.", f"Levels are {', '.join(LEVELS)}.")

"""From setups as written to the steps that are replayed from the defined start."""

from __future__ import annotations

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.machine import Wire
from halfsplit.techsheet.sections.draft import Draft, FollowUpError
from halfsplit.techsheet.words import did_you_mean, named_setup, read_step
from halfsplit.trade import Setup
from halfsplit.units import read_minutes

Steps = tuple[tuple[str, str], ...]


def read_setups(draft: Draft, settings: dict[str, tuple[str, ...]], wires: dict[str, Wire]) -> dict[str, Setup]:
    """Every setup; steps that cannot be read are noted and left out."""
    setups: dict[str, Setup] = {}
    for name, form in draft.form.setups.items():
        steps: list[tuple[str, str]] = []
        for index, text in enumerate(form.steps):
            with draft.noting("setups", name, "steps", index):
                other = named_setup(text)
                if other:
                    steps += _other(draft, setups, name, index, other)
                else:
                    steps += _step(draft, settings, wires, text)
        minutes = 0.0
        with draft.noting("setups", name, "minutes"):
            minutes = read_minutes(form.minutes)
        setups[name] = Setup(name, form.says, tuple(steps), minutes)
    return setups


def _other(draft: Draft, setups: dict[str, Setup], name: str, index: int, other: str) -> Steps:
    """Steps of the setup named by `as NAME`."""
    if index:
        raise InputError(f"{quoted(f'as {other}')} stands after another step.", "Let `as NAME` be the first step.")
    if other in setups:
        return setups[other].steps
    if other in draft.form.setups and other != name:
        raise InputError(f"The setup {quoted(other)} stands below this one.", "Move it above.")
    right = did_you_mean(other, setups) or "Begin with `setting position` steps."
    raise InputError(f"No setup {quoted(other)} stands above this one.", right)


def _step(draft: Draft, settings: dict[str, tuple[str, ...]], wires: dict[str, Wire], text: str) -> Steps:
    try:
        return (read_step(text, settings, wires),)
    except InputError:
        unsure = {
            *draft.unsure_settings,
            *(verb for verb in ("lift", "put back") if len(wires) < len(draft.form.wires)),
        }
        if any(f"{text.strip()} ".startswith(f"{name} ") for name in unsure):
            raise FollowUpError from None
        draft.need("settings")
        raise

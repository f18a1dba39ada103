"""The form for a reading anywhere: what can be chosen, and what it begins with."""

from __future__ import annotations

from dataclasses import dataclass

from halfsplit.call import LIVE, PUTS_VOLTS
from halfsplit.desk.pages.asked import Refused
from halfsplit.desk.pages.shown.check import CheckShown
from halfsplit.desk.pages.words import MODE_WORDS, signal
from halfsplit.desk.records.entries import EntryRecord
from halfsplit.techsheet import Machine
from halfsplit.trade import Reading


@dataclass(frozen=True, slots=True)
class ReadingForm:
    """The form; volts and amps are read live, so it has a caution of its own.

    Attributes:
        wrong: Name of the field that cannot be used as it was typed; empty if none.
    """

    points: tuple[str, ...]
    modes: tuple[tuple[str, str], ...]
    setups: tuple[tuple[str, str], ...]
    a: str
    b: str
    mode: str
    setup: str
    value: str
    wrong: str
    signal_word: str
    caution: str


def reading_form(
    machine: Machine, entries: tuple[EntryRecord, ...], check: CheckShown | None, refused: Refused | None
) -> ReadingForm:
    """The form as it begins; what was typed stays when it was refused here."""
    here = refused if refused and refused.at == "reading" else None
    typed = here.typed if here else _begin(entries, check)
    signal_word, caution = signal(f"{LIVE} {PUTS_VOLTS}")
    return ReadingForm(
        points=machine.points,
        modes=tuple(MODE_WORDS.items()),
        setups=tuple((name, setup.says) for name, setup in machine.setups.items()),
        a=typed.get("a", ""),
        b=typed.get("b", ""),
        mode=typed.get("mode", ""),
        setup=typed.get("setup", ""),
        value=typed.get("value", ""),
        wrong=here.field if here else "",
        signal_word=signal_word,
        caution=caution,
    )


def _begin(entries: tuple[EntryRecord, ...], check: CheckShown | None) -> dict[str, str]:
    """Mode and setup as the meter was last used, or as the proposed check is."""
    readings = [entry.what for entry in entries if entry.stands and isinstance(entry.what, Reading)]
    if readings:
        return {"mode": readings[-1].mode, "setup": readings[-1].setup}
    if check and not check.levels:
        return {name: value for name, value in check.fields if name in ("mode", "setup")}
    return {"mode": "ohms"}

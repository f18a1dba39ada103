"""What the pages of sheets show: mistakes, doubts and the drawing of a text, and rows of lists."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from halfsplit.desk.records.values import SheetText
from halfsplit.drawing import draw_machine
from halfsplit.errors import Problem
from halfsplit.proofread import doubts
from halfsplit.techsheet import Machine, read_sheet


@dataclass(frozen=True, slots=True)
class Looked:
    """What is said of a text: either mistakes, or doubts, counts and the wiring as SVG."""

    says: str
    problems: tuple[Problem, ...]
    doubts: tuple[Problem, ...]
    wiring: SafeString


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a list of sheets or versions."""

    sheet: int
    version: int
    title: str
    made: str
    says: str
    sound: bool
    here: bool = False


def looked_over(text: str, file: str) -> Looked:
    """Read a text and say everything there is to say of it."""
    machine, problems = read_sheet(text, file)
    if machine is None:
        many = len(problems)
        return Looked(f"{many} things to correct:" if many > 1 else "One thing to correct:", problems, (), SafeString())
    drawn = mark_safe(draw_machine(machine))  # noqa: S308  # `drawing` escapes all text
    return Looked(f"Nothing to correct: {_counts(machine)}.", (), doubts(machine, text, file), drawn)


def _counts(machine: Machine) -> str:
    return f"{len(machine.parts)} parts, {len(machine.wires)} wires, {len(machine.faults)} single faults"


def sheet_rows(last: tuple[SheetText, ...]) -> tuple[Row, ...]:
    """The list of sheets, each with its last version."""
    return tuple(_row(one, here=False) for one in last)


def version_rows(every: tuple[SheetText, ...], shown: int) -> tuple[Row, ...]:
    """The list of versions of one sheet, newest first."""
    return tuple(_row(one, here=one.version == shown) for one in every)


def _row(one: SheetText, *, here: bool) -> Row:
    mistakes = "can be used" if not one.mistakes else f"{one.mistakes} to correct"
    made = one.made.astimezone().strftime("%d %b %Y, %H:%M")
    return Row(one.sheet, one.version, one.title, made, mistakes, not one.mistakes, here)

"""A small sheet with every kind of part, changed a little for each test."""

from pathlib import Path

from halfsplit.errors import Problem
from halfsplit.techsheet import Machine, read_sheet

FILE = "warmer.yaml"
SHEET = (Path(__file__).parent / FILE).read_text(encoding="utf-8")


def changed(*changes: tuple[str, str]) -> str:
    """The sheet with some of its text replaced; each old text must stand there exactly once."""
    text = SHEET
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands there {text.count(old)} times"
        text = text.replace(old, new)
    return text


def line_of(fragment: str, text: str) -> int:
    """Number of the one line that is the fragment, or else has it in it."""
    lines = [words.strip() for words in text.splitlines()]
    whole = [number for number, words in enumerate(lines, 1) if words == fragment]
    (line,) = whole or [number for number, words in enumerate(lines, 1) if fragment in words]
    return line


def machine(*changes: tuple[str, str]) -> Machine:
    """The machine of the changed sheet, which must be sound."""
    found, problems = read_sheet(changed(*changes), FILE)
    assert problems == ()
    assert found is not None
    return found


def told(*changes: tuple[str, str]) -> list[Problem]:
    """The problems of the changed sheet, which must have some."""
    found, problems = read_sheet(changed(*changes), FILE)
    assert found is None
    assert problems
    return list(problems)


def problem(fragment: str, what: str, right: str, *changes: tuple[str, str]) -> Problem:
    """The problem at the line with a fragment, in the changed sheet."""
    return Problem(what, right, FILE, line_of(fragment, changed(*changes)))

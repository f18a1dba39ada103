"""The one error base: what happened, where, and what would be right.

Every room raises these, and both faces print them as one sentence. Nothing here knows any room.
"""

from __future__ import annotations

from dataclasses import dataclass

_MOST_QUOTED = 60


def quoted(text: str) -> str:
    """What a person wrote, in quotes, on one line and cut short if long, so that a sentence stays a sentence.

    >>> quoted("heater"), quoted("  two   words ")
    ("'heater'", "'two words'")
    """
    words = " ".join(text.split())
    return repr(words if len(words) <= _MOST_QUOTED else words[: _MOST_QUOTED - 1] + "…")


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake in something a person wrote.

    Attributes:
        what: What is wrong, in plain words, without the place.
        right: What would be right (empty if nothing sensible can be said).
        file: The file's name as the person gave it (empty if typed on the spot).
        line: Line in the file, counted from 1; 0 when there is no file.
    """

    what: str
    right: str = ""
    file: str = ""
    line: int = 0

    def __str__(self) -> str:
        """`file:line: what right`, leaving out what is not known."""
        place = f"{self.file}:{self.line}: " if self.file and self.line else f"{self.file}: " if self.file else ""
        right = f" {self.right}" if self.right else ""
        return f"{place}{self.what}{right}"


class HalfsplitError(Exception):
    """What happened, where, and what to do next, as one plain sentence."""

    def __init__(self, what: str, right: str = "") -> None:
        """Keep the sentence and what would be right apart, so that faces may lay them out."""
        super().__init__(f"{what} {right}".strip())
        self.what = what
        self.right = right


class InputError(HalfsplitError):
    """Something a person typed cannot be used: a quantity, a point, a setup, a level."""


class SheetError(HalfsplitError):
    """A sheet or a case that cannot be used, with every mistake found in it."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        """Carry all the problems; the message lists them one per line."""
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems


class CircuitError(HalfsplitError):
    """A network that cannot be solved, with the points or contacts by name."""


class HeatError(HalfsplitError):
    """A temperature outside what a formula or table is known for, or bodies that cannot be followed."""

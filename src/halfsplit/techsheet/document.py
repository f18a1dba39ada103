"""YAML text to a plain tree of strings with the line of everything in it.

What may live here: reading text a stranger wrote. Scalars stay the strings that were typed (`off` is not False and
`1-2` is not a date); anchors, aliases, tags and huge or deep files are refused, so nothing can be blown up.
"""

from __future__ import annotations

from dataclasses import dataclass

from halfsplit.errors import Problem
from halfsplit.techsheet.events import NOT_TEXT, Path, Tree, TreeReader

MOST_BYTES = 256 * 1024
"""Sixteen times the dryer's sheet: more is not a sheet."""


@dataclass(frozen=True, slots=True)
class Document:
    """A tree of strings, lists and mappings, and the line (from 1) of every path in it.

    `doubts` are the paths where something was refused already: an empty text stands there, and nobody need complain of
    it again.
    """

    file: str
    tree: dict[str, Tree]
    lines: dict[Path, int]
    doubts: frozenset[Path] = frozenset()

    def line(self, path: Path) -> int:
        """Line of a path, or of the nearest thing around it."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)

    def problem(self, path: Path, what: str, right: str = "") -> Problem:
        """A problem at a path."""
        return Problem(what, right, self.file, self.line(path))


def read_document(text: str, file: str) -> tuple[Document | None, tuple[Problem, ...]]:
    """Read YAML text whose top level is a mapping. A byte-order mark before it does not matter.

    Returns:
        The document (None if nothing could be read) and every problem found.
    """
    text = text.removeprefix("\ufeff")
    refused = _refused(text, file)
    if refused is not None:
        return None, (refused,)
    reader = TreeReader(text, file)
    tree = reader.read()
    problems = tuple(dict.fromkeys(reader.problems))
    return None if tree is None else Document(file, tree, reader.lines, frozenset(reader.doubts)), problems


def too_large(file: str) -> Problem:
    """The problem of a file that is no sheet by its size alone."""
    return Problem(f"This is larger than {MOST_BYTES // 1024} kB.", "A sheet is a few pages of text.", file, 1)


def _refused(text: str, file: str) -> Problem | None:
    """What can be said of a text without reading it as YAML."""
    if len(text) > MOST_BYTES or len(text.encode("utf-8", "replace")) > MOST_BYTES:
        return too_large(file)
    strange = NOT_TEXT.search(text)
    if strange is None:
        return None
    line = len(f"{text[: strange.start()]}.".splitlines())
    what = f"There is a character here that nobody can see (code {ord(strange.group())})."
    return Problem(what, "Take it out, and save the file as plain text in UTF-8.", file, line)

"""From the YAML parser's events to a tree of strings, in one pass and without following anything.

Anchors, aliases, merge keys, tags and strange characters are refused where they stand; deep nesting ends the reading
before it costs time. What may live here: the walk over events. It must not know what a sheet is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    CollectionStartEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
    SequenceEndEvent,
    StreamStartEvent,
)

from halfsplit.errors import Problem, quoted
from halfsplit.techsheet.broken import plain_words

MOST_DEEP = 12
MOST_EVENTS = 15_000
"""Ten times what the dryer's sheet has."""
MOST_PROBLEMS = 100
"""So many mistakes are listed; the rest are the same slip again, or not a sheet at all."""
NOT_TEXT = re.compile(
    r"[^\t\n\r\x20-\x7e\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]|[\u200b\u2028-\u202e\u2060-\u2069\ufeff]"
)
"""What YAML does not allow (controls, NUL, half a surrogate pair) and what nobody sees (no width, turned direction)."""

Tree = str | list["Tree"] | dict[str, "Tree"]
Path = tuple[str | int, ...]

_LEFT_OUT = "\0"
"""Key of what is read past and dropped; no text can hold it."""


class _StoppedError(Exception):
    """Nothing after this can be read; the problem is already noted."""


class TreeReader:
    """Reads one text once.

    Attributes:
        lines: Line (from 1) of every path.
        problems: What was refused.
        doubts: Paths where something was refused and an empty text stands instead.
    """

    def __init__(self, text: str, file: str) -> None:
        """Nothing is read before `read`."""
        self.lines: dict[Path, int] = {}
        self.problems: list[Problem] = []
        self.doubts: set[Path] = set()
        self._file = file
        self._events: Iterator[Event] = YAML(typ="safe", pure=True).parse(text)
        self._at, self._count = 1, 0

    def read(self) -> dict[str, Tree] | None:
        """The tree of the one document, or None with at least one problem."""
        try:
            return self._document()
        except _StoppedError:
            return None
        except MarkedYAMLError as error:
            self._note(*plain_words(error))
        except (YAMLError, ValueError, OverflowError):  # the last two: what the library makes of escapes beyond Unicode
            self._note(self._at, "This cannot be read as YAML text.", "Write plain text, as in the built-in sheet.")
        return None

    def _document(self) -> dict[str, Tree]:
        start = next(event for event in self._events if not isinstance(event, StreamStartEvent))
        if not isinstance(start, DocumentStartEvent):
            self._stop(1, "There is nothing in this file.", "Begin with `key: value` lines, as in the built-in sheet.")
        first = self._next()
        if not isinstance(first, MappingStartEvent):
            what = "The file does not begin with a `key: value` line."
            self._stop(_line(first), what, "Begin with one, as in `sheet: NAME`.")
        self.lines[()] = _line(first)
        self._refuse_marks(first, ())
        tree = self._mapping(())
        self._next()  # the end of the document
        after = self._next()
        if isinstance(after, DocumentStartEvent):
            self._note(_line(after), "A second document begins here.", "Keep one in a file, and no line `---` inside.")
        return tree

    def _next(self) -> Event:
        event = next(self._events)
        self._at = _line(event)
        self._count += 1
        if self._count > MOST_EVENTS:
            self._stop(self._at, "This holds far too many values.", "A sheet is a few pages of text.")
        return event

    def _value(self, event: Event, path: Path) -> Tree:
        self.lines.setdefault(path, _line(event))
        self._refuse_marks(event, path)
        if isinstance(event, AliasEvent):
            return ""
        if isinstance(event, ScalarEvent):
            return self._scalar(event, path)
        if len(path) >= MOST_DEEP:
            self._stop(_line(event), "This is nested too deep.", f"Write at most {MOST_DEEP} levels.")
        return self._mapping(path) if isinstance(event, MappingStartEvent) else self._list(path)

    def _mapping(self, path: Path) -> dict[str, Tree]:
        tree: dict[str, Tree] = {}
        while not isinstance(event := self._next(), MappingEndEvent):
            key = self._key(event, path, tree)
            here, noted = (*path, key), len(self.problems)
            self.lines.setdefault(here, _line(event))
            value = self._value(self._next(), here)
            if key == _LEFT_OUT:
                del self.problems[noted:]  # nobody needs to mend what must go anyway
            else:
                tree[key] = value
        return tree

    def _list(self, path: Path) -> list[Tree]:
        items: list[Tree] = []
        while not isinstance(event := self._next(), SequenceEndEvent):
            items.append(self._value(event, (*path, len(items))))
        return items

    def _key(self, event: Event, path: Path, tree: dict[str, Tree]) -> str:
        """The key, or the mark of what is left out when it cannot stand here."""
        noted = len(self.problems)
        key = self._value(event, (*path, _LEFT_OUT))
        if len(self.problems) > noted:
            return _LEFT_OUT
        if isinstance(event, CollectionStartEvent) or not isinstance(key, str):
            self._note(_line(event), "A key must be plain words.", "Write `key: value`.")
        elif not key:
            self._note(_line(event), "There is no key before this colon.", "Write `key: value`.")
        elif key == "<<":
            self._note(_line(event), "Merging with `<<` is not read here.", "Write every key out.")
        elif key in tree:
            first = self.lines[(*path, key)]
            self._note(_line(event), f"{quoted(key)} stands here twice (first in line {first}).", "Keep one of them.")
        else:
            return key
        return _LEFT_OUT

    def _scalar(self, event: ScalarEvent, path: Path) -> str:
        value = str(event.value).strip()
        if not NOT_TEXT.search(value):
            return value
        self._note(_line(event), "There is a character here that nobody can see.", "Leave out the backslash code.")
        self.doubts.add(path)
        return ""

    def _refuse_marks(self, event: Event, path: Path) -> None:
        """Anchors and aliases could blow a small text up, and a tag could ask for anything."""
        if isinstance(event, NodeEvent) and event.anchor is not None:
            sign = "*" if isinstance(event, AliasEvent) else "&"
            what = f"The mark {quoted(sign + event.anchor)} is not read here."
            self._note(_line(event), what, "Write it out in full, or put it in quotes if it is text.")
            self.doubts.add(path)
        tag = getattr(event, "tag", None)
        if tag is not None:
            what = f"The mark {quoted(str(tag))} is not read here."
            self._note(_line(event), what, "Leave it out, or put it in quotes if it is text.")

    def _note(self, line: int, what: str, right: str) -> None:
        self.problems.append(Problem(what, right, self._file, line))
        if len(self.problems) >= MOST_PROBLEMS:
            raise _StoppedError

    def _stop(self, line: int, what: str, right: str) -> None:
        self._note(line, what, right)
        raise _StoppedError


def _line(event: Event) -> int:
    return int(event.start_mark.line) + 1

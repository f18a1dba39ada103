"""Patterns of words, and the list of all of them made from the data files.

A pattern is a row of places, each with the words that may stand there. `a|b` is either, `(a)` may be missing, N is a
number; `(a|b c)`: a, or b c, or neither; `<a|b c>`: one of the two. Small words between two places are passed over.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import product

from halfsplit.call.phrases.values import Shares
from halfsplit.trade import Level

_TOKEN = re.compile(r"\([^)]*\)|<[^>]*>|\S+")
Places = tuple[frozenset[str], ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """One pattern and what it does.

    Attributes:
        kind: action, saying, subject, part, how, not, stop, only, past, person, to, try, join, aside, prep, hedge,
            where, ignore.
        places: The pattern.
        name: Concept, joint, state or hedge it stands for.
        means: Of a saying: concepts with shares; the first is what is said.
        levels: Of `how`: the level it makes, and the level with "not".
    """

    kind: str
    places: Places
    name: str = ""
    means: Mapping[str, Shares] = field(default_factory=dict)
    levels: tuple[Level, Level] | None = None


def places_of(pattern: str) -> Iterator[Places]:
    """All ways a written pattern can be met, with and without what may be missing.

    >>> [[sorted(place) for place in places] for places in places_of("turn|go (right) off")]
    [[['go', 'turn'], ['right'], ['off']], [['go', 'turn'], ['off']]]
    """
    choices: list[list[Places]] = []
    for token in _TOKEN.findall(pattern):
        if token[0] in "(<":
            rows = [tuple(_row(words)) for words in token.strip("()<>").split("|")]
            choices.append([*rows, ()] if token[0] == "(" else rows)
        else:
            choices.append([tuple(_row(token))])
    for choice in product(*choices):
        yield tuple(place for part in choice for place in part)


def _row(words: str) -> Iterator[frozenset[str]]:
    return (frozenset(word.split("|")) for word in words.split())


class Patterns:
    """All entries, found by the word they begin with; the longest first."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        self._by_first: dict[str, list[Entry]] = {}
        self.words: set[str] = set()
        for entry in entries:
            for word in entry.places[0]:
                self._by_first.setdefault(word, []).append(entry)
            self.words.update(*entry.places)
        for found in self._by_first.values():
            found.sort(key=lambda entry: -len(entry.places))

    def beginning(self, forms: Iterable[str]) -> list[Entry]:
        """Entries that can begin with any of these forms of a word, the longest first."""
        found = [entry for form in forms for entry in self._by_first.get(form, ())]
        return sorted(found, key=lambda entry: -len(entry.places))

"""Words to items (what each word or row of words is), and items to clauses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from halfsplit.call.phrases.lexicon import Lexicon
from halfsplit.call.phrases.patterns import Entry
from halfsplit.call.phrases.words import Word

_PREDICATES = {"action", "saying", "how", "stop", "not"}
_MARKS = {".": Entry("end", ()), "?": Entry("end", (), "question"), ",": Entry("join", (), "comma")}
_NOT = frozenset(("not", "longer"))
_UNKNOWN, _SMALL = Entry("unknown", ()), Entry("small", ())


@dataclass(frozen=True, slots=True)
class Item:
    """A word or row of words, and what it is."""

    entry: Entry
    words: tuple[Word, ...]

    @property
    def kind(self) -> str:
        """What it is: an entry's kind, or unknown, small, end."""
        return self.entry.kind

    @property
    def span(self) -> tuple[int, int]:
        """First and one past the last character."""
        return self.words[0].start, self.words[-1].end

    @property
    def denied(self) -> bool:
        """Whether a "not" stands inside it that is no part of its pattern: "water does not come in"."""
        return self.kind == "action" and any(_is_not(word) for word in self.words[1:])


@dataclass(frozen=True, slots=True)
class Clause:
    """Items that belong together.

    Attributes:
        items: What it is made of.
        joint: How it hangs on the one before: and, or, but, comma, or empty.
        aside: condition ("when …"), reason ("because …"), or empty if it states something.
        conditional: A condition stands just before or after it.
        question: It is asked, not told.
    """

    items: tuple[Item, ...]
    joint: str = ""
    aside: str = ""
    conditional: bool = False
    question: bool = False

    def has(self, *kinds: str) -> bool:
        """Whether there is an item of one of these kinds."""
        return any(item.kind in kinds for item in self.items)


def scan(words: Sequence[Word], lexicon: Lexicon) -> list[Item]:
    """Items of a text: at each word the longest pattern that fits, else a small word, else an unknown one."""
    items: list[Item] = []
    at = 0
    while at < len(words):
        item = _item(words, at, lexicon)
        items.append(item)
        at += len(item.words)
    return items


def _item(words: Sequence[Word], at: int, lexicon: Lexicon) -> Item:
    word = words[at]
    if word.mark:
        return Item(_MARKS[word.mark], (word,))
    best, length = _UNKNOWN, 0
    for entry in lexicon.patterns.beginning(word.forms):
        end = _fits(entry, words, at, lexicon.small)
        if end and (len(entry.places), end - at) > (len(best.places), length):
            best, length = entry, end - at
    if length:
        return Item(best, tuple(words[at : at + length]))
    return Item(_SMALL if lexicon.small.intersection(word.forms) else _UNKNOWN, (word,))


def _is_not(word: Word) -> bool:
    return not _NOT.isdisjoint(word.forms)


def _fits(entry: Entry, words: Sequence[Word], at: int, small: frozenset[str]) -> int:
    """One past the last word the pattern takes, small words between its places passed over; 0 if it does not fit."""
    passed = small | _NOT if entry.kind == "action" else small
    for index, place in enumerate(entry.places):
        while index and at < len(words) and place.isdisjoint(words[at].forms) and passed.intersection(words[at].forms):
            at += 1
        if at >= len(words) or place.isdisjoint(words[at].forms):
            return 0
        at += 1
    return at


def clauses(items: Sequence[Item]) -> list[Clause]:
    """Clauses of a text. A condition or reason ("when …", "because …") runs to the next mark, or to a "but"."""
    found: list[Clause] = []
    for sentence, question in _sentences(items):
        found += [replace(clause, question=question) for clause in _conditional(_cut(sentence))]
    return found


def _sentences(items: Sequence[Item]) -> Iterator[tuple[list[Item], bool]]:
    """Sentences, each with whether it ends in a question mark."""
    sentence: list[Item] = []
    for item in items:
        if item.kind != "end":
            sentence.append(item)
            continue
        yield sentence, item.entry.name == "question"
        sentence = []
    yield sentence, False


def _cut(sentence: Sequence[Item]) -> list[Clause]:
    found: list[Clause] = []
    current: list[Item] = []
    joint, aside = "", ""
    for item in sentence:
        if item.kind != "aside" and not (item.kind == "join" and _splits(current, item.entry.name, aside)):
            current.append(item)
            continue
        if current:
            found.append(Clause(tuple(current), joint, aside))
        joint, aside = (item.entry.name, "") if item.kind == "join" else ("", item.entry.name)
        current = []
    return [*found, Clause(tuple(current), joint, aside)] if current else found


def _splits(current: Sequence[Item], name: str, aside: str) -> bool:
    """Whether a joining word ends the clause: not in an aside, and not between two subjects of one verb."""
    if aside:
        return name in ("but", "comma", "except")
    kinds = {item.kind for item in current}
    if "subject" in kinds and kinds.isdisjoint(_PREDICATES) and name not in ("but", "except"):
        return False
    if name == "except":
        return True
    return not kinds.isdisjoint(_PREDICATES | {"subject", "where", "hedge", "unknown", "part"})


def _conditional(found: list[Clause]) -> list[Clause]:
    around = [False, *(clause.aside == "condition" for clause in found), False]
    return [
        replace(clause, conditional=around[at] or around[at + 2]) if not clause.aside else clause
        for at, clause in enumerate(found)
    ]

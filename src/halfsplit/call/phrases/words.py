"""Text to words: where each stands, its forms, and spelling slips mended.

Endings are taken off by rule (heats, heated, heating: heat) and both kinds of spelling are known. A slip is mended only
to one word of our own list that begins with the same letter, and never if the word is known to be another word.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache

_TOKEN = re.compile(r"\\n|\n|[^\W\d_]?\d+(?:[.,:-]\d+)?|[^\W\d_]+(?:'[^\W\d_]+)*'?|[.;!?]|,| [-–—] |:|[()]|/|&|\+|\S")
_MARKS = {",": ",", "?": "?", **dict.fromkeys((".", ";", "!", "\n", "\\n", ":", "(", ")", " - ", " – ", " — "), ".")}
NUMBER = "N"
"""Stands in a pattern for any number; written in capitals, as no word is."""
_SHORTEST_SLIP = 5
_JOINS = {"/", "&", "+"}
_VOWELS = set("aeiouy")


@dataclass(frozen=True, slots=True)
class Word:
    """One word: as written in small letters, every form it may be of, and its place in the text.

    `mark` is ".", "?" or "," for a mark between words, else empty.
    """

    raw: str
    forms: tuple[str, ...]
    start: int
    end: int
    mark: str = ""


@dataclass(frozen=True, eq=False)
class Vocabulary:
    """The words we know.

    Attributes:
        words: All of them, in their base form.
        telling: Those that say something of a machine: a slip is mended only to one of these.
        known: Words that mean nothing here, so that they are not taken for slips of others.
        irregular: Forms that follow no rule, and what they are forms of.
        written: What is written without its apostrophe, or joined, in full.
        numbers: Words for numbers.
    """

    words: frozenset[str]
    telling: frozenset[str]
    known: frozenset[str]
    irregular: Mapping[str, str]
    written: Mapping[str, str]
    numbers: frozenset[str]


def split(text: str, vocabulary: Vocabulary) -> tuple[tuple[Word, ...], tuple[tuple[str, str], ...]]:
    """Words of a text in order, and the slips mended: (as written, as read)."""
    lower = _lower(text)
    words: list[Word] = []
    slips: dict[str, str] = {}
    for match in _TOKEN.finditer(lower):
        written, start, end = match.group(), match.start(), match.end()
        if written in _MARKS:
            words.append(Word(written, (), start, end, _MARKS[written]))
            continue
        if not written[0].isalnum() and written not in _JOINS:
            continue
        for part in filter(None, _written_out(written.strip("'"), vocabulary)):
            forms, mended = _forms(part, vocabulary)
            if mended:
                slips[text[start:end]] = mended
            words.append(Word(part, forms, start, end))
    return tuple(words), tuple(slips.items())


def _lower(text: str) -> str:
    """Small letters and plain apostrophes, every character in its place."""
    plain = text.replace("’", "'").replace("`", "'")
    return "".join(small if len(small := character.lower()) == 1 else character for character in plain)


def _written_out(token: str, vocabulary: Vocabulary) -> list[str]:
    """A shortened word in full: "won't" is will not; "it's" is it."""
    plain = token.replace("'", "")
    if plain in vocabulary.written and (plain == token or plain.endswith(("nt", "nn"))):
        return vocabulary.written[plain].split()
    if token.endswith("n't"):
        return [token[:-3], "not"]
    head, mark, _ = token.partition("'")
    return [head] if mark and head else [plain]


@lru_cache(maxsize=4096)
def _forms(word: str, vocabulary: Vocabulary) -> tuple[tuple[str, ...], str]:
    """Every known form of a word, and what it was mended to (empty if it was no slip)."""
    if word[-1].isdigit():
        return (word, NUMBER), ""
    forms = stems(word, vocabulary)
    if any(form in vocabulary.words or form in vocabulary.known for form in forms):
        return forms, ""
    near = _nearest(word, vocabulary)
    return (stems(near, vocabulary), near) if near else (forms, "")


def _nearest(word: str, vocabulary: Vocabulary) -> str:
    """The one word that tells and that this is a slip of; empty if there is none."""
    if len(word) < _SHORTEST_SLIP:
        return ""
    beginning = [other for other in vocabulary.telling if other[0] == word[0] and len(other) >= _SHORTEST_SLIP - 1]
    choices = [form for other in beginning for form in (other, *_endings(other)) if one_slip(word, form)]
    return next(iter(get_close_matches(word, choices, 1, 0.0)), "")


def _endings(word: str) -> tuple[str, ...]:
    stem = word[:-1] if word.endswith("e") else word
    return word + "s", stem + "ing", stem + "ed"


def one_slip(wrong: str, right: str) -> bool:
    """Whether one letter is missing, doubled or too many, two changed places, or one vowel stands for another.

    >>> [one_slip(wrong, "heating") for wrong in ("heting", "heatting", "haeting", "heeting", "hearing", "beating")]
    [True, True, True, True, False, False]
    """
    if abs(len(wrong) - len(right)) == 1:
        short, long = sorted((wrong, right), key=len)
        return any(short == long[:at] + long[at + 1 :] for at in range(len(long)))
    if len(wrong) != len(right):
        return False
    places = [at for at in range(len(wrong)) if wrong[at] != right[at]]
    if len(places) == 1:
        return {wrong[places[0]], right[places[0]]} <= _VOWELS
    return len(places) == 2 and wrong[places[0] : places[1] + 1] == right[places[0] : places[1] + 1][::-1]


def stems(word: str, vocabulary: Vocabulary) -> tuple[str, ...]:
    """The word itself and what it may be a form of, likeliest first; a number word is also N."""
    found = [word]
    if word in vocabulary.irregular:
        found.append(vocabulary.irregular[word])
    for ending, instead in (("s", ""), ("es", ""), ("ed", ""), ("d", ""), ("ing", ""), ("ing", "e"), ("ies", "y")):
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            stem = word[: len(word) - len(ending)] + instead
            found.append(stem)
            if not instead and len(stem) > 3 and stem[-1] == stem[-2]:
                found.append(stem[:-1])
    kept = [
        form for form in dict.fromkeys(found) if form == word or form in vocabulary.words or form in vocabulary.known
    ]
    return (*kept, NUMBER) if word in vocabulary.numbers else tuple(kept)

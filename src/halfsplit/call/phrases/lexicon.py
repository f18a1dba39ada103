"""The data files, read once: concepts with the functions they are tied to, and the patterns of words.

Wordings are data (YAML beside this file), so that a technician can add one without reading code. What the files say is
checked by tests, not at run time: they ship with the program.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import resources
from typing import Any, cast

from ruamel.yaml import YAML

from halfsplit.call.phrases.patterns import Entry, Patterns, places_of
from halfsplit.call.phrases.values import Shares
from halfsplit.call.phrases.words import Vocabulary
from halfsplit.trade import Level

Tie = Mapping[Level, Shares]
"""For each level said, shares of a function's levels."""

SURE: dict[Level, Shares] = {
    "none": {"none": 0.95, "weak": 0.05},
    "weak": {"weak": 0.85, "normal": 0.1, "none": 0.05},
    "normal": {"normal": 0.95, "weak": 0.05},
    "too much": {"too much": 0.9, "normal": 0.1},
}
"""What a level said outright leaves open: people are loose with "not" and "fine". Judgement, not measured."""

_AS: dict[str, Tie] = {
    "same": {"none": {"none": 1}, "weak": {"weak": 1}, "normal": {"normal": 1}, "too much": {"too much": 1}},
    "opposite": {"none": {"normal": 1}, "weak": {"weak": 1}, "normal": {"none": 1}, "too much": {"none": 1}},
}


@dataclass(frozen=True, slots=True)
class Concept:
    """What a machine can be said to do.

    Attributes:
        name: Its name in the data files.
        says: The same in plain words.
        ties: (state, function) to how the function follows; the state is empty for everyday use.
        sign: Normal means that the sign of a fault is there.
        noticed: A person who notices it says so of themselves ("I smell").
        vague: Too little was said; `ask` is asked about.
        whole: It is said of the machine as a whole, not of one thing in it.
        ask: Concepts to ask about.
        otherwise: The concept to take on a sheet that has none of the functions.
        implies: For a level said of it: other concepts, which give way to anything said outright.
        caution: What to say at once.
    """

    name: str
    says: str
    ties: Mapping[tuple[str, str], Tie]
    sign: bool = False
    noticed: bool = False
    vague: bool = False
    whole: bool = False
    ask: tuple[str, ...] = ()
    otherwise: str = ""
    implies: Mapping[Level, Mapping[str, Shares]] = field(default_factory=dict)
    caution: str = ""


@dataclass(frozen=True, eq=False)
class Lexicon:
    """Everything the reader knows. `does` says for a subject which concepts mean the subject's own."""

    concepts: Mapping[str, Concept]
    patterns: Patterns
    vocabulary: Vocabulary
    small: frozenset[str]
    does: Mapping[str, frozenset[str]]
    hidden: frozenset[str]
    only_in: frozenset[str]
    alone: Mapping[str, str]


@lru_cache(maxsize=1)
def lexicon() -> Lexicon:
    """The built-in lexicon."""
    words, more = _load("words.yaml"), _load("small.yaml")
    entries = tuple(_entries(words, _load("actions.yaml"), _load("sayings.yaml"), more["ignore"]))
    patterns, small = Patterns(entries), frozenset(more["small"])
    inflected = frozenset(more["irregular"].values())
    vocabulary = Vocabulary(
        frozenset(patterns.words | small | inflected),
        frozenset(_telling(entries) - small),
        frozenset(more["known"]),
        more["irregular"],
        more["written"],
        frozenset(more["numbers"]),
    )
    does = {name: frozenset((name, *one["does"])) for name, one in words["subjects"].items()}
    hidden = frozenset(name for name, one in words["subjects"].items() if one.get("hidden"))
    concepts = {name: _concept(name, one) for name, one in _load("concepts.yaml").items()}
    return Lexicon(concepts, patterns, vocabulary, small, does, hidden, frozenset(words["only in"]), words["alone"])


def _telling(entries: Iterable[Entry]) -> set[str]:
    telling = ("action", "saying", "subject", "how", "not", "hedge")
    return {word for entry in entries if entry.kind in telling for place in entry.places for word in place}


def _load(name: str) -> Any:
    text = (resources.files(__package__) / "data" / name).read_text(encoding="utf-8")
    return YAML(typ="safe", pure=True).load(text)


def _concept(name: str, one: dict[str, Any]) -> Concept:
    tied = {"": one.get("functions", {}), **one.get("at", {})}
    ties = {
        (where, function): _AS[how] if isinstance(how, str) else cast(Tie, how)
        for where, functions in tied.items()
        for function, how in functions.items()
    }
    rest = {key: value for key, value in one.items() if key not in ("functions", "at", "ask")}
    return Concept(name=name, ties=ties, ask=tuple(one.get("ask", ())), **rest)


def shares_of(means: str | Mapping[str, float]) -> Shares:
    """Shares as written in the data: a level alone is as sure as words are."""
    return SURE[cast(Level, means)] if isinstance(means, str) else cast(Shares, dict(means))


def _entries(
    words: dict[str, Any], actions: dict[str, list[str]], sayings: list[dict[str, Any]], ignore: list[str]
) -> Iterator[Entry]:
    for saying in sayings:
        means = {concept: shares_of(shares) for concept, shares in saying["means"].items()}
        name = next(iter(means))
        yield from (Entry("saying", places, name, means) for says in saying["says"] for places in places_of(says))
    yield from _plain("part", words["part"], "")  # before actions: "fuse blown" names a part, "blows the fuse" does not
    for concept, patterns in actions.items():
        yield from _plain("action", patterns, concept)
    for concept, subject in words["subjects"].items():
        yield from _plain("subject", subject["words"], concept)
    for levels, patterns in words["how"].items():
        yes, no = (cast(Level, level.strip()) for level in levels.split(","))
        yield from (Entry("how", places, levels, levels=(yes, no)) for says in patterns for places in places_of(says))
    for kind in ("join", "hedge", "where", "aside"):
        for name, patterns in words[kind].items():
            yield from _plain(kind, patterns, name)
    for kind in ("not", "stop", "only", "past", "person", "to", "try", "prep"):
        yield from _plain(kind, words[kind], "")
    yield from _plain("ignore", ignore, "")


def _plain(kind: str, patterns: list[str], name: str) -> Iterator[Entry]:
    yield from (Entry(kind, places, name) for says in patterns for places in places_of(says))

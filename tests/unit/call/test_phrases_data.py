"""The data files: every word of them means something, and every share adds up."""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

import pytest

from halfsplit.call.phrases import Hedge, Shares
from halfsplit.call.phrases.lexicon import SURE, lexicon
from halfsplit.call.phrases.patterns import Entry
from halfsplit.techsheet import load_machine
from halfsplit.trade import LEVELS

KNOWN = lexicon()
CONCEPTS = KNOWN.concepts


def entries() -> Iterator[Entry]:
    yield from {
        id(entry): entry for word in KNOWN.patterns.words for entry in KNOWN.patterns.beginning((word,))
    }.values()


def all_shares() -> Iterator[tuple[str, Shares]]:
    for level, shares in SURE.items():
        yield f"sure {level}", shares
    for entry in entries():
        yield from ((f"{entry.name} {concept}", shares) for concept, shares in entry.means.items())
    for concept in CONCEPTS.values():
        for place, tie in concept.ties.items():
            yield from ((f"{concept.name} {place} {level}", shares) for level, shares in tie.items())
        for level, others in concept.implies.items():
            yield from ((f"{concept.name} {level} {other}", shares) for other, shares in others.items())


def test_all_shares_are_of_levels_and_sum_to_one() -> None:
    for name, shares in all_shares():
        assert set(shares) <= set(LEVELS), name
        assert sum(shares.values()) == pytest.approx(1), name
        assert min(shares.values()) > 0, name


def test_every_concept_named_anywhere_is_a_concept() -> None:
    named = {entry.name for entry in entries() if entry.kind in ("action", "subject", "saying")}
    named |= {concept for entry in entries() for concept in entry.means}
    named |= {name for concept in CONCEPTS.values() for name in (*concept.ask, concept.otherwise) if name}
    named |= {name for concept in CONCEPTS.values() for others in concept.implies.values() for name in others}
    named |= {name for subject, does in KNOWN.does.items() for name in (subject, *does)} | set(KNOWN.alone.values())
    assert named - set(CONCEPTS) == set()


def test_every_concept_can_be_said() -> None:
    said = {entry.name for entry in entries() if entry.kind in ("action", "subject", "saying")}
    assert set(CONCEPTS) - said - {"works"} == set()


def test_states_and_hedges_are_those_the_reader_knows() -> None:
    states = {entry.name for entry in entries() if entry.kind == "where"}
    assert {where for concept in CONCEPTS.values() for where, _ in concept.ties if where} <= states
    assert KNOWN.only_in <= states
    assert {entry.name for entry in entries() if entry.kind == "hedge"} == set(get_args(Hedge)) - {""}


def test_every_function_the_dryer_s_complaints_speak_of_is_tied_to_a_concept() -> None:
    tied = {function for concept in CONCEPTS.values() for _, function in concept.ties}
    spoken = {name for complaint in load_machine("dryer").complaints.values() for name, _ in complaint.means}
    assert spoken - tied == set()


def test_what_a_machine_does_is_never_said_in_small_words_alone() -> None:
    for entry in entries():
        if entry.kind in ("action", "subject", "part"):
            assert any(not place <= KNOWN.small for place in entry.places), entry


def test_a_level_said_outright_is_the_likeliest() -> None:
    for level, shares in SURE.items():
        assert max(shares, key=shares.__getitem__) == level

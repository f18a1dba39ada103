"""Laws of hearing: whatever is typed, nothing raises, shares add up, and words are quoted from the text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfsplit.call.phrases import Heard, hear
from halfsplit.call.phrases.lexicon import lexicon
from halfsplit.techsheet import load_machine

DRYER = {name: function.ask for name, function in load_machine("dryer").functions.items()}
OUR_WORDS = [*sorted(lexicon().vocabulary.words), ",", ".", "?", "but", "not", "doesn't", "when", "sprockle"]


def holds(text: str, heard: Heard) -> None:
    for shares in (*heard.functions.values(), *(phrase.said.shares for phrase in heard.phrases)):
        assert sum(shares.values()) == pytest.approx(1)
        assert min(shares.values()) >= 0
    assert set(heard.functions) <= set(DRYER)
    assert all(phrase.words and phrase.words in text for phrase in heard.phrases)
    assert all(piece and piece in text for piece in heard.unclear)
    assert all(question.ask == DRYER[question.function] for question in heard.questions)


@given(st.text(max_size=80))
def test_any_text_at_all(text: str) -> None:
    holds(text, hear(text, DRYER))


@given(st.lists(st.sampled_from(OUR_WORDS), max_size=14).map(" ".join))
def test_any_row_of_our_own_words(text: str) -> None:
    heard = hear(text, DRYER)
    holds(text, heard)
    assert heard == hear(text, DRYER)


@given(st.lists(st.sampled_from(OUR_WORDS), max_size=10).map(" ".join))
def test_what_the_sheet_lacks_changes_nothing_of_what_is_understood(text: str) -> None:
    assert [phrase.said for phrase in hear(text, {}).phrases] == [phrase.said for phrase in hear(text, DRYER).phrases]


@given(st.sampled_from(("heats", "turns", "starts", "leaks", "hums", "drains", "spins", "cools", "ignites")))
def test_not_makes_none_of_it(verb: str) -> None:
    base = verb.removesuffix("s")
    (plain,), (denied,) = hear(f"it {verb}", {}).phrases, hear(f"it does not {base}", {}).phrases
    assert plain.said.concept == denied.said.concept
    assert (plain.said.level, denied.said.level) == ("normal", "none")

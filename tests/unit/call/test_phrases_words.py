"""Words, slips and patterns."""

from __future__ import annotations

import doctest

import pytest

from halfsplit.call.phrases import hear, patterns, words
from halfsplit.call.phrases.lexicon import lexicon
from halfsplit.call.phrases.words import split


def forms(text: str) -> list[str]:
    return [word.forms[-1] for word in split(text, lexicon().vocabulary)[0]]


@pytest.mark.parametrize("module", [patterns, words])
def test_the_examples_in_the_text_are_true(module: object) -> None:
    assert doctest.testmod(module).failed == 0  # type: ignore[arg-type]


@pytest.mark.parametrize("text", ["heat", "heats", "heated", "heating", "Heating"])
def test_endings_are_taken_off(text: str) -> None:
    assert forms(text) == ["heat"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("won't", ["will", "not"]),
        ("wont", ["will", "not"]),
        ("can’t", ["can", "not"]),
        ("does'nt", ["do", "not"]),
        ("it's", ["it"]),
    ],
)
def test_shortened_words_are_written_out(text: str, expected: list[str]) -> None:
    assert forms(text) == expected


@pytest.mark.parametrize(("one", "other"), [("odor", "odour"), ("dryer", "drier"), ("mold smell", "mould smell")])
def test_both_kinds_of_spelling_are_known(one: str, other: str) -> None:
    first, second = hear(one, {}), hear(other, {})
    assert [phrase.said.concept for phrase in first.phrases] == [phrase.said.concept for phrase in second.phrases]
    assert not first.slips + second.slips


@pytest.mark.parametrize(
    ("text", "slip"),
    [
        ("not heatign", ("heatign", "heating")),
        ("it leeks", ("leeks", "leaks")),
        ("Rotatess", ("Rotatess", "rotates")),
        ("it vibartes", ("vibartes", "vibrates")),
    ],
)
def test_a_slip_is_mended_and_told(text: str, slip: tuple[str, str]) -> None:
    heard = hear(text, {})
    assert heard.slips == (slip,)
    assert heard.phrases


@pytest.mark.parametrize(
    "word", ["hearing", "beating", "sheets", "coils", "spring", "stains", "blinds", "sport", "party", "wheats"]
)
def test_another_word_is_not_taken_for_a_slip(word: str) -> None:
    heard = hear(f"the {word}", {})
    assert (heard.slips, heard.phrases) == ((), ())


def test_a_number_may_be_figures_or_a_word() -> None:
    for many in ("2", "two", "2-3", "several"):
        assert hear(f"takes {many} cycles", {}).phrases[0].said.concept == "dries"

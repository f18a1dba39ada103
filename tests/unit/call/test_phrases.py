"""Everyday words to the functions of a sheet, with shares."""

from __future__ import annotations

import pytest

from halfsplit.call.phrases import Heard, hear
from halfsplit.techsheet import load_machine

MACHINE = load_machine("dryer")
DRYER = {name: function.ask for name, function in MACHINE.functions.items()}


def likeliest(heard: Heard) -> dict[str, str]:
    return {name: max(shares, key=shares.__getitem__) for name, shares in heard.functions.items()}


@pytest.mark.parametrize("name", MACHINE.complaints)
def test_each_complaint_of_the_dryer_s_sheet_is_heard_as_what_it_means(name: str) -> None:
    complaint = MACHINE.complaints[name]
    heard = hear(complaint.says, DRYER)
    assert heard.unclear == ()
    missed = {"drum turns"} if name == "auto never ends" else set()
    assert dict(complaint.means).items() <= {**dict.fromkeys(missed), **likeliest(heard)}.items()


def test_two_cycles_is_not_no_heat() -> None:
    heard = hear("The clothes take two cycles", DRYER)
    assert heard.functions == {
        "drum turns": pytest.approx({"normal": 0.95, "weak": 0.05}),
        "heat": pytest.approx({"normal": 0.6, "weak": 0.4}),
        "air at the vent": pytest.approx({"weak": 0.5, "normal": 0.4, "none": 0.1}),
    }
    assert heard.sure() == {"drum turns": "normal"}
    assert [question.function for question in heard.questions] == ["heat", "air at the vent"]


def test_what_is_said_outright_goes_before_what_is_implied() -> None:
    heard = hear("It doesn't get hot and the clothes are still damp", DRYER)
    assert heard.functions["heat"] == pytest.approx({"none": 0.95, "weak": 0.05})


def test_the_words_are_kept_as_they_stand() -> None:
    heard = hear("Hello, it TURNS but Doesn’t  heat!", DRYER)
    assert [phrase.words for phrase in heard.phrases] == ["TURNS", "Doesn’t  heat"]
    assert [phrase.says for phrase in heard.phrases] == ["the drum (agitator, arm) turns", "it makes heat"]


def test_what_comes_and_goes_is_noted_and_shared_out() -> None:
    heard = hear("Sometimes it won't heat", DRYER)
    assert heard.phrases[0].said.hedge == "sometimes"
    assert heard.functions["heat"] == pytest.approx({"none": 0.475, "weak": 0.025, "normal": 0.5})
    assert heard.sure() == {}


def test_what_fails_only_later_is_noted_and_shared_out() -> None:
    heard = hear("After 10 minutes it stops heating", DRYER)
    assert heard.phrases[0].said.hedge == "later"
    assert heard.functions["heat"]["normal"] == pytest.approx(0.5)


def test_a_breaker_that_trips_does_not_hold() -> None:
    assert hear("It trips the breaker", DRYER).sure() == {"breaker holds": "none"}
    assert hear("It keeps tripping out the electrics after ten minutes", DRYER).sure() == {"breaker holds": "none"}
    assert hear("It doesn't trip the breaker", DRYER).sure() == {"breaker holds": "normal"}


def test_a_state_chooses_the_function_of_that_state() -> None:
    heard = hear("Heats on high but not on delicate, and it stays hot with the door open", DRYER)
    assert heard.sure() == {"heat": "normal", "heat on delicate": "none", "heat with door open": "normal"}


def test_only_while_held_denies_the_everyday_function() -> None:
    heard = hear("The drum only turns while I hold the start button", DRYER)
    assert heard.sure() == {"turns while held": "normal", "drum turns": "none"}


def test_what_the_sheet_has_no_function_for_is_understood_but_used_for_nothing() -> None:
    heard = hear("It squeaks", DRYER)
    assert [(phrase.said.concept, phrase.means) for phrase in heard.phrases] == [("noisy", {})]
    assert (heard.functions, heard.unclear) == ({}, ())


def test_to_spin_is_to_turn_on_a_sheet_that_has_no_spin() -> None:
    assert hear("it won't spin", DRYER).sure() == {"drum turns": "none"}
    washer = {"drum turns": "Does the drum turn in wash?", "spins": "Does it spin?", "drains": "Does it drain?"}
    assert hear("turns but won't spin", washer).sure() == {"drum turns": "normal", "spins": "none"}
    assert hear("there is water left in the drum", washer).sure() == {"drains": "none"}


def test_one_reader_serves_other_machines() -> None:
    oven = {"bake heats": "?", "broil heats": "?", "oven light": "?", "fan runs": "?", "door latches": "?"}
    heard = hear("Broil works but bake doesn't. The oven light is out and the door won't latch", oven)
    assert heard.sure() == {"broil heats": "normal", "bake heats": "none", "oven light": "none", "door latches": "none"}
    fridge = {"cools": "?", "compressor runs": "?", "cabinet light": "?", "ices over": "?"}
    heard = hear("Not cold enough, full of ice, the light works and the compressor doesn't start", fridge)
    assert heard.sure() == {
        "cools": "weak",
        "ices over": "normal",
        "cabinet light": "normal",
        "compressor runs": "none",
    }


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("I smell gas", "gas"),
        ("smoke comes out", "Smoke"),
        ("got a shock", "shock"),
        ("it trips the breaker", "breaker"),
    ],
)
def test_danger_is_answered_with_a_caution(text: str, word: str) -> None:
    (caution,) = hear(text, DRYER).cautions
    assert word in caution


def test_no_danger_no_caution() -> None:
    assert hear("no smoke and it doesn't leak", DRYER).cautions == ()


def test_a_sign_is_a_sign_in_whatever_state_it_shows() -> None:
    assert hear("it trips the breaker with the door shut", DRYER).sure() == {"breaker holds": "none"}


def test_starting_to_do_something_is_doing_it() -> None:
    heard = hear("It started making a loud noise", DRYER)
    assert {phrase.said.concept for phrase in heard.phrases} == {"noisy"}


def test_two_things_denied_in_one_breath_are_both_denied() -> None:
    heard = hear("no lights no sound", DRYER)
    assert [(phrase.said.concept, phrase.said.level) for phrase in heard.phrases] == [
        ("lights", "none"),
        ("noisy", "none"),
    ]

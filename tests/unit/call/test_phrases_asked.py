"""What is not understood is asked about, never guessed."""

from __future__ import annotations

import pytest

from halfsplit.call.phrases import hear
from halfsplit.techsheet import load_machine

DRYER = {name: function.ask for name, function in load_machine("dryer").functions.items()}

# Beside the machine, of the past, of a part, on a condition, twice denied, or words we do not know.
NOT_SAID = """
fan doesn't stop
fan works on low speed only
worked fine until last week
element gone
needs new belt
doesn't rinse
motor burnt out
broken glass plate
turntable broken
Heater not working
Heating element not working
my old one used to heat fine
the neighbour's dryer heats
is it normal that it heats?
does it need a new heating element?
we turned the heat down
I want to start it tonight
the heating bill is high
the light in the kitchen flickers when it runs
the agitprop frobnicates
it only heats if I kick it
heats unless it is raining
the drum turns backwards
it turns my clothes pink
the cat sleeps in it
it doesn't fail to heat
I can't say that it heats
the door bell works
the power cord gets hot
plug gets hot
belt is broken
door switch broken
lamp holder is broken
my husband fixed it and now it works
after we changed the fuse it worked again
nothing wrong with the drum
nobody can turn it
there is no lack of heat
I never use the heat
wet floor
it's not that it doesn't heat
too slow
I have to hold the start button down to keep it running, as soon as I let go it stops
Dryer turns on by itself in the middle of the night!
After the wash the door stays locked and there's still water in it
"""


@pytest.mark.parametrize("text", NOT_SAID.strip().splitlines())
def test_nothing_is_made_of_it_and_something_is_asked(text: str) -> None:
    heard = hear(text, DRYER)
    assert heard.functions == {}
    assert heard.unclear or heard.questions


def test_what_a_person_did_is_nothing_the_machine_does() -> None:
    assert hear("I turned it off and started it again", DRYER).phrases == ()


@pytest.mark.parametrize("text", ["", "  ", "...", "\n", "'", "?!", "£ & / 😀"])
def test_an_empty_text_says_nothing_and_everything_is_asked(text: str) -> None:
    heard = hear(text, DRYER)
    assert (heard.phrases, heard.functions, heard.unclear) == ((), {}, ())
    assert [question.function for question in heard.questions] == ["drum lamp", "drum turns", "heat", "air at the vent"]


def test_not_working_asks_the_sheet_s_own_questions() -> None:
    heard = hear("It's not working", DRYER)
    assert heard.functions == {}
    assert heard.questions[1].ask == "Does the drum turn after start is let go?"


def test_unknown_words_are_shown_as_they_stand_with_neighbours_together() -> None:
    heard = hear("No heat. The Frobnicator is quite sprockled, and the drum turns.", DRYER)
    assert heard.unclear == ("Frobnicator is quite sprockled",)
    assert heard.sure() == {"heat": "none", "drum turns": "normal"}


def test_a_failing_with_a_condition_comes_and_goes_and_something_well_with_one_is_asked() -> None:
    failing = hear("It won't start if I kick it", DRYER)
    assert [phrase.said.hedge for phrase in failing.phrases] == ["sometimes"]
    assert hear("It starts if I kick it", DRYER).phrases == ()


def test_and_after_not_is_asked_but_or_after_not_is_denied_too() -> None:
    both = hear("It does not turn or heat", DRYER)
    assert both.sure() == {"drum turns": "none", "heat": "none"}
    asked = hear("It does not turn and heat", DRYER)
    assert asked.sure() == {"drum turns": "none"}
    assert asked.unclear == ("heat",)


def test_a_contradiction_is_shared_out_and_asked_about() -> None:
    heard = hear("It heats fine. It does not heat.", DRYER)
    assert heard.functions["heat"] == pytest.approx({"none": 0.475, "weak": 0.05, "normal": 0.475})
    assert [question.function for question in heard.questions] == ["heat"]


def test_a_letter_is_not_read_to_its_end_and_that_is_shown() -> None:
    heard = hear("no heat " + "." * 2000 + " drum does not turn", DRYER)
    assert heard.sure() == {"heat": "none"}
    assert heard.unclear[-1].endswith("drum does not turn")

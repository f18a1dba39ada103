"""Skeletons and the glossary: what whoever writes a sheet begins with."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfsplit.errors import InputError
from halfsplit.predict import Predictor, levels
from halfsplit.proofread import doubts
from halfsplit.techsheet import FAMILIES, catalogue, meanings, meanings_of, read_sheet, skeleton
from halfsplit.techsheet.words import PAPER_WORDS
from halfsplit.trade import LEVELS, NOTHING_WRONG


@pytest.mark.parametrize("family", FAMILIES)
def test_every_skeleton_is_a_sound_sheet_whose_lamp_lights(family: str) -> None:
    text = skeleton(family)
    machine, problems = read_sheet(text, "new.yaml")
    assert [str(problem) for problem in problems] == []
    assert machine is not None
    assert doubts(machine, text, "new.yaml") == ()
    light = machine.functions["light"]
    shown = levels(Predictor(machine, (NOTHING_WRONG,)), light, machine.setups[light.setup])[:, 0]
    assert LEVELS[int(shown.argmax())] == "normal"


def test_an_unknown_family_is_told_with_the_nearest() -> None:
    with pytest.raises(InputError) as caught:
        skeleton("electric drier")
    assert (caught.value.what, caught.value.right) == (
        "There is no family 'electric drier'.",
        "Did you mean 'electric dryer'?",
    )


def test_every_kind_and_every_key_has_a_meaning() -> None:
    every = meanings()
    assert {one.word for one in every if one.place == "kind of part"} == set(catalogue())
    assert [one for one in every if not one.says] == []


def test_a_kind_is_told_with_all_its_keys_and_a_key_with_all_its_places() -> None:
    heater = {one.word for one in meanings_of("heater")}
    assert {"heater", "power", "case"} <= heater
    assert {"kind of part"} < {one.place for one in meanings_of("relay")}
    assert {"lamp", "heater"} <= {one.place for one in meanings_of("power")}


def test_an_unknown_word_is_told_with_the_nearest() -> None:
    with pytest.raises(InputError) as caught:
        meanings_of("wiers")
    assert caught.value.right == "Did you mean 'wires'?"


@pytest.mark.parametrize(
    ("word", "kind"), [("limit", "thermostat"), ("thermal fuse", "thermal cut-off"), ("pilot", "neon lamp")]
)
def test_a_word_of_the_paper_is_told_with_the_kind_it_is(word: str, kind: str) -> None:
    with pytest.raises(InputError) as caught:
        meanings_of(word)
    assert caught.value.right == f"On paper a '{word}' is often a part of kind `{kind}`."
    text = skeleton("washer").replace("kind: lamp", f"kind: {word}")
    _, problems = read_sheet(text, "mine.yaml")
    assert f"`{kind}`" in problems[0].right


def test_every_word_of_the_paper_stands_for_a_kind_that_is_there() -> None:
    assert set(PAPER_WORDS.values()) <= set(catalogue())
    assert not set(PAPER_WORDS) & set(catalogue())


def test_a_file_is_never_written_over(tmp_path: Path) -> None:
    from halfsplit.cli.writing import new

    out = tmp_path / "mine.yaml"
    new("washer", out)
    before = out.read_text(encoding="utf-8")
    with pytest.raises(InputError, match="already"):
        new("gas range", out)
    assert out.read_text(encoding="utf-8") == before == skeleton("washer")

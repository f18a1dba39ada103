"""Finding sheets, and points, setups and steps as people type them."""

import os
from pathlib import Path

import pytest

from halfsplit.errors import InputError, Problem, SheetError
from halfsplit.techsheet import (
    load_machine,
    machine_from_text,
    point_of,
    read_text_file,
    setup_of,
    sheet_text,
    steps_of,
)
from halfsplit.trade import Setup
from tests.unit.techsheet.warmer import FILE, SHEET, machine

NO_FILE = "There is no such file or built-in sheet."


def refusal(name: str) -> Problem:
    """The one problem of a file that cannot be read."""
    with pytest.raises(SheetError) as caught:
        read_text_file(name)
    (found,) = caught.value.problems
    return found


def test_a_sheet_is_found_by_name_or_by_path(tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.write_text(SHEET, encoding="utf-8")
    assert load_machine(str(path)) == machine()
    text, file = sheet_text("dryer")
    assert text.startswith("#")
    assert file == "dryer.yaml"


def test_a_misspelt_name_gets_a_hint() -> None:
    with pytest.raises(SheetError) as caught:
        sheet_text("dryr")
    assert caught.value.problems == (Problem(NO_FILE, "Did you mean 'dryer'?", "dryr"),)


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "byte-order mark"])
def test_a_file_is_read_as_utf_8(tmp_path: Path, mark: bytes) -> None:
    path = tmp_path / FILE
    path.write_bytes(mark + "title: 16 Ω\r\n".encode())
    assert read_text_file(str(path)) == "title: 16 Ω\r\n"


def test_what_is_no_text_is_refused_at_its_line(tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.write_bytes(b"a: b\nc: \xff\xfe\n")
    assert refusal(str(path)) == Problem("This is not UTF-8 text.", "Save it as plain text in UTF-8.", str(path), 2)


def test_a_huge_file_is_refused(tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.write_bytes(b"a" * 10_000_000)
    assert refusal(str(path)) == Problem("This is larger than 256 kB.", "A sheet is a few pages of text.", str(path), 1)


def test_a_folder_and_a_pipe_are_no_files(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert refusal(str(tmp_path)).what == NO_FILE
    assert refusal(str(pipe)).what == NO_FILE


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000, "\ud800"])
def test_an_impossible_name_is_refused(name: str) -> None:
    assert refusal(name).what in (NO_FILE, "This file cannot be opened.")


def test_a_broken_sheet_raises_all_its_problems() -> None:
    with pytest.raises(SheetError) as caught:
        machine_from_text("sheet: x\n", FILE)
    assert [problem.what for problem in caught.value.problems] == [
        "The key 'title' is missing.",
        "The key 'parts' is missing.",
        "The key 'wires' is missing.",
    ]


@pytest.mark.parametrize("text", ["limit 2.3", " Limit 2.3 ", "LIMIT 2.3"])
def test_a_point_is_found_whatever_its_capitals(text: str) -> None:
    assert point_of(machine(), text) == "limit 2.3"


@pytest.mark.parametrize(
    ("text", "what", "right"),
    [
        ("heater", "'heater' is not a point.", "Write part.terminal, as in `heater.1`."),
        ("heatr.1", "There is no part 'heatr'.", "Did you mean 'heater'?"),
        ("heater.3", "'heater' has no terminal '3'.", "Known here: 1, 2."),
        ("wheel.1", "'wheel' has no terminals.", "Name a part that has some."),
    ],
)
def test_what_is_no_point_gets_a_sentence(text: str, what: str, right: str) -> None:
    with pytest.raises(InputError) as caught:
        point_of(machine(), text)
    assert (caught.value.what, caught.value.right) == (what, right)


def test_a_setup_is_found_by_name_or_typed_as_steps() -> None:
    found = machine()
    assert setup_of(found, "open") == found.setups["open"]
    assert setup_of(found, " plug in ") == Setup("plug in", "plug in", (("plug", "in"),))
    steps = (("plug", "in"), ("door", "open"), ("lift", "lamp.2-TB.N-1"))
    assert setup_of(found, "as open, lift lamp.2-TB.N-1") == Setup(
        "as open, lift lamp.2-TB.N-1", "as open, lift lamp.2-TB.N-1", steps
    )


def test_every_setting_of_the_dryer_can_be_typed_as_a_step() -> None:
    dryer = load_machine("dryer")
    for setting, positions in dryer.settings.items():
        for position in positions:
            assert steps_of(dryer, [f"{setting} {position}"]) == ((setting, position),)


@pytest.mark.parametrize(
    ("text", "what", "right"),
    [
        ("opn", "There is no setup 'opn'.", "Did you mean 'open'?"),
        ("", "There is no setup ''.", "Known here: idle, open, lifted."),
        (",", "There is no setup ','.", "Known here: idle, open, lifted."),
        ("as opn, plug in", "There is no setup 'opn'.", "Did you mean 'open'?"),
        ("plug in, as open", "'as open' stands after another step.", "Let `as NAME` be the first step."),
        ("plug inn", "'plug' has no position 'inn'.", "Did you mean 'in'?"),
        ("door open, plg in", "'plg in' begins with no setting of this sheet.", "Did you mean 'plug'?"),
        (
            "door open, wheel stuck",
            "'wheel stuck' begins with no setting of this sheet.",
            "Known here: plug, breaker, door, air.",
        ),
        ("lift lamp.2", "There is no wire 'lamp.2' to lift.", "Did you mean 'lamp.2-TB.N-1'?"),
    ],
)
def test_what_is_no_setup_gets_a_sentence(text: str, what: str, right: str) -> None:
    with pytest.raises(InputError) as caught:
        setup_of(machine(), text)
    assert (caught.value.what, caught.value.right) == (what, right)

"""Find a sheet by name or file, and points, setups and steps in a machine as people type them."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from halfsplit.errors import InputError, Problem, SheetError, quoted
from halfsplit.techsheet import library
from halfsplit.techsheet.build import read_sheet
from halfsplit.techsheet.document import MOST_BYTES, too_large
from halfsplit.techsheet.machine import Machine
from halfsplit.techsheet.words import VERBS, did_you_mean, find_point, named_setup, read_step
from halfsplit.trade import Setup


@lru_cache(maxsize=32)
def machine_from_text(text: str, file: str) -> Machine:
    """A machine from a sheet's text; the same text is read once.

    Raises:
        SheetError: With every mistake.
    """
    machine, problems = read_sheet(text, file)
    if machine is None:
        raise SheetError(problems)
    return machine


def sheet_text(name: str) -> tuple[str, str]:
    """Text and file name of a built-in sheet by name, or of a file by path.

    Raises:
        SheetError: There is no such sheet, or the file cannot be read as text.
    """
    if name in library.names():
        return library.text(name), f"{name}.yaml"
    return read_text_file(name, did_you_mean(name, library.names())), name


def read_text_file(name: str, hint: str = "") -> str:
    """Text of a file a person named; a byte-order mark at its start is dropped.

    Raises:
        SheetError: It is not there, no plain file, too large, not to be read, or not UTF-8 text.
    """
    try:
        path = Path(name)
        if not path.is_file():
            raise SheetError((Problem("There is no such file or built-in sheet.", hint, name),))
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except (OSError, ValueError):
        what = "This file cannot be opened."
        raise SheetError((Problem(what, "Check its name and that you may read it.", name),)) from None
    return text_of(content, name)


def text_of(content: bytes, name: str) -> str:
    """Text of a file's bytes, a byte order mark left off; of a larger file `MOST_BYTES` + 1 are enough to refuse it.

    Raises:
        SheetError: It is too large, or not UTF-8 text.
    """
    if len(content) > MOST_BYTES:
        raise SheetError((too_large(name),))
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        problem = Problem("This is not UTF-8 text.", "Save it as plain text in UTF-8.", name, line)
        raise SheetError((problem,)) from None


def load_machine(name: str) -> Machine:
    """The machine of a built-in sheet or a sheet file.

    Raises:
        SheetError: With every mistake.
    """
    return machine_from_text(*sheet_text(name))


def point_of(machine: Machine, text: str) -> str:
    """A point as typed; capitals do not matter.

    Raises:
        InputError: No such part or terminal.
    """
    folded = {point.lower(): point for point in machine.points}
    if text.strip().lower() in folded:
        return folded[text.strip().lower()]
    return find_point(text, {part.name: part.terminals for part in machine.parts.values()})


def steps_of(machine: Machine, texts: list[str]) -> tuple[tuple[str, str], ...]:
    """Steps as typed, `as NAME` included.

    Raises:
        InputError: An unknown setup, setting, position or wire.
    """
    steps: list[tuple[str, str]] = []
    for index, text in enumerate(texts):
        other = named_setup(text)
        if other and index:
            raise InputError(f"{quoted(text)} stands after another step.", "Let `as NAME` be the first step.")
        steps += _setup_named(machine, other).steps if other else (read_step(text, machine.settings, machine.wires),)
    return tuple(steps)


def _setup_named(machine: Machine, name: str) -> Setup:
    if name not in machine.setups:
        right = did_you_mean(name, machine.setups) or "Write it as steps, as in `plug in, door shut`."
        raise InputError(f"There is no setup {quoted(name)}.", right)
    return machine.setups[name]


def setup_of(machine: Machine, text: str) -> Setup:
    """A setup by name, or typed as steps with commas between them.

    Raises:
        InputError: Neither.
    """
    name = text.strip()
    if name in machine.setups:
        return machine.setups[name]
    pieces = [piece.strip() for piece in name.split(",") if piece.strip()]
    if len(pieces) < 2 and name.partition(" ")[0] not in _first_words(machine):
        return _setup_named(machine, name)
    says = ", ".join(pieces)
    return Setup(says, says, steps_of(machine, pieces))


def _first_words(machine: Machine) -> set[str]:
    """Words with which a typed step can begin."""
    return {name.partition(" ")[0] for name in (*machine.settings, *VERBS)}

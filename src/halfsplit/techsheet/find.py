"""Find a sheet by name or file, and points, setups and steps in a machine as people type them."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from halfsplit.errors import InputError, Problem, SheetError
from halfsplit.techsheet import library
from halfsplit.techsheet.build import read_sheet
from halfsplit.techsheet.document import MOST_BYTES
from halfsplit.techsheet.draft import find_point
from halfsplit.techsheet.machine import Machine
from halfsplit.techsheet.words import LIFT, PUT_BACK, did_you_mean, read_step
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
    """Text of a file a person named.

    Raises:
        SheetError: It is not there, too large, or not UTF-8 text.
    """
    path = Path(name)
    try:
        if path.stat().st_size > MOST_BYTES:
            raise SheetError((Problem(f"This file is larger than {MOST_BYTES // 1024} kB.", "A sheet is a few pages of text.", name),))
        return path.read_text(encoding="utf-8")
    except (OSError, ValueError):
        what = "This is not UTF-8 text." if path.is_file() else "There is no such file or built-in sheet."
        raise SheetError((Problem(what, hint, name),)) from None


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


def settings_of(machine: Machine) -> dict[str, tuple[str, ...]]:
    """What a person can set: every variable but those of mechanical parts."""
    return dict(machine.settings)


def steps_of(machine: Machine, texts: list[str]) -> tuple[tuple[str, str], ...]:
    """Steps as typed, `as NAME` included.

    Raises:
        InputError: An unknown setup, setting, position or wire.
    """
    steps: list[tuple[str, str]] = []
    for text in texts:
        if text.startswith("as "):
            steps += setup_of(machine, text.removeprefix("as ")).steps
        else:
            steps.append(read_step(text, settings_of(machine), machine.wires))
    return tuple(steps)


def setup_of(machine: Machine, text: str) -> Setup:
    """A setup by name, or typed as steps with commas between them.

    Raises:
        InputError: Neither.
    """
    name = text.strip()
    if name in machine.setups:
        return machine.setups[name]
    pieces = [piece.strip() for piece in name.split(",") if piece.strip()]
    if len(pieces) == 1 and not any(pieces[0].startswith(word) for word in (*settings_of(machine), "as ", LIFT, PUT_BACK)):
        raise InputError(f"There is no setup {name!r}.", did_you_mean(name, machine.setups))
    steps = steps_of(machine, pieces)
    says = ", ".join(_setup_says(machine, piece) for piece in pieces)
    return Setup(", ".join(pieces), says, steps)


def _setup_says(machine: Machine, piece: str) -> str:
    """A step in words; `as NAME` is what that setup says."""
    name = piece.removeprefix("as ").strip()
    return machine.setups[name].says if piece.startswith("as ") and name in machine.setups else piece

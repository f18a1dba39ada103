"""Printing: text for people, or JSON whose shape is documented in `docs/commands.md` and kept stable."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from halfsplit.errors import HalfsplitError, InputError, Problem, SheetError

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of text.")]
SheetName = Annotated[str, typer.Argument(metavar="SHEET", help="A built-in sheet by name, or a sheet file.")]
SetupText = Annotated[
    str, typer.Option("--setup", help="A setup by name, or steps with commas: 'plug in, timer timed dry'.")
]
FaultNames = Annotated[list[str], typer.Option("--fault", help="A fault by id, as in heater:open; may be repeated.")]
MISTAKE = 2


def show(text: str) -> None:
    """Print text for people."""
    sys.stdout.write(text.rstrip("\n") + "\n")


def show_json(value: Any) -> None:
    """Print a value as JSON."""
    sys.stdout.write(json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False) + "\n")


def problem_json(problem: Problem) -> dict[str, Any]:
    """One problem as JSON."""
    return {"file": problem.file, "line": problem.line, "what": problem.what, "right": problem.right}


def fail(error: HalfsplitError, *, as_json: bool) -> int:
    """Print a mistake; returns the exit code."""
    problems = error.problems if isinstance(error, SheetError) else (Problem(error.what, error.right),)
    if as_json:
        show_json({"error": [problem_json(problem) for problem in problems]})
    else:
        sys.stderr.write("".join(f"{problem}\n" for problem in problems))
    return MISTAKE


def write_file(out: Path, text: str, *, over: bool = False) -> None:
    """Write a file, over another one only where `over` says so.

    Raises:
        InputError: There is one already, or it cannot be written.
    """
    try:
        with out.open("w" if over else "x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        what = f"There is a file {str(out)!r} already."
        raise InputError(what, "Give another name: it is not written over.") from None
    except OSError as error:
        what = f"{str(out)!r} cannot be written ({error.strerror})."
        raise InputError(what, "Give a place you may write to.") from None

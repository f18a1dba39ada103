"""Commands for whoever writes a sheet: new, words."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from halfsplit.cli.output import AsJson, show, show_json, write_file


def add_to(app: typer.Typer) -> None:
    """Add these commands."""
    for command in (new, words):
        app.command()(command)


def new(
    family: Annotated[str, typer.Argument(metavar="FAMILY", help="As in 'electric dryer'; unknown ones are listed.")],
    out: Annotated[Path | None, typer.Option("--out", help="File to write; printed if left out.")] = None,
    as_json: AsJson = False,
) -> None:
    """Start a sheet from the skeleton of a family: it can be read as it stands, and typed on."""
    from halfsplit.techsheet import skeleton

    text = skeleton(family)
    if out is not None:
        write_file(out, text)
    if as_json:
        show_json({"family": family, "file": None if out is None else str(out), "text": text})
    elif out is None:
        show(text)
    else:
        show(f"{out} is begun. Type on, and see what is said of it with: halfsplit proofread {out}")


def words(
    word: Annotated[str, typer.Argument(metavar="[WORD]", help="A section, key or kind of part.")] = "",
    as_json: AsJson = False,
) -> None:
    """Tell what each word of a sheet means, or one of them with all its keys."""
    from halfsplit.techsheet import meanings, meanings_of

    found = meanings_of(word) if word else tuple(one for one in meanings() if one.place in ("", "kind of part"))
    if as_json:
        rows = [{"word": one.word, "place": one.place, "says": one.says, "required": one.required} for one in found]
        show_json({"words": rows})
        return
    for one in found:
        place = f" ({one.place})" if one.place else ""
        show(f"{one.word}{place}: {one.says}{' Must be given.' if one.required else ''}")

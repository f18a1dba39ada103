"""The command `hear`: a customer's everyday words as functions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from halfsplit.cli.output import AsJson, SheetName, show, show_json

if TYPE_CHECKING:
    from halfsplit.call.phrases import Heard


def add_to(app: typer.Typer) -> None:
    """Add this command."""
    app.command()(hear)


def hear(
    sheet: SheetName,
    words: Annotated[str, typer.Argument(help="What the customer says, in quotes.")],
    as_json: AsJson = False,
) -> None:
    """Hear what a customer says as functions of the machine; what is not understood is asked about, never guessed."""
    from halfsplit.call.phrases import hear as listen
    from halfsplit.techsheet import load_machine

    machine = load_machine(sheet)
    heard = listen(words, {function.name: function.ask for function in machine.functions.values()})
    if as_json:
        show_json({"sheet": sheet, **hearing_json(heard)})
    else:
        show("\n".join(hearing_lines(heard)))


def hearing_json(heard: Heard) -> dict[str, Any]:
    """What was heard, as JSON."""
    return {
        "cautions": list(heard.cautions),
        "functions": {name: dict(shares) for name, shares in heard.functions.items()},
        "sure": heard.sure(),
        "unclear": list(heard.unclear),
        "questions": [question.ask for question in heard.questions],
        "slips": [list(slip) for slip in heard.slips],
    }


def hearing_lines(heard: Heard) -> list[str]:
    """What was heard, for people: cautions first, then what it means, then what to ask."""
    from halfsplit.units import show_share

    lines = list(heard.cautions)
    for name, shares in heard.functions.items():
        levels = sorted(shares.items(), key=lambda pair: -pair[1])
        lines.append(f"{name}: {', '.join(f'{level} ({show_share(share)})' for level, share in levels if share > 0)}")
    lines += [f"{written!r} was read as {read!r}." for written, read in heard.slips]
    lines += [f"Not understood: {words!r}. Ask about it." for words in heard.unclear]
    lines += [f"Ask: {question.ask}" for question in heard.questions]
    return lines or ["Nothing in this speaks of what the machine does. Ask what it does and what it does not."]

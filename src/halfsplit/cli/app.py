"""The command and its subcommands. Heavy libraries are imported by the command that needs them."""

from __future__ import annotations

import sys

import typer

from halfsplit.cli import cases, find, hearing, looking, machines, trees, trials, web, writing
from halfsplit.cli.output import fail
from halfsplit.errors import HalfsplitError

app = typer.Typer(
    name="halfsplit",
    help="Find the failed part of a dead appliance with its wiring sheet and a meter.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
for module in (web, find, hearing, cases, machines, looking, writing, trees, trials):
    module.add_to(app)


def main() -> None:
    """Run the command; a mistake in what was typed is one sentence and exit code 2."""
    try:
        app(standalone_mode=True)
    except HalfsplitError as error:
        sys.exit(fail(error, as_json="--json" in sys.argv))
    except BrokenPipeError:
        sys.exit(0)

"""Commands that open the desk: serve and demo."""

from __future__ import annotations

from typing import Annotated

import typer


def add_to(app: typer.Typer) -> None:
    """Add these commands."""
    del app


Port = Annotated[int, typer.Option("--port", help="Port to listen on; 0 takes a free one.")]

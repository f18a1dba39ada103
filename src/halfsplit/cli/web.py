"""Commands that open the desk: serve, and demo on invented data."""

from __future__ import annotations

import signal
import sys
from pathlib import Path
from typing import Annotated

import typer

from halfsplit.cli.output import AsJson, show, show_json

Port = Annotated[int, typer.Option("--port", min=0, max=65535, help="Port to listen on; 0 takes a free one.")]
_EVERYWHERE, _HERE = "0.0.0.0", "127.0.0.1"  # noqa: S104 - other machines need the key in the address
_DEMO_NOTE = "Harrow Bend (invented): 4 Mill Lane"


def add_to(app: typer.Typer) -> None:
    """Add these commands."""
    app.command()(demo)
    app.command()(serve)


def demo(
    port: Port = 8517,
    here_only: Annotated[bool, typer.Option("--here-only", help="Serve this machine only, no telephone.")] = False,
    as_json: AsJson = False,
) -> None:
    """Open the desk on invented data, ready for a telephone on the same network."""
    from halfsplit.desk.folder import data_folder

    home = data_folder() / "demo"
    _open(home, _HERE if here_only else _EVERYWHERE, port, as_json=as_json, invented=True)


def serve(
    port: Port = 8517,
    lan: Annotated[bool, typer.Option("--lan", help="Let a telephone on the same network in, with the key.")] = False,
    as_json: AsJson = False,
) -> None:
    """Open the desk on your own data."""
    from halfsplit.desk.folder import data_folder

    _open(data_folder(), _EVERYWHERE if lan else _HERE, port, as_json=as_json, invented=False)


def _open(home: Path, host: str, port: int, *, as_json: bool, invented: bool) -> None:
    from halfsplit.desk.start import access_key, prepare
    from halfsplit.desk.start import serve as run

    prepare(home)
    if invented:
        _fill_with_invented_call()
    key = access_key(home)
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))

    def ready(listening: int) -> None:
        _tell(listening, key if host == _EVERYWHERE else "", home, as_json=as_json, invented=invented)

    try:
        run(host, port, home, ready=ready)
    except KeyboardInterrupt:
        show("Closed. Everything entered is kept.")


def _fill_with_invented_call() -> None:
    """One call in an invented town, unless the demo folder has calls already."""
    from halfsplit.desk.records import store
    from halfsplit.techsheet import sheet_text

    if not store.calls(most=1):
        store.start_call(*sheet_text("dryer"), complaint="no heat", note=_DEMO_NOTE)


def _tell(port: int, key: str, home: Path, *, as_json: bool, invented: bool) -> None:
    from halfsplit.desk.guard.hosts import own_addresses

    here = f"http://localhost:{port}/"
    addresses = [address for address in own_addresses() if ":" not in address] if key else []
    telephone = f"http://{addresses[0]}:{port}/?key={key}" if addresses else ""
    if as_json:
        show_json({"here": here, "telephone": telephone or None, "folder": str(home), "invented": invented})
    else:
        show(f"On this machine:  {here}")
        if telephone:
            show(f"On a telephone:   {telephone}  (same network; the key is only for you)")
        show("The data is invented." if invented else f"Your records are in {home}")
        show("Ctrl-C closes it; nothing entered is lost.")
    sys.stdout.flush()

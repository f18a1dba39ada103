"""The desk's door: make a data folder ready, and serve the pages. The command line calls nothing else of the web."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from halfsplit.desk.folder import ACCESS_KEY, data_folder, make_folder, read_secret
from halfsplit.errors import HalfsplitError

if TYPE_CHECKING:
    from django.core.handlers.wsgi import WSGIHandler

_THREADS = 4
_MOST_BODY_BYTES = 64 * 1024 * 1024
"""Far more than is read: whoever sends a huge file by mistake gets a page with a sentence, not a broken line."""
_MOST_HEADER_BYTES = 32 * 1024


class StartError(HalfsplitError):
    """The desk cannot open: its folder cannot be written, or its port is taken."""


def prepare(home: Path | None = None) -> Path:
    """Make the data folder, its secrets and its tables ready; then `records.store` can be used.

    Args:
        home: The data folder; `HALFSPLIT_HOME` or the user's own if left out. One program uses one.

    Returns:
        The data folder.

    Raises:
        StartError: It cannot be made or written, or this program has another one open.
    """
    folder = (home or data_folder()).expanduser().absolute()
    try:
        make_folder(folder)
        _set_up_django(folder)
        _bring_tables_up_to_date()
    except OSError as error:
        raise StartError(
            f"The data folder {folder} cannot be used: {error.strerror}.", "Name another with HALFSPLIT_HOME."
        ) from error
    return folder


def access_key(home: Path | None = None) -> str:
    """The key that other machines need, as in `http://ADDRESS:PORT/?key=KEY`; the folder must be prepared."""
    return read_secret(home or data_folder(), ACCESS_KEY)


def make_app() -> WSGIHandler:
    """The WSGI application; call `prepare` first."""
    from django.core.wsgi import get_wsgi_application  # noqa: PLC0415  # the settings must know the folder first

    return get_wsgi_application()


def serve(
    host: str, port: int, home: Path | None = None, warm: bool = True, ready: Callable[[int], None] | None = None
) -> None:
    """Serve the desk until interrupted (Ctrl-C, or SIGTERM turned into SystemExit).

    Args:
        host: Address to listen on; anything but loopback also lets other machines in, with the key.
        port: Port to listen on; 0 takes a free one.
        home: The data folder, see `prepare`.
        warm: Whether to work out the first answers beforehand, in the background.
        ready: Called with the port once the desk listens.

    Raises:
        StartError: The folder cannot be used, or the port is taken or not allowed.
    """
    # Only who serves pays for loading the server; it comes without types.
    from waitress.server import create_server  # type: ignore[import-untyped]  # noqa: PLC0415

    from halfsplit.desk.answers import warm_in_background  # noqa: PLC0415  # loads the engine

    prepare(home)
    from halfsplit.desk.records import store  # noqa: PLC0415  # its tables need what was just prepared

    limits = {"max_request_body_size": _MOST_BODY_BYTES, "max_request_header_size": _MOST_HEADER_BYTES}
    try:
        server = create_server(make_app(), host=host, port=port, threads=_THREADS, ident="", **limits)
    except OSError as error:
        raise StartError(
            f"Port {port} on {host} cannot be listened on: {error.strerror}.", "Choose another with --port."
        ) from error
    if warm:
        warm_in_background(store.sheets_in_use())
    if ready is not None:
        ready(_port(server, port))
    server.run()


def _port(server: object, asked: int) -> int:
    """The port it listens on; several addresses of one name share it unless a free one was asked for."""
    listening = getattr(server, "effective_listen", None)
    return int(listening[0][1]) if listening else int(getattr(server, "effective_port", asked))


def _set_up_django(folder: Path) -> None:
    import django  # noqa: PLC0415  # heavy, and its settings read the folder from the environment
    from django.conf import settings  # noqa: PLC0415

    os.environ["HALFSPLIT_HOME"] = str(folder)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "halfsplit.desk.settings")
    with _LocalTime():
        django.setup()
    if folder != settings.HOME:
        raise StartError(f"This program already has {settings.HOME} open.", "Start another one for another folder.")


def _bring_tables_up_to_date() -> None:
    from django.core.management import call_command  # noqa: PLC0415  # see above

    call_command("migrate", interactive=False, verbosity=0)


class _LocalTime:
    """Django sets this process's clock to the zone of its settings; pages show the clock on the wall."""

    def __enter__(self) -> None:
        self.before = os.environ.get("TZ")

    def __exit__(self, *_: object) -> None:
        if self.before is None:
            os.environ.pop("TZ", None)
        else:
            os.environ["TZ"] = self.before
        if hasattr(time, "tzset"):
            time.tzset()

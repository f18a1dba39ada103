"""The data folder: where it is, and the two secrets made once in it. Knows no Django and nothing of calls."""

from __future__ import annotations

import os
import secrets
from pathlib import Path

import platformdirs

SIGNING_SECRET = "signing-secret"  # noqa: S105  # the name of a file, not a secret
ACCESS_KEY = "access-key"
DATABASE = "halfsplit.sqlite3"
_KEY_LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"
"""What a person can read off one screen and type on another: no l, i, o, 0, 1. 16 of them are 79 bits."""
_KEY_LENGTH = 16


def data_folder() -> Path:
    """The folder named by `HALFSPLIT_HOME`, or the user's own data folder. It may not exist yet."""
    named = os.environ.get("HALFSPLIT_HOME", "")
    return Path(named).expanduser().absolute() if named else Path(platformdirs.user_data_dir("halfsplit"))


def make_folder(home: Path) -> None:
    """Make the folder, for its owner alone, and the two secrets in it; what is there already stays.

    Raises:
        OSError: It cannot be made or written.
    """
    home.mkdir(mode=0o700, parents=True, exist_ok=True)
    _keep(home / SIGNING_SECRET, secrets.token_urlsafe(48))
    _keep(home / ACCESS_KEY, "".join(secrets.choice(_KEY_LETTERS) for _ in range(_KEY_LENGTH)))


def read_secret(home: Path, name: str) -> str:
    """A secret of the folder; empty if there is none, with which nothing can be signed or opened."""
    path = home / name
    return path.read_text(encoding="ascii").strip() if path.is_file() else ""


def _keep(path: Path, fresh: str) -> None:
    """Write a secret that is not there yet: in a file of its own first, so that half a secret is never read."""
    if path.is_file() and path.stat().st_size:
        return
    draft = path.with_name(f"{path.name}.{os.getpid()}")
    with os.fdopen(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w", encoding="ascii") as file:
        file.write(f"{fresh}\n")
        file.flush()
        os.fsync(file.fileno())
    draft.replace(path)

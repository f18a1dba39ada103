"""All of a change or none of it, and what the database says in one plain sentence."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import DatabaseError, transaction

from halfsplit.desk.records.values import RecordsError


@contextmanager
def at_once() -> Iterator[None]:
    """All of it or nothing, with the lock taken before anything is read."""
    with plainly(), transaction.atomic():
        yield


@contextmanager
def plainly() -> Iterator[None]:
    """Turn what the database cannot do into a `RecordsError`."""
    try:
        yield
    except DatabaseError as error:
        raise RecordsError(
            f"The records could not be reached ({error}); nothing was written.",
            "Close other programs that use them, see that the disk has room, and try again.",
        ) from error

"""What can be entered on a call, and how it is written in a row: a kind and a small JSON payload.

What may live here: values and their writing, no database. The kinds are part of every stored call: add new ones, never
change the meaning of an old one.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from halfsplit.trade import Action, Look, Measure, Reading, Seen


@dataclass(frozen=True, slots=True)
class Skipped:
    """A check not to be proposed again."""

    action: Action


@dataclass(frozen=True, slots=True)
class CannotReach:
    """A point no probe can get to."""

    point: str


@dataclass(frozen=True, slots=True)
class Changed:
    """A thing changed or mended; what is entered later is seen on the machine without its faults."""

    thing: str


@dataclass(frozen=True, slots=True)
class SetTo:
    """Something that holds for the whole call, as in cord, 3-wire. The last one that stands counts."""

    setting: str
    position: str


@dataclass(frozen=True, slots=True)
class TakenBack:
    """Another entry of the call, by number, that no longer counts. It can itself be taken back."""

    entry: int


What = Seen | Reading | Skipped | CannotReach | Changed | SetTo | TakenBack


@dataclass(frozen=True, slots=True)
class EntryRecord:
    """One entry as stored.

    Attributes:
        number: Rises with every entry; unique over all calls.
        made: When, with its time zone.
        what: What was entered.
        stands: Whether it counts, which it does until it is taken back.
    """

    number: int
    made: datetime
    what: What
    stands: bool


OPEN = "OL"
"""How an open reading is written: JSON has no infinity."""


def written(what: What) -> tuple[str, dict[str, Any]]:
    """Kind and payload of an entry."""
    kind = _KIND_OF[type(what)]
    return kind, _WRITE[kind](what)


def read(kind: str, payload: Mapping[str, Any]) -> What:
    """The entry that was written so."""
    return _READ[kind](payload)


def standing_numbers(entries: Iterable[tuple[int, What]]) -> frozenset[int]:
    """Numbers of the entries that count: those no counting entry takes back. Only later ones can take back."""
    back: set[int] = set()
    standing: set[int] = set()
    for number, what in sorted(entries, key=lambda pair: pair[0], reverse=True):
        if number in back:
            continue
        standing.add(number)
        if isinstance(what, TakenBack):
            back.add(what.entry)
    return frozenset(standing)


def _write_seen(seen: Seen) -> dict[str, Any]:
    return {"function": seen.function, "level": seen.level, "by": seen.by, "setup": seen.setup}


def _write_reading(reading: Reading) -> dict[str, Any]:
    value = OPEN if math.isinf(reading.value) else reading.value
    return {"points": list(reading.points), "mode": reading.mode, "setup": reading.setup, "value": value}


def _write_skipped(skipped: Skipped) -> dict[str, Any]:
    action = skipped.action
    if isinstance(action, Look):
        return {"function": action.function, "setup": action.setup}
    return {"points": list(action.points), "mode": action.mode, "setup": action.setup}


def _read_reading(payload: Mapping[str, Any]) -> Reading:
    value = math.inf if payload["value"] == OPEN else float(payload["value"])
    a, b = payload["points"]
    return Reading((a, b), payload["mode"], payload["setup"], value)


def _read_skipped(payload: Mapping[str, Any]) -> Skipped:
    if "function" in payload:
        return Skipped(Look(payload["function"], payload["setup"]))
    a, b = payload["points"]
    return Skipped(Measure((a, b), payload["mode"], payload["setup"]))


_KIND_OF: dict[type, str] = {
    Seen: "seen",
    Reading: "reading",
    Skipped: "skipped",
    CannotReach: "cannot reach",
    Changed: "changed",
    SetTo: "set to",
    TakenBack: "taken back",
}
_WRITE: dict[str, Callable[[Any], dict[str, Any]]] = {
    "seen": _write_seen,
    "reading": _write_reading,
    "skipped": _write_skipped,
    "cannot reach": lambda what: {"point": what.point},
    "changed": lambda what: {"thing": what.thing},
    "set to": lambda what: {"setting": what.setting, "position": what.position},
    "taken back": lambda what: {"entry": what.entry},
}
_READ: dict[str, Callable[[Mapping[str, Any]], What]] = {
    "seen": lambda row: Seen(row["function"], row["level"], row["by"], row["setup"]),
    "reading": _read_reading,
    "skipped": _read_skipped,
    "cannot reach": lambda row: CannotReach(row["point"]),
    "changed": lambda row: Changed(row["thing"]),
    "set to": lambda row: SetTo(row["setting"], row["position"]),
    "taken back": lambda row: TakenBack(int(row["entry"])),
}

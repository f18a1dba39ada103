"""The notebook kept while a sheet is checked: what is known so far, and every problem with its line.

What may live here: how problems are noted, and how one section asks another. A setting or part that has a problem of
its own is unsure; whatever follows from that is not told again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TypeVar

from halfsplit.circuit import Condition
from halfsplit.errors import InputError, Problem, quoted
from halfsplit.techsheet.document import Document
from halfsplit.techsheet.events import MOST_PROBLEMS, Path
from halfsplit.techsheet.fit import in_doubt
from halfsplit.techsheet.form import SheetForm
from halfsplit.techsheet.kinds.base import Stamp, Surroundings
from halfsplit.techsheet.words import did_you_mean, find_point, read_state

Found = TypeVar("Found")
_HERTZ = 60.0


class EnoughError(Exception):
    """More problems than anyone wants to read."""


class FollowUpError(InputError):
    """Follows from a problem that is noted already: nothing to say."""

    def __init__(self) -> None:
        super().__init__("")


@dataclass(slots=True)
class Draft:
    """What is known of a sheet while it is being checked; dropped when the machine is made."""

    form: SheetForm
    document: Document
    problems: list[Problem]
    doubts: frozenset[Path] = frozenset()
    variables: dict[str, tuple[str, ...]] = field(default_factory=dict)
    places: dict[str, tuple[str, dict[str, float]]] = field(default_factory=dict)
    stamps: dict[str, Stamp] = field(default_factory=dict)
    rates: dict[str, dict[str, float]] = field(default_factory=dict)
    crossable: dict[str, tuple[tuple[str, str], ...]] = field(default_factory=dict)
    intermittent: dict[str, dict[str, str]] = field(default_factory=dict)
    missing: set[str] = field(default_factory=set)
    unsure_settings: set[str] = field(default_factory=set)
    unsure_parts: set[str] = field(default_factory=set)

    @contextmanager
    def noting(self, *path: str | int) -> Iterator[None]:
        """Turn an `InputError` raised inside into a problem at `path`."""
        try:
            yield
        except FollowUpError:
            pass
        except InputError as error:
            self.note(path, error.what, error.right)

    def tried(self, path: Path, work: Callable[[], Found]) -> Found | None:
        """What `work` gives; None when it raised an `InputError`, which is then noted at `path`."""
        found: list[Found] = []
        with self.noting(*path):
            found.append(work())
        return found[0] if found else None

    def note(self, path: Path, what: str, right: str = "") -> None:
        """Add one problem, unless something at that path was told already.

        Raises:
            EnoughError: There are more than anyone wants to read.
        """
        if in_doubt(path, self.doubts):
            return
        self.problems.append(self.document.problem(path, what, right))
        if len(self.problems) >= MOST_PROBLEMS:
            raise EnoughError

    def need(self, section: str) -> None:
        """Say once that a section is missing when something asks for it.

        Raises:
            FollowUpError: It is missing, or wrong as a whole.
        """
        if in_doubt((section,), {doubt for doubt in self.doubts if len(doubt) == 1}):
            raise FollowUpError
        if not getattr(self.form, section):
            if section not in self.missing:
                self.missing.add(section)
                self.note((section,), f"There is no section `{section}`, and others ask for it.", f"Add `{section}:`.")
            raise FollowUpError

    def surroundings(self) -> Surroundings:
        """What parts may ask of the sheet."""
        hertz = next((stamp.hertz for stamp in self.stamps.values() if stamp.hertz is not None), _HERTZ)
        return Surroundings(self.condition, self.temperature, self.terminals_of, self.positions, hertz)

    def state(self, phrase: str) -> tuple[str, frozenset[str]]:
        """Variable and positions of a phrase."""
        try:
            return read_state(phrase, self.variables)
        except InputError:
            unsure = self.unsure_settings | (self.unsure_parts - set(self.form.settings))
            if any(f"{phrase.strip()} ".startswith(f"{name} ") for name in unsure):
                raise FollowUpError from None
            self.need("settings")
            raise

    def condition(self, phrase: str) -> Condition:
        """A phrase as a condition."""
        return ((self.state(phrase),),)

    def point(self, text: str) -> str:
        """A point as written."""
        if text.strip().rpartition(".")[0] in self.unsure_parts:
            raise FollowUpError
        self.need("parts")
        known = {part: self.stamps[part].terminals for part in self.form.parts if part in self.stamps}
        return find_point(text, known)

    def temperature(self, place: str) -> tuple[str, dict[str, float]]:
        """Setting that rules a place, and °C at each of its positions."""
        if place in self.places:
            return self.places[place]
        self.need("temperatures")
        if place in self.form.temperatures:
            raise FollowUpError
        what = f"There is no place {quoted(place)} in `temperatures`."
        raise InputError(what, did_you_mean(place, self.form.temperatures))

    def terminals_of(self, part: str) -> tuple[str, ...]:
        """Terminals of another part, which is stamped early."""
        if part in self.unsure_parts:
            raise FollowUpError
        if part in self.stamps:
            return self.stamps[part].terminals
        if part in self.form.parts:
            raise InputError(f"Nothing plugs into {quoted(part)}.", "Name the part of kind `outlet`.")
        right = did_you_mean(part, self.form.parts)
        raise InputError(f"There is no part {quoted(part)}.", right)

    def positions(self, setting: str) -> tuple[str, ...]:
        """Positions of a setting."""
        if setting in self.variables:
            return self.variables[setting]
        if setting in self.unsure_settings:
            raise FollowUpError
        self.need("settings")
        right = did_you_mean(setting, self.variables) or "Add it to `settings`."
        raise InputError(f"There is no setting {quoted(setting)}.", right)

"""The notebook kept while a sheet is checked: what is known so far, and every problem with its line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field

from halfsplit.circuit import Condition
from halfsplit.errors import InputError, Problem
from halfsplit.techsheet.document import Document, Path
from halfsplit.techsheet.form import SheetForm
from halfsplit.techsheet.kinds.base import Stamp, Surroundings
from halfsplit.techsheet.words import did_you_mean, read_condition
from halfsplit.units import read_temperature


@dataclass(slots=True)
class Draft:
    """What is known of a sheet while it is being checked; dropped when the machine is made."""

    form: SheetForm
    document: Document
    problems: list[Problem] = field(default_factory=list)
    variables: dict[str, tuple[str, ...]] = field(default_factory=dict)
    stamps: dict[str, Stamp] = field(default_factory=dict)
    doubtful: set[str] = field(default_factory=set)

    @contextmanager
    def noting(self, *path: str | int) -> Iterator[None]:
        """Turn an `InputError` raised inside into a problem at `path`."""
        try:
            yield
        except InputError as error:
            self.note(path, error.what, error.right)

    def note(self, path: Path, what: str, right: str = "") -> None:
        """Add one problem."""
        if what:  # an empty one follows from a problem already noted
            self.problems.append(self.document.problem(path, what, right))

    def surroundings(self) -> Surroundings:
        """What parts may ask of the sheet."""
        return Surroundings(self.condition, self.temperature, self.terminals_of, self.positions)

    def condition(self, phrase: str) -> Condition:
        """A phrase as a condition."""
        return read_condition([phrase], self.variables)

    def temperature(self, place: str) -> tuple[str, dict[str, float]]:
        """Setting that rules a place, and °C at each of its positions."""
        row = self.form.temperatures.get(place)
        if row is None:
            raise InputError(f"There is no place {place!r} in `temperatures`.", did_you_mean(place, self.form.temperatures))
        setting = row.get("setting", "")
        return setting, {
            position: read_temperature(row[position]) for position in self.positions(setting) if position in row
        }

    def terminals_of(self, part: str) -> tuple[str, ...]:
        """Terminals written for another part."""
        written = self.form.parts.get(part, {}).get("terminals", [])
        if not isinstance(written, list) or not written:
            raise InputError(f"There is no part {part!r} with terminals.", did_you_mean(part, self.form.parts))
        return tuple(written)

    def positions(self, setting: str) -> tuple[str, ...]:
        """Positions of a setting."""
        if setting not in self.variables:
            raise InputError(f"There is no setting {setting!r}.", did_you_mean(setting, self.variables))
        return self.variables[setting]


def find_point(point: str, terminals: Mapping[str, tuple[str, ...]]) -> str:
    """Check `part.terminal` against the terminals of every part.

    Raises:
        InputError: No such part or terminal, with the nearest one.
    """
    part, dot, terminal = point.strip().rpartition(".")
    if not dot:
        raise InputError(f"{point.strip()!r} is not a point.", "Write part.terminal, as in `heater.1`.")
    if part not in terminals:
        raise InputError(f"There is no part {part!r}.", did_you_mean(part, terminals))
    if terminal not in terminals[part]:
        raise InputError(f"{part!r} has no terminal {terminal!r}.", did_you_mean(terminal, terminals[part]))
    return f"{part}.{terminal}"

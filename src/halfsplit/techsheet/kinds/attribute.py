"""The keys of a part: how each is read and what it means, and the values once they are read.

What may live here: the table's form. Code, checker, JSON Schema and manual all read the same table.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

Reader = Literal[
    "volts",
    "ohms",
    "amps",
    "hertz",
    "metres",
    "temperature",
    "power",
    "price",
    "minutes",
    "name",
    "names",
    "state",
    "states",
    "contacts",
    "chart",
    "shares",
    "place",
    "setting",
    "socket",
    "point",
    "rates",
    "leads",
    "phrases",
]
"""How the value of an attribute is read and checked; `sections.attributes` has one function for each."""


@dataclass(frozen=True, slots=True)
class Attribute:
    """One key of a part: how it is read, what it means, and its default (None: required, unless optional)."""

    name: str
    reader: Reader
    meaning: str
    default: Any = None
    optional: bool = False

    @property
    def required(self) -> bool:
        """Whether a part of this kind must give it."""
        return self.default is None and not self.optional


@dataclass(frozen=True, slots=True)
class Contact:
    """One contact as written: its two terminals, and the phrase that says when it is closed."""

    a: str
    b: str
    phrase: str

    @property
    def name(self) -> str:
        """Both terminals with a dash."""
        return f"{self.a}-{self.b}"


@dataclass(frozen=True, slots=True)
class PartValues:
    """A part as written, its attributes already read into SI values."""

    part: str
    title: str
    values: Mapping[str, Any]

    def number(self, name: str) -> float:
        """A quantity, in SI (temperatures in °C)."""
        return float(self.values[name])

    def power(self, name: str) -> tuple[float, float]:
        """Watts and the volts they are rated at."""
        watts, volts = self.values[name]
        return float(watts), float(volts)

    def name(self, name: str) -> str:
        """A word."""
        return str(self.values[name])

    def names(self, name: str) -> tuple[str, ...]:
        """A list of words."""
        return tuple(self.values[name])

    def states(self, name: str) -> dict[str, str]:
        """A mapping of words to phrases."""
        return dict(self.values[name])

    def contacts(self, name: str) -> tuple[Contact, ...]:
        """Contacts with their phrases; of a step chart, the phrase is its steps."""
        return tuple(self.values[name])

    def shares(self, name: str) -> dict[str, float]:
        """A mapping of positions to shares from 0 to 1."""
        return dict(self.values[name])

    def has(self, name: str) -> bool:
        """Whether an optional attribute was given."""
        return self.values.get(name) is not None

    def point(self, terminal: str) -> str:
        """The point of one of this part's terminals; `~` before a name marks a point inside the part."""
        return f"{self.part}.{terminal}"

    def branch(self, name: str) -> str:
        """Full name of one of this part's branches or variables."""
        return f"{self.part}:{name}"

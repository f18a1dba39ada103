"""The values: setups, what was seen or read, suspects, and things one can do to learn more."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Mode = Literal[
    "volts",
    "low-z",
    "ohms",
    "amps",
    "dc",
    "ac+dc",
    "continuity",
    "watts",
    "insulation-500",
    "insulation-250",
]
"""What the meter is set to; all else about a mode stands in `units.METER_MODES`."""
Level = Literal["none", "weak", "normal", "too much"]
Observer = Literal["customer", "technician"]
MODES: tuple[Mode, ...] = get_args(Mode)
LEVELS: tuple[Level, ...] = get_args(Level)


@dataclass(frozen=True, slots=True)
class Setup:
    """The state in which something is seen or read: steps replayed from the defined start.

    Attributes:
        name: Its name on the sheet or in the case, or the steps themselves.
        says: The same in words.
        steps: (setting, position) in order. The setting `lift` takes a wire off, by the wire's name.
        minutes: Time to bring it about, beyond the act of looking or measuring.
    """

    name: str
    says: str
    steps: tuple[tuple[str, str], ...]
    minutes: float = 0.0


@dataclass(frozen=True, slots=True)
class Seen:
    """A function seen (or told) at a level, in a setup."""

    function: str
    level: Level
    by: Observer
    setup: str


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading between two points in a setup, in the mode's unit: infinity for OL, 1 or 0 for a tone or none."""

    points: tuple[str, str]
    mode: Mode
    setup: str
    value: float


Evidence = Seen | Reading


@dataclass(frozen=True, slots=True)
class Suspect:
    """A set of faults that may be the truth, by id; empty when nothing is wrong in the machine."""

    faults: tuple[str, ...]

    @property
    def name(self) -> str:
        """Stable name: the fault ids joined, or the name of the special case."""
        return " + ".join(self.faults) if self.faults else "nothing wrong"


NOTHING_WRONG = Suspect(())
NOT_ON_SHEET = Suspect(("not on this sheet",))


@dataclass(frozen=True, slots=True)
class Look:
    """Look at (or ask about) one function in a setup."""

    function: str
    setup: str


@dataclass(frozen=True, slots=True)
class Measure:
    """Put the probes on two points in a setup, in a meter mode."""

    points: tuple[str, str]
    mode: Mode
    setup: str


Action = Look | Measure

"""The drawing as values: what stands where, in px of a frame 358 wide (a telephone of 390 less its margins).

What may live here: the frozen pieces and the boxes they take up. y grows downwards. `svg` turns them into text, and
the tests read them back.
"""

from __future__ import annotations

from dataclasses import dataclass

from halfsplit.drawing.graph import Link
from halfsplit.drawing.letters import STYLES, width

WIDTH = 358.0
COLUMN = 108.0
"""Where the wiring runs."""
LABELS = COLUMN + 26.0
"""Where labels begin."""
FLAG_HALF, FLAG_LEFT, FLAG_BODY, FLAG_TIP = 24.0, 6.0, COLUMN - 31.0, COLUMN - 9.0
"""A flag's half height, and where its left side, the end of its body and its tip are."""
SYMBOL_HALF_WIDTH, SYMBOL_HALF = 20.0, 24.0
MARK = 16.0
"""Side of a mark's square."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box) -> bool:
        """Whether the two share more than an edge."""
        beside = self.right <= other.left or other.right <= self.left
        above = self.bottom <= other.top or other.bottom <= self.top
        return not (beside or above)


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text, its middle at height `y`; `x` is where it begins, or its middle."""

    text: str
    style: str
    x: float
    y: float
    centred: bool = False
    faint: bool = False

    @property
    def box(self) -> Box:
        """What it can take up."""
        wide, half = width(self.text, self.style), STYLES[self.style].line / 2
        left = self.x - wide / 2 if self.centred else self.x
        return Box(left, self.y - half, left + wide, self.y + half)


@dataclass(frozen=True, slots=True)
class Mark:
    """A small sign before a word: `cleared`, `suspected`, `lifted` or `live`. `x` is its left side, `y` its middle."""

    sort: str
    x: float
    y: float

    @property
    def box(self) -> Box:
        """What it takes up."""
        return Box(self.x, self.y - MARK / 2, self.x + MARK, self.y + MARK / 2)


@dataclass(frozen=True, slots=True)
class Joint:
    """A terminal. `letter` is the probe's, if one is put there; `plate` is the frame round its name then.

    `address` is where a tap on it leads.
    """

    point: str
    y: float
    letter: str = ""
    plate: Box | None = None
    address: str = ""


@dataclass(frozen=True, slots=True)
class Flag:
    """A probe's flag, its tip at the terminal."""

    letter: str
    point: str
    y: float

    @property
    def box(self) -> Box:
        """What its body takes up; from there to the tip it is too thin to reach a symbol above or below."""
        return Box(FLAG_LEFT, self.y - FLAG_HALF, FLAG_BODY, self.y + FLAG_HALF)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A link from the terminal at `top` to the one at `bottom`; `turned` when its end b is the upper one."""

    link: Link
    top: float
    bottom: float
    closed: bool
    turned: bool
    marks: tuple[str, ...]
    flows: bool = False

    @property
    def middle(self) -> float:
        """Height of its symbol's middle."""
        return (self.top + self.bottom) / 2

    @property
    def box(self) -> Box:
        """What its symbol takes up: of a wire only its own width."""
        half = SYMBOL_HALF_WIDTH if self.link.symbol else 5.0
        high = SYMBOL_HALF if self.link.symbol else (self.bottom - self.top) / 2
        return Box(COLUMN - half, self.middle - high, COLUMN + half, self.middle + high)


@dataclass(frozen=True, slots=True)
class Folded:
    """A dashed line for parts that are not shown."""

    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class End:
    """What a strip ends on at height `y`: a `rail` of the supply or cabinet `metal`. Its terminal is at `joint`."""

    sort: str
    y: float
    joint: float


@dataclass(frozen=True, slots=True)
class Span:
    """What lies between the probes: a line from the one flag to the other."""

    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Frame:
    """A board: a box whose terminals stand on its right side, from `top` to `bottom`."""

    top: float
    bottom: float


Piece = Frame | Span | Text | Mark | Joint | Flag | Drawn | Folded | End


@dataclass(frozen=True, slots=True)
class Picture:
    """All pieces in order of drawing."""

    height: float
    pieces: tuple[Piece, ...]

"""What was heard in a customer's words, as frozen values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from halfsplit.trade import Level

Shares = Mapping[Level, float]
"""How likely each level is meant by the words; sums to 1."""
Hedge = Literal["", "sometimes", "later", "unsure"]


@dataclass(frozen=True, slots=True)
class Statement:
    """One thing said, before any sheet is looked at.

    Attributes:
        span: First and one past the last character of the words, counted from 0.
        concept: What it is about: heats, turns, trips.
        level: The level said. For the sign of a fault, normal means that the sign is there.
        shares: What the words leave open about the level.
        where: The state it was said of (delicate, door open); empty for everyday use.
        hedge: sometimes: it comes and goes; later: only after it has run; unsure: the speaker doubts it.
        implied: Made likely by another thing said, and gives way to anything said outright.
    """

    span: tuple[int, int]
    concept: str
    level: Level
    shares: Shares
    where: str = ""
    hedge: Hedge = ""
    implied: bool = False


@dataclass(frozen=True, slots=True)
class Phrase:
    """One thing said, in the customer's words, and which functions of the sheet it speaks of (none, if it has none)."""

    words: str
    says: str
    said: Statement
    means: Mapping[str, Shares]


@dataclass(frozen=True, slots=True)
class Question:
    """A function to ask about, with the sheet's own question."""

    function: str
    ask: str


@dataclass(frozen=True, slots=True)
class Heard:
    """What a text says of a machine.

    Attributes:
        text: The text as it came.
        phrases: What was understood, in the order of the text; what is only implied comes after what implies it.
        functions: All of it together: for each function spoken of, shares of its levels (they sum to 1).
        unclear: Words that may matter and were not understood, as they stand in the text. To be asked about.
        questions: What to ask of the customer, the sheet's own questions.
        cautions: What to say at once, before anything is tried.
        slips: Spelling slips mended: (as written, as read).
    """

    text: str
    phrases: tuple[Phrase, ...]
    functions: Mapping[str, Shares]
    unclear: tuple[str, ...]
    questions: tuple[Question, ...]
    cautions: tuple[str, ...]
    slips: tuple[tuple[str, str], ...]

    def sure(self, least: float = 0.85) -> dict[str, Level]:
        """Functions of which one level has at least this share: sure enough to be written down as told."""
        best = {name: max(shares.items(), key=lambda pair: pair[1]) for name, shares in self.functions.items()}
        return {name: level for name, (level, share) in best.items() if share >= least}

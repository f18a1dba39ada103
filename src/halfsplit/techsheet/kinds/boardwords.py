"""The phrases of a board: what it senses, what it drives and when, which codes it shows.

What may live here: text to frozen forms and conditions. A rule is one or more alternatives joined by ` or when `, each
made of clauses joined by ` and `:

- `timer wash or spin`, as anywhere in a sheet;
- `sees door`, `does not see door`: an input of its own; `display sees start`: one of another board;
- `shows F2`, `does not show F2`: a code of its own;
- `runs bake`, `does not run bake`: a program of its own;
- `always`.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from halfsplit.circuit import NO, YES, Condition
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.base import Surroundings
from halfsplit.units import read_quantity

_INPUT = re.compile(
    r"(?P<ends>\S+) (?P<way>above|below) (?P<volts>[^,]+)(?:, through (?P<ohm>[^,]+))?"
    r"(?:, (?P<up>[^,]+) up to (?P<rail>\S+))?"
)
_OUTPUT = re.compile(r"(?P<how>relay|triac|switch) (?P<ends>\S+) when (?P<rule>.+)")
_SOURCE = re.compile(r"source (?P<ends>\S+) (?P<volts>[^,]+?) when (?P<rule>.+)")
_CODE = re.compile(r"(?P<rule>[^,]+?)(?:, after (?P<seconds>[0-9]{1,4}(?:\.[0-9])?) s)?(?P<latched>, latched)?")
_SEES = re.compile(r"(?:(?P<board>.+) )?(?P<how>sees|does not see) (?P<input>.+)")
_OWN = {
    "code": re.compile(r"(?P<how>shows|does not show) (?P<name>.+)"),
    "program": re.compile(r"(?P<how>runs|does not run) (?P<name>.+)"),
}
_PROGRAM = re.compile(r"starts when (?P<starts>[^,]+), goes on while (?P<goes_on>[^,]+)")


@dataclass(frozen=True, slots=True)
class Input:
    """Volts between two terminals that the board takes for yes, above (or below) a limit.

    `pull_up` is the ohms from a rail's terminal to the first one, with that terminal's name.
    """

    ends: tuple[str, str]
    limit: float
    above: bool
    ohm: float
    pull_up: tuple[float, str] | None


@dataclass(frozen=True, slots=True)
class Output:
    """What it drives: a relay's contact, a triac, a transistor (`switch`), or a `source` of direct volts."""

    how: str
    ends: tuple[str, str]
    rule: str
    volts: float = 0.0


@dataclass(frozen=True, slots=True)
class Code:
    """A code with the rule under which it comes, after how many seconds, and whether it stays."""

    rule: str
    seconds: float
    latched: bool


@dataclass(frozen=True, slots=True)
class Program:
    """What the board remembers: a rule that starts it, and one under which it goes on."""

    starts: str
    goes_on: str


@dataclass(frozen=True, slots=True)
class Board:
    """What a rule may name of its own board; `own` are its codes and programs."""

    part: str
    inputs: Collection[str]
    own: Mapping[str, Collection[str]]

    def awake(self) -> tuple[str, frozenset[str]]:
        """The clause that it is awake."""
        return f"{self.part}:awake", frozenset({YES})


def ends_of(text: str) -> tuple[str, str]:
    """Two terminals with a dash.

    Raises:
        InputError: Another form.

    >>> ends_of("HR1-HR2")
    ('HR1', 'HR2')
    """
    a, dash, b = text.partition("-")
    if not (a and dash and b) or "-" in b or a == b or "." in text:
        raise InputError(f"{quoted(text)} is not two terminals.", "Write them with a dash, as in `HR1-HR2`.")
    return a, b


def read_input(text: str, usual_ohm: float) -> Input:
    """`DS-N above 60 V`, then `, through 220 kΩ` and `, 10 kΩ up to 5V` where they are known.

    Raises:
        InputError: Another form.
    """
    form = _INPUT.fullmatch(text.strip())
    if form is None:
        right = "Write it as in `DS-N above 60 V` or `T1-0V below 2.5 V, 10 kΩ up to 5V`."
        raise InputError(f"{quoted(text)} is not an input.", right)
    pull_up = (read_quantity(form["up"], "Ω"), form["rail"]) if form["up"] else None
    ohm = read_quantity(form["ohm"], "Ω") if form["ohm"] else usual_ohm
    return Input(ends_of(form["ends"]), read_quantity(form["volts"], "V"), form["way"] == "above", ohm, pull_up)


def read_output(text: str) -> Output:
    """`relay HR1-HR2 when RULE`, `triac`, `switch`, or `source F-0V 12 V when RULE`.

    Raises:
        InputError: Another form.
    """
    form = _OUTPUT.fullmatch(text.strip())
    if form is not None:
        return Output(form["how"], ends_of(form["ends"]), form["rule"])
    form = _SOURCE.fullmatch(text.strip())
    if form is None:
        right = "Write it as in `relay HR1-HR2 when cycle bake and sees door` or `source F-0V 12 V when fan on`."
        raise InputError(f"{quoted(text)} is not an output.", right)
    return Output("source", ends_of(form["ends"]), form["rule"], read_quantity(form["volts"], "V"))


def read_code(text: str) -> Code:
    """`RULE`, then `, after 60 s` and `, latched`.

    Raises:
        InputError: Another form.
    """
    form = _CODE.fullmatch(text.strip())
    if form is None:
        right = "Write it as in `cycle bake and does not see hot, after 60 s, latched`."
        raise InputError(f"{quoted(text)} is not a code's rule.", right)
    return Code(form["rule"], float(form["seconds"] or 1.0), bool(form["latched"]))


def read_program(text: str) -> Program:
    """`starts when RULE, goes on while RULE`.

    Raises:
        InputError: Another form.
    """
    form = _PROGRAM.fullmatch(text.strip())
    if form is None:
        right = "Write it as in `starts when sees start and sees door, goes on while sees door`."
        raise InputError(f"{quoted(text)} is not a program.", right)
    return Program(form["starts"], form["goes_on"])


def read_rule(text: str, board: Board, around: Surroundings) -> Condition:
    """A rule as a condition, the board's being awake included.

    Raises:
        InputError: A clause names nothing that this board or the sheet has.
    """
    alternatives = [
        (board.awake(), *(clause for piece in way.split(" and ") for clause in _clause(piece.strip(), board, around)))
        for way in text.strip().split(" or when ")
    ]
    return tuple(alternatives)


def _clause(text: str, board: Board, around: Surroundings) -> tuple[tuple[str, frozenset[str]], ...]:
    if text == "always":
        return ()
    for what, form in _OWN.items():
        own = form.fullmatch(text)
        if own is not None:
            _known(own["name"], board.own[what], f"has no {what} {quoted(own['name'])}", board.part)
            return ((own_variable(board.part, what, own["name"]), _yes(not own["how"].startswith("does not"))),)
    sees = _SEES.fullmatch(text)
    if sees is None:
        return around.read_state(text)[0]
    if sees["board"] is None:
        _known(sees["input"], board.inputs, f"has no input {quoted(sees['input'])}", board.part)
    return ((input_variable(sees["board"] or board.part, sees["input"]), _yes(sees["how"] == "sees")),)


def _yes(holds: bool) -> frozenset[str]:
    return frozenset({YES if holds else NO})


def _known(name: str, names: Collection[str], lacks: str, part: str) -> None:
    if name not in names:
        listed = ", ".join(names) or "none"
        raise InputError(f"{quoted(part)} {lacks}.", f"It has: {listed}.")


def input_variable(part: str, name: str) -> str:
    """The variable that says whether a board sees an input."""
    return f"{part}:sees {name}"


def own_variable(part: str, what: str, name: str) -> str:
    """The variable that says whether a board shows a `code` or runs a `program`."""
    return f"{part}:{what} {name}"

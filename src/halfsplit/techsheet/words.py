"""Reading the small phrases of a sheet: points, wires, conditions, steps; and guessing what a misspelt word meant."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping

from halfsplit.circuit import Condition
from halfsplit.errors import InputError

COLOURS: dict[str, str] = {
    "black": "BK",
    "brown": "BN",
    "red": "RD",
    "orange": "OG",
    "yellow": "YE",
    "green": "GN",
    "blue": "BU",
    "violet": "VT",
    "grey": "GY",
    "white": "WH",
    "pink": "PK",
    "tan": "TN",
    "bare": "bare",
}
"""Insulation colours with their letter codes (IEC 60757; `tan` and `bare` are common practice, no source)."""

LIFT, PUT_BACK = "lift", "put back"
_SAME_COLOUR = {"gray": "grey", "purple": "violet", "gold": "yellow", "cyan": "blue"}
_WIRE = re.compile(r"^(\S+)\s+(.+?\.\S+)\s+(.+\.\S+)$")


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A sentence that offers the nearest known word, or lists a few."""
    choices = list(known)
    near = difflib.get_close_matches(word, choices, n=1, cutoff=0.6)
    if not near:
        folded = {choice.lower(): choice for choice in choices}
        near = [folded[word.lower()]] if word.lower() in folded else []
    if near:
        return f"Did you mean {near[0]!r}?"
    return f"Known here: {', '.join(choices[:12])}{'…' if len(choices) > 12 else ''}." if choices else ""  # noqa: PLR2004


def read_wire(text: str) -> tuple[str, str, str]:
    """Colour and the two points of `colour from to`.

    Raises:
        InputError: Another form, or an unknown colour.
    """
    form = _WIRE.match(text.strip())
    if form is None:
        raise InputError(f"{text.strip()!r} is not a wire.", "Write `colour from to`, as in `black TB.L1 door.COM`.")
    colour = "/".join(_SAME_COLOUR.get(part, part) for part in form.group(1).lower().split("/"))
    for part in colour.split("/"):
        if part not in COLOURS:
            raise InputError(f"{part!r} is not a wire colour.", did_you_mean(part, COLOURS))
    return colour, form.group(2), form.group(3)


def read_state(text: str, variables: Mapping[str, tuple[str, ...]]) -> tuple[str, frozenset[str]]:
    """Variable and positions of `setting position [or position…]`.

    Raises:
        InputError: An unknown setting or position.
    """
    words = text.replace('"', "").strip()
    named = [name for name in variables if words == name or words.startswith(name + " ")]
    if not named:
        raise InputError(f"{words!r} begins with no setting or mechanical part of this sheet.", did_you_mean(words.split(" ")[0], variables))
    variable = max(named, key=len)
    rest = words[len(variable) :].strip()
    positions = [position.strip() for position in re.split(r"\s+or\s+", rest)]
    for position in positions:
        if position not in variables[variable]:
            raise InputError(f"{variable!r} has no position {position!r}.", did_you_mean(position, variables[variable]))
    return variable, frozenset(positions)


def read_condition(texts: Iterable[str], variables: Mapping[str, tuple[str, ...]]) -> Condition:
    """A condition that holds when every one of `texts` does."""
    return (tuple(read_state(text, variables) for text in texts),)


def read_step(text: str, variables: Mapping[str, tuple[str, ...]], wires: Iterable[str]) -> tuple[str, str]:
    """One step: `setting position`, or `lift WIRE` / `put back WIRE`.

    Raises:
        InputError: An unknown setting, position or wire, or more than one position.
    """
    words = text.replace('"', "").strip()
    for verb in (LIFT, PUT_BACK):
        wire = words.removeprefix(f"{verb} ").strip()
        if words.startswith(f"{verb} "):
            if wire not in (known := tuple(wires)):
                raise InputError(f"There is no wire {wire!r} to {verb}.", did_you_mean(wire, known))
            return verb, wire
    variable, positions = read_state(words, variables)
    if len(positions) != 1:
        raise InputError(f"{words!r} is more than one position.", "A step sets one thing to one position.")
    return variable, next(iter(positions))

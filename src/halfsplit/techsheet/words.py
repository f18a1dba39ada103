"""Reading the small phrases of a sheet: points, wires, conditions, steps; and guessing what a misspelt word meant."""

from __future__ import annotations

import difflib
import re
from collections.abc import Collection, Iterable, Mapping

from halfsplit.errors import InputError, quoted

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

LIFT, PUT_BACK, AS = "lift", "put back", "as"
VERBS = (LIFT, PUT_BACK, AS)
"""Words with which a step begins that sets nothing; no setting may begin with one."""

PAPER_WORDS = {
    "element": "heater",
    "limit": "thermostat",
    "high limit": "thermostat",
    "thermal fuse": "thermal cut-off",
    "thermal link": "thermal cut-off",
    "pilot": "neon lamp",
    "pilot lamp": "neon lamp",
    "neon": "neon lamp",
    "led": "LED lamp",
    "contactor": "relay",
    "control": "board",
    "control board": "board",
    "ntc": "thermistor",
    "rtd": "platinum sensor",
    "fan": "shaded-pole motor",
    "fan motor": "shaded-pole motor",
    "push button": "switch",
    "button": "switch",
    "selector": "switch",
    "bulb": "lamp",
}
"""What paper often calls a part, and the kind it is (common practice, from memory)."""

_SAME_COLOUR = {"gray": "grey", "purple": "violet", **{code.lower(): colour for colour, code in COLOURS.items()}}
_WIRE = re.compile(r"(\S+) (.+?\.\S+) (.+\.\S+)")
_MOST_LISTED = 12
_MOST_WORD = 60
_MOST_PHRASE = 200


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that a misspelt one was most likely meant to be, empty if none is near.

    >>> nearest("haeter", ["motor", "heater"]), nearest("DOOR", ["door"]), nearest("x", ["door"])
    ('heater', 'door', '')
    """
    folded = {choice.casefold(): choice for choice in known}
    near = difflib.get_close_matches(word.casefold()[:_MOST_WORD], folded, n=1, cutoff=0.6)
    return folded[near[0]] if near else ""


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A sentence that offers the nearest known word, or lists a few; empty if nothing is known."""
    choices = list(known)
    near = nearest(word, choices)
    if near:
        return f"Did you mean {quoted(near)}?"
    some = ", ".join(quoted(choice)[1:-1] for choice in choices[:_MOST_LISTED])
    return f"Known here: {some}{'…' if len(choices) > _MOST_LISTED else ''}." if choices else ""


def kind_meant(word: str, known: Iterable[str]) -> str:
    """A sentence that offers the kind of part a word of the paper stands for, else the nearest known one.

    >>> kind_meant("Element", ["heater"]), kind_meant("haeter", ["heater"])
    ("On paper an 'Element' is often a part of kind `heater`.", "Did you mean 'heater'?")
    """
    choices = list(known)
    meant = PAPER_WORDS.get(" ".join(word.split()).casefold())
    if meant not in choices:
        return did_you_mean(word, choices)
    article = "an" if word[:1].lower() in "aeiou" else "a"
    return f"On paper {article} {quoted(word)} is often a part of kind `{meant}`."


def tidy(text: str) -> str:
    """A phrase on one line, with single spaces and without quotation marks.

    Raises:
        InputError: Nothing is left, or far too much for a phrase.
    """
    words = " ".join(text.replace('"', "").split())
    if not words:
        raise InputError("There is nothing here.", "Write it, or leave the line out.")
    if len(words) > _MOST_PHRASE:
        raise InputError(f"{quoted(words)} is too long to be one thing.", "Write one on each line.")
    return words


def find_point(point: str, terminals: Mapping[str, Collection[str]]) -> str:
    """Check `part.terminal` against the terminals of every part.

    Raises:
        InputError: No such part or terminal, with the nearest one.
    """
    part, dot, terminal = point.strip().rpartition(".")
    if not dot:
        raise InputError(f"{quoted(point)} is not a point.", "Write part.terminal, as in `heater.1`.")
    if part not in terminals:
        right = did_you_mean(part, terminals) or "Add it to `parts`."
        raise InputError(f"There is no part {quoted(part)}.", right)
    if not terminals[part]:
        raise InputError(f"{quoted(part)} has no terminals.", "Name a part that has some.")
    if terminal not in terminals[part]:
        raise InputError(f"{quoted(part)} has no terminal {quoted(terminal)}.", did_you_mean(terminal, terminals[part]))
    return f"{part}.{terminal}"


def split_wire(text: str) -> tuple[str, str, str]:
    """Colour and the two points of `colour from to`, as written.

    Raises:
        InputError: Another form.

    >>> split_wire("red/black TB.L1 belt switch.H1")
    ('red/black', 'TB.L1', 'belt switch.H1')
    """
    words = tidy(text)
    form = _WIRE.fullmatch(words)
    if form is None:
        right = "Write `colour from to`, as in `black TB.L1 door.COM`."
        raise InputError(f"{quoted(words)} is not a wire.", right)
    return form.group(1), form.group(2), form.group(3)


def read_colour(text: str) -> str:
    """A colour, or two with a stroke between; letter codes are spelt out.

    Raises:
        InputError: An unknown colour.

    >>> read_colour("RD/BK"), read_colour("gray")
    ('red/black', 'grey')
    """
    colours = [_SAME_COLOUR.get(word, word) for word in text.lower().split("/")]
    for colour in colours:
        if colour not in COLOURS:
            raise InputError(f"{quoted(colour)} is not a wire colour.", did_you_mean(colour, COLOURS))
    return "/".join(colours)


def read_state(
    text: str, variables: Mapping[str, tuple[str, ...]], of: str = "setting or mechanical part"
) -> tuple[str, frozenset[str]]:
    """Variable and positions of `setting position [or position…]`.

    Where names overlap (a setting `air`, a part `air flap`) the longest that makes sense is meant.

    Raises:
        InputError: An unknown setting or position.
    """
    words = tidy(text)
    named = [name for name in variables if words == name or words.startswith(f"{name} ")]
    if not named:
        what = f"{quoted(words)} begins with no {of} of this sheet."
        right = did_you_mean(_first_words(words, variables), variables)
        raise InputError(what, right or "Add it to `settings`.")
    readings = [_positions(words, name) for name in sorted(named, key=len, reverse=True)]
    variable, positions = next((found for found in readings if not found[1] - set(variables[found[0]])), readings[0])
    for position in sorted(positions):
        if position not in variables[variable]:
            what = f"{quoted(variable)} has no position {quoted(position)}."
            right = did_you_mean(position, variables[variable])
            raise InputError(what if position else f"{quoted(variable)} has no position after it.", right)
    return variable, positions


def _positions(words: str, name: str) -> tuple[str, frozenset[str]]:
    rest = words[len(name) :].strip()
    return name, frozenset(position.strip() for position in rest.split(" or "))


def _first_words(words: str, names: Iterable[str]) -> str:
    """As many first words as the name has that they are nearest to."""
    pieces = words.split(" ")
    starts = [" ".join(pieces[:count]) for count in range(1, 4)]
    choices = list(names)
    return next((start for start in reversed(starts) if nearest(start, choices)), pieces[0])


def named_setup(text: str) -> str:
    """NAME of a step `as NAME`, empty for any other step."""
    first, _, rest = " ".join(text.split()).partition(" ")
    return rest if first == AS else ""


def read_step(text: str, settings: Mapping[str, tuple[str, ...]], wires: Collection[str]) -> tuple[str, str]:
    """One step: `setting position`, or `lift WIRE` / `put back WIRE`.

    Raises:
        InputError: An unknown setting, position or wire, or more than one position.
    """
    words = tidy(text)
    for verb in (LIFT, PUT_BACK):
        if words.startswith(f"{verb} "):
            wire = words.removeprefix(f"{verb} ")
            if wire not in wires:
                right = did_you_mean(wire, wires) or "Add it to `wires`."
                raise InputError(f"There is no wire {quoted(wire)} to {verb}.", right)
            return verb, wire
    variable, positions = read_state(words, settings, "setting")
    if len(positions) != 1:
        raise InputError(f"{quoted(words)} is more than one position.", "A step sets one thing to one position.")
    return variable, next(iter(positions))

"""Reading the values of a part's keys: one function for each reader that the catalogue names.

A reader gets the draft, the path of the value and what is written there. Mistakes inside a list or mapping are noted
one by one at their own line, and end in a `FollowUpError`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.events import Path
from halfsplit.techsheet.kinds.attribute import Attribute, Contact, Reader
from halfsplit.techsheet.sections.basics import check_name
from halfsplit.techsheet.sections.draft import Draft, FollowUpError
from halfsplit.units import read_length, read_minutes, read_power, read_quantity, read_temperature

COMMON = (
    Attribute("kind", "name", "What it is: one of the kinds of part."),
    Attribute("title", "name", "Its name inside a sentence; the part's own name if left out.", optional=True),
    Attribute("zone", "name", "What must come off to reach it: one of `zones`."),
    Attribute("price", "price", "Price of a new one, in the sheet's currency.", 0.0),
    Attribute("minutes", "minutes", "Minutes to change it once its zone is open.", 15.0),
    Attribute(
        "rates", "rates", "How often it fails, as in `open: 12`, where the usual rates do not fit.", optional=True
    ),
    Attribute(
        "intermittent",
        "phrases",
        "Faults that come and go: when, and how often then, as in `open: air warm, 60 %`.",
        optional=True,
    ),
    Attribute(
        "crossable", "leads", "Terminals whose leads may have been put back crossed, as in [NO-NC].", optional=True
    ),
)
"""Keys of every part, whatever its kind."""

Found = TypeVar("Found")
_ONE_TEXT = "Write one text there, in quotes if it has a colon, a comma or brackets."
_TERMINAL = re.compile(r"[^\s.,:~\"]{1,30}")


def read_attribute(draft: Draft, path: Path, attribute: Attribute, written: Any) -> Any:
    """Value of one key, or its default when it is not written.

    Raises:
        InputError: It cannot be read, or must be given and is not.
    """
    if written is None:
        if attribute.required:
            raise InputError(f"{quoted(str(path[1]))} has no {quoted(attribute.name)}.", f"Add it. {attribute.meaning}")
        return attribute.default
    if any(doubt[: len(path)] == path for doubt in draft.doubts):
        raise FollowUpError
    return _READERS[attribute.reader](draft, path, written)


def _text(draft: Draft, path: Path, written: Any) -> str:
    if not isinstance(written, str) or not written:
        raise InputError(f"{quoted(str(path[-1]))} must be one value.", "Write one word or quantity after the colon.")
    return " ".join(written.split())


def _quantity(unit: str) -> Callable[[Draft, Path, Any], float]:
    return lambda draft, path, written: read_quantity(_text(draft, path, written), unit)


def _price(draft: Draft, path: Path, written: Any) -> float:
    text = _text(draft, path, written)
    if not re.fullmatch(r"[0-9]{1,6}(\.[0-9]{1,2})?", text):
        raise InputError(f"{quoted(text)} is not a price.", "Write a plain number in the sheet's currency, as in 24.")
    return float(text)


def _names(draft: Draft, path: Path, written: Any) -> tuple[str, ...]:
    """Terminals as printed on the part, each once."""
    if not isinstance(written, list) or not written:
        raise InputError(f"{quoted(str(path[-1]))} must be a list.", "Write it as in [L1, N, L2].")
    before = len(draft.problems)
    for index, name in enumerate(written):
        with draft.noting(*path, index):
            _check_terminal(name)
            if name in written[:index]:
                raise InputError(f"The terminal {quoted(name)} stands here twice.", "Write each terminal once.")
    return _if_clean(draft, before, tuple(written))


def _check_terminal(name: str) -> None:
    if not (_TERMINAL.fullmatch(name) and name.isprintable()):
        right = "Write it as printed on the part, without spaces, points, commas and colons."
        raise InputError(f"{quoted(name)} cannot be a terminal.", right)


def _mapping(draft: Draft, path: Path, written: Any, example: str) -> dict[str, str]:
    """One text at each key."""
    whole = _pairs(path, written, example)
    before = len(draft.problems)
    for key, value in whole.items():
        if not isinstance(value, str):
            draft.note((*path, key), f"The value of {quoted(key)} has the wrong shape.", _ONE_TEXT)
    return _if_clean(draft, before, whole)


def _pairs(path: Path, written: Any, example: str) -> dict[str, Any]:
    if not isinstance(written, dict) or not written:
        raise InputError(f"{quoted(str(path[-1]))} must be `key: value` pairs.", f"Write it as in {example}.")
    return dict(written)


def _states(draft: Draft, path: Path, written: Any) -> dict[str, str]:
    """States of a mechanical part, the sound one first."""
    states = _mapping(draft, path, written, "{whole: , broken: the belt is broken}")
    if len(states) < 2:
        what = f"{quoted(str(path[1]))} has no bad state."
        raise InputError(
            what, "Write the sound state first, then a bad one with a sentence, as in `broken: it is torn`."
        )
    before = len(draft.problems)
    for index, (state, says) in enumerate(states.items()):
        with draft.noting(*path, state):
            check_name(state, "state")
            if index and not says:
                raise InputError(f"The bad state {quoted(state)} says nothing.", "Write what is wrong after the colon.")
    return _if_clean(draft, before, states)


def _contacts(draft: Draft, path: Path, written: Any) -> tuple[Contact, ...]:
    """Contacts of a switch, each pair of terminals once."""
    contacts: list[Contact] = []
    before = len(draft.problems)
    for key, phrase in _mapping(draft, path, written, "{COM-NO: door shut}").items():
        with draft.noting(*path, key):
            a, b = _ends(key)
            if any({a, b} == {other.a, other.b} for other in contacts):
                raise InputError(f"There are two contacts between {a} and {b}.", "Write it once, with `or`.")
            draft.state(phrase)
            contacts.append(Contact(a, b, phrase))
    return _if_clean(draft, before, tuple(contacts), complete=len(contacts) == len(written))


def _chart(draft: Draft, path: Path, written: Any) -> tuple[Contact, ...]:
    """A step chart turned round: each contact with all the steps in which it is closed."""
    steps: dict[tuple[str, str], list[str]] = {}
    before = len(draft.problems)
    for step, contacts in _pairs(path, written, "{fill: [1-2, 3-4], wash: [1-2]}").items():
        if not isinstance(contacts, list) or not contacts:
            right = "Write it as in [1-2, 3-4]; a step that closes no contact is left out."
            draft.note((*path, step), f"The step {quoted(step)} must be a list of contacts.", right)
            continue
        for index, contact in enumerate(contacts):
            with draft.noting(*path, step, index):
                ends = next((ends for ends in steps if set(ends) == set(_ends(contact))), _ends(contact))
                if step in steps.setdefault(ends, []):
                    raise InputError(f"The contact {quoted(contact)} stands twice in one step.", "Write it once.")
                steps[ends].append(step)
    return _if_clean(draft, before, tuple(Contact(a, b, " or ".join(named)) for (a, b), named in steps.items()))


def _shares(draft: Draft, path: Path, written: Any) -> dict[str, float]:
    """Shares of time, as percent."""
    shares = {}
    before = len(draft.problems)
    for key, text in _mapping(draft, path, written, "{off: 0 %, low: 10 %}").items():
        with draft.noting(*path, key):
            form = re.fullmatch(r"([0-9]{1,3}(?:[.,][0-9]{1,2})?) ?%", text.strip())
            if form is None or float(form.group(1).replace(",", ".")) > 100:
                raise InputError(f"{quoted(text)} is not a share of time.", "Write 0 % to 100 %.")
            shares[key] = float(form.group(1).replace(",", ".")) / 100
    return _if_clean(draft, before, shares)


def _ends(contact: str) -> tuple[str, str]:
    """The two terminals of a contact; spaces round the dash tell it from dashes in their names."""
    separator = " - " if " - " in contact else "-"
    ends = [end.strip() for end in contact.split(separator)]
    if len(ends) != 2 or ends[0] == ends[1]:
        right = "Write two terminals with a dash, as in `COM-NO`, or ` - ` where their names have dashes."
        raise InputError(f"{quoted(contact)} is not a contact.", right)
    for end in ends:
        _check_terminal(end)
    return ends[0], ends[1]


def _phrases(draft: Draft, path: Path, written: Any) -> dict[str, str]:
    """Names, each with a phrase that the part itself reads."""
    phrases = _mapping(draft, path, written, "{NAME: what it is}")
    before = len(draft.problems)
    for key, phrase in phrases.items():
        with draft.noting(*path, key):
            check_name(key, "name")
            if not phrase:
                raise InputError(f"{quoted(key)} says nothing.", "Write after the colon what it is.")
    return _if_clean(draft, before, phrases)


def _leads(draft: Draft, path: Path, written: Any) -> tuple[tuple[str, str], ...]:
    """Pairs of terminals, each pair once."""
    if not isinstance(written, list) or not written:
        raise InputError(f"{quoted(str(path[-1]))} must be a list.", "Write it as in [NO-NC].")
    pairs: list[tuple[str, str]] = []
    before = len(draft.problems)
    for index, text in enumerate(written):
        with draft.noting(*path, index):
            ends = _ends(text)
            if any(set(ends) == set(other) for other in pairs):
                raise InputError(f"The leads {quoted(text)} stand here twice.", "Write each pair once.")
            pairs.append(ends)
    return _if_clean(draft, before, tuple(pairs))


def _rates(draft: Draft, path: Path, written: Any) -> dict[str, float]:
    """The sheet's own rates by fault."""
    rates = {}
    before = len(draft.problems)
    for key, text in _mapping(draft, path, written, "{open: 12}").items():
        with draft.noting(*path, key):
            if not re.fullmatch(r"[0-9]{1,5}(\.[0-9]{1,3})?", text) or float(text) == 0:
                right = "Write how many calls in a thousand it explains, as in 12."
                raise InputError(f"{quoted(text)} is not a rate.", right)
            rates[key] = float(text)
    return _if_clean(draft, before, rates)


def _if_clean(draft: Draft, before: int, value: Found, *, complete: bool = True) -> Found:
    """The value, unless something in it was noted."""
    if len(draft.problems) > before or not complete:
        raise FollowUpError
    return value


def _known_to(look_up: Callable[[Draft, str], object]) -> Callable[[Draft, Path, Any], str]:
    """A word that the sheet must know: looking it up raises where it does not."""

    def read(draft: Draft, path: Path, written: Any) -> str:
        text = _text(draft, path, written)
        look_up(draft, text)
        return text

    return read


_READERS: Mapping[Reader, Callable[[Draft, Path, Any], Any]] = {
    "volts": _quantity("V"),
    "ohms": _quantity("Ω"),
    "amps": _quantity("A"),
    "hertz": _quantity("Hz"),
    "metres": lambda draft, path, written: read_length(_text(draft, path, written)),
    "temperature": lambda draft, path, written: read_temperature(_text(draft, path, written)),
    "power": lambda draft, path, written: read_power(_text(draft, path, written)),
    "price": _price,
    "minutes": lambda draft, path, written: read_minutes(_text(draft, path, written)),
    "name": _text,
    "names": _names,
    "state": _known_to(Draft.state),
    "states": _states,
    "contacts": _contacts,
    "chart": _chart,
    "shares": _shares,
    "place": _known_to(Draft.temperature),
    "setting": _known_to(Draft.positions),
    "socket": _known_to(Draft.terminals_of),
    "point": _text,
    "rates": _rates,
    "leads": _leads,
    "phrases": _phrases,
}

"""From parts as written to stamped parts: kinds found, attributes read, faults named."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from halfsplit.errors import InputError
from halfsplit.techsheet.draft import Draft
from halfsplit.techsheet.form import Value
from halfsplit.techsheet.kinds import catalogue
from halfsplit.techsheet.kinds.base import Attribute, FaultForm, Kind, PartValues, Reader, Stamp
from halfsplit.techsheet.machine import Fault, Part
from halfsplit.techsheet.words import did_you_mean
from halfsplit.units import read_minutes, read_power, read_quantity, read_temperature

COMMON = ("kind", "title", "zone", "price", "minutes", "rates")
_NAME = re.compile(r"^[A-Za-z][A-Za-z0-9 /&'-]*$")


def stamp_parts(draft: Draft) -> dict[str, Part]:
    """Read and stamp every part; what cannot be read is noted and left out, and its name is kept as doubtful."""
    parts: dict[str, Part] = {}
    for name in _mechanical_first(draft):
        before = len(draft.problems)
        kind = _kind(draft, name)
        if kind is not None:
            values = _values(draft, name, kind)
            if len(draft.problems) == before:
                with draft.noting("parts", name):
                    _keep(draft, name, kind.stamp(values, draft.surroundings()))
        if len(draft.problems) > before or kind is None:
            draft.doubtful.add(name)
        else:
            parts[name] = _part(draft, name, kind)
    return {name: parts[name] for name in draft.form.parts if name in parts}


def _mechanical_first(draft: Draft) -> list[str]:
    """Parts that bring states of their own come before the contacts that ask for them."""
    return sorted(draft.form.parts, key=lambda name: draft.form.parts[name].get("kind") != "mechanical")


def _keep(draft: Draft, name: str, stamp: Stamp) -> None:
    draft.stamps[name] = stamp
    draft.variables.update({variable: tuple(positions) for variable, positions in stamp.variables.items()})


def _kind(draft: Draft, name: str) -> Kind | None:
    path = ("parts", name)
    if not _NAME.match(name):
        draft.note(path, f"{name!r} cannot be a part's name.", "Use letters, digits, spaces and dashes.")
    written = draft.form.parts[name].get("kind", "")
    kind = catalogue().get(str(written))
    if kind is None:
        draft.note((*path, "kind"), f"{name!r} has no known kind ({written!r}).", did_you_mean(str(written), catalogue()))
    return kind


def _values(draft: Draft, name: str, kind: Kind) -> PartValues:
    written = draft.form.parts[name]
    known = {attribute.name: attribute for attribute in kind.attributes}
    for key in written:
        if key not in known and key not in COMMON:
            note = f"A {kind.name} has no {key!r}."
            draft.note(("parts", name, key), note, did_you_mean(key, [*known, *COMMON]))
    values: dict[str, Any] = {}
    for attribute in kind.attributes:
        with draft.noting("parts", name, attribute.name):
            values[attribute.name] = _value(attribute, written.get(attribute.name), name)
    return PartValues(name, _text(written.get("title")) or name, values)


def _value(attribute: Attribute, written: Value | None, part: str) -> Any:
    if written is None:
        if attribute.default is None and not attribute.optional:
            raise InputError(f"{part!r} has no {attribute.name!r}.", f"Add it: {attribute.meaning}")
        return attribute.default
    return _READERS[attribute.reader](written, attribute.name)


def _quantity(unit: str) -> Callable[[Value, str], Any]:
    return lambda written, name: read_quantity(_only_text(written, name), unit)


def _only_text(written: Value, name: str) -> str:
    if not isinstance(written, str) or not written:
        raise InputError(f"{name!r} must be one value.", "Write one word or quantity after the colon.")
    return written


def _only_list(written: Value, name: str) -> tuple[str, ...]:
    if not isinstance(written, list) or not written:
        raise InputError(f"{name!r} must be a list.", "Write it as in [L1, N, L2].")
    return tuple(written)


def _only_mapping(written: Value, name: str) -> dict[str, str]:
    if not isinstance(written, dict) or not written:
        raise InputError(f"{name!r} must be `key: value` pairs.", "Write it as in {COM-NO: door shut}.")
    return dict(written)


_READERS: Mapping[Reader, Callable[[Value, str], Any]] = {
    "volts": _quantity("V"),
    "ohms": _quantity("Ω"),
    "amps": _quantity("A"),
    "hertz": _quantity("Hz"),
    "temperature": lambda written, name: read_temperature(_only_text(written, name)),
    "power": lambda written, name: read_power(_only_text(written, name)),
    "name": _only_text,
    "point": _only_text,
    "names": _only_list,
    "states": _only_mapping,
}


def _text(value: Value | None) -> str:
    return value if isinstance(value, str) else ""


def _part(draft: Draft, name: str, kind: Kind) -> Part:
    written = draft.form.parts[name]
    zone = _text(written.get("zone"))
    if zone not in draft.form.zones:
        draft.note(("parts", name, "zone"), f"{name!r} is in no known zone ({zone!r}).", did_you_mean(zone, draft.form.zones))
    price = minutes = 0.0
    with draft.noting("parts", name, "price"):
        price = _price(_text(written.get("price")))
    with draft.noting("parts", name, "minutes"):
        minutes = read_minutes(_text(written.get("minutes")) or "15 min")
    return Part(name, _text(written.get("title")) or name, kind.name, zone, price, minutes, draft.stamps[name].terminals)


def _price(text: str) -> float:
    try:
        price = float(text or 0)
    except ValueError:
        price = -1.0
    if not 0 <= price < 1e6:
        raise InputError(f"{text!r} is not a price.", "Write a plain number in the sheet's currency, as in 24.")
    return price


def part_faults(draft: Draft, part: Part) -> tuple[Fault, ...]:
    """Every fault of one part, with the sheet's own rates where it gives them."""
    rates = draft.form.parts[part.name].get("rates", {})
    forms = draft.stamps[part.name].faults
    own = dict(rates) if isinstance(rates, dict) else {}
    for key in own:
        if key not in [form.name for form in forms]:
            draft.note(("parts", part.name, "rates", key), f"{part.name!r} has no fault {key!r}.", did_you_mean(key, [f.name for f in forms]))
    return tuple(_fault(draft, part, form, own.get(form.name)) for form in forms)


def _fault(draft: Draft, part: Part, form: FaultForm, own_rate: str | None) -> Fault:
    rate = form.rate
    if own_rate is not None:
        with draft.noting("parts", part.name, "rates", form.name):
            rate = read_rate(own_rate)
    mechanical = part.kind == "mechanical"
    return Fault(
        name=f"{part.name}:{form.name}",
        thing=part.name,
        says=form.says if mechanical else f"the {part.title} {form.says}",
        rate=rate,
        patches=form.patches,
        mend=form.mend or f"{'mend' if mechanical else 'change'} the {part.title}",
        price=part.price if form.price is None else form.price,
        minutes=part.minutes if form.minutes is None else form.minutes,
        zone=part.zone,
    )


def read_rate(text: str) -> float:
    """A relative frequency above zero.

    Raises:
        InputError: Not one.
    """
    try:
        rate = float(text)
    except ValueError:
        rate = 0.0
    if not 0 < rate < 1e6:
        raise InputError(f"{text!r} is not a rate.", "Write how many calls in a thousand it explains, as in 12.")
    return rate

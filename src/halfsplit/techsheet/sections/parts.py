"""From parts as written to stamped parts: kinds found, keys read, faults named."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds import catalogue
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import FaultForm, Kind
from halfsplit.techsheet.machine import Fault, Part
from halfsplit.techsheet.sections.attributes import COMMON, read_attribute
from halfsplit.techsheet.sections.draft import Draft
from halfsplit.techsheet.words import did_you_mean, kind_meant, nearest

_NAME = re.compile(r"[A-Za-z][A-Za-z0-9 /&'-]{0,59}")


def read_parts(draft: Draft) -> dict[str, Part]:
    """Read and stamp every part; one that cannot be stamped is noted, left out and unsure."""
    _check_names(draft)
    parts = {name: part for name in _early_first(draft) if (part := _part(draft, name)) is not None}
    _check_points(draft)
    _check_asked(draft)
    return {name: parts[name] for name in draft.form.parts if name in parts}


def _early_first(draft: Draft) -> list[str]:
    """Parts that bring what others ask for come before those others, and so do those of which nothing is known."""
    return sorted(draft.form.parts, key=lambda name: (kind := _kind_of(draft, name)) is not None and not kind.early)


def _check_names(draft: Draft) -> None:
    folded: dict[str, str] = {}
    for name in draft.form.parts:
        if not _NAME.fullmatch(name):
            right = "Begin with a letter; use plain letters, digits, spaces and dashes."
            draft.note(("parts", name), f"{quoted(name)} cannot be a part's name.", right)
            draft.unsure_parts.add(name)
        other = folded.setdefault(name.casefold(), name)
        if other != name:
            what = f"{quoted(name)} and {quoted(other)} differ only in capitals."
            draft.note(("parts", name), what, "Give one another name.")


def _kind_of(draft: Draft, name: str) -> Kind | None:
    written = draft.form.parts[name].get("kind")
    return catalogue().get(written) if isinstance(written, str) else None


def _part(draft: Draft, name: str) -> Part | None:
    kind = _kind_of(draft, name)
    misspelt = _note_unknown_keys(draft, name, kind) if kind else set()
    common = _read(draft, name, COMMON, misspelt)
    _check_zone(draft, name, common)
    stamped = kind is not None and _stamp(draft, name, kind, common, misspelt)
    if kind is None and isinstance(common.get("kind"), str):
        what = f"{quoted(name)} has no known kind ({quoted(common['kind'])})."
        draft.note(("parts", name, "kind"), what, kind_meant(common["kind"], catalogue()))
    if kind is None or not stamped:
        draft.unsure_parts.add(name)
        return None
    draft.rates[name] = common.get("rates") or {}
    draft.intermittent[name] = common.get("intermittent") or {}
    draft.crossable[name] = common.get("crossable") or ()
    title, zone, price, minutes = (common.get(key) for key in ("title", "zone", "price", "minutes"))
    stamp = draft.stamps[name]
    return Part(
        name, title or name, kind.name, zone or "", price or 0.0, minutes or 0.0, stamp.terminals, stamp.caution
    )


def _note_unknown_keys(draft: Draft, name: str, kind: Kind) -> set[str]:
    """Note keys that the kind does not have.

    Returns:
        What they were most likely meant to be: nobody need say that those are missing.
    """
    known = [attribute.name for attribute in (*kind.attributes, *COMMON)]
    misspelt = set()
    for key in draft.form.parts[name]:
        if key not in known:
            draft.note(
                ("parts", name, key),
                f"A part of kind {quoted(kind.name)} has no {quoted(key)}.",
                did_you_mean(key, known),
            )
            misspelt.add(nearest(key, known))
    return misspelt


def _read(draft: Draft, name: str, attributes: Iterable[Attribute], misspelt: set[str]) -> dict[str, Any]:
    """Values of all attributes that could be read."""
    written = draft.form.parts[name]
    values = {}
    for attribute in attributes:
        if attribute.name not in written and attribute.required and attribute.name in misspelt:
            continue
        with draft.noting("parts", name, attribute.name):
            path = ("parts", name, attribute.name)
            values[attribute.name] = read_attribute(draft, path, attribute, written.get(attribute.name))
    return values


def _stamp(draft: Draft, name: str, kind: Kind, common: dict[str, Any], misspelt: set[str]) -> bool:
    """Stamp the part if all its values could be read; whether it was."""
    values = _read(draft, name, kind.attributes, misspelt)
    if len(values) < len(kind.attributes) or name in draft.unsure_parts:
        return False
    with draft.noting("parts", name):
        stamp = kind.stamp(PartValues(name, common.get("title") or name, values), draft.surroundings())
        for variable in stamp.variables:
            if variable in draft.variables:
                raise InputError(f"{quoted(variable)} is a setting and a moving part.", "Give one another name.")
        draft.stamps[name] = stamp
        draft.variables.update({variable: tuple(states) for variable, states in stamp.variables.items()})
    return name in draft.stamps


def _check_zone(draft: Draft, name: str, common: dict[str, Any]) -> None:
    zone = common.get("zone")
    with draft.noting("parts", name, "zone"):
        if zone is not None and zone not in draft.form.zones:
            draft.need("zones")
            right = did_you_mean(zone, draft.form.zones)
            raise InputError(f"{quoted(name)} is in no known zone ({quoted(zone)}).", right)


def _check_points(draft: Draft) -> None:
    """Points that parts name on other parts can be judged only when all parts are known."""
    for name in draft.stamps:
        kind = _kind_of(draft, name)
        for attribute in kind.attributes if kind else ():
            written = draft.form.parts[name].get(attribute.name)
            if attribute.reader == "point" and isinstance(written, str):
                with draft.noting("parts", name, attribute.name):
                    draft.point(written)


def _check_asked(draft: Draft) -> None:
    """What a board's rule says of another board can be judged only when all parts are known."""
    known = {drive.name for stamp in draft.stamps.values() for drive in stamp.drives}
    for name, stamp in draft.stamps.items():
        for variable in stamp.asks:
            part, _, seen = variable.partition(":")
            if variable not in known and part not in draft.unsure_parts:
                what = (
                    f"A rule of {quoted(name)} asks what {quoted(part)} does not tell: whether it {_as_a_verb(seen)}."
                )
                telling = sorted(other for other in known if seen.partition(" ")[0] in other.partition(":")[2])
                right = did_you_mean(variable, telling).replace(":", " ")
                draft.note(("parts", name), what, right or "Name a part that tells it.")


def _as_a_verb(seen: str) -> str:
    """What a variable says of its part, as the end of "whether it …"."""
    return {"running": "runs"}.get(seen, seen)


def part_faults(draft: Draft, part: Part, heavy: frozenset[str]) -> tuple[Fault, ...]:
    """Every fault of one part, with the sheet's own rates where it gives them.

    Args:
        draft: The sheet so far.
        part: The part.
        heavy: Points on which a heavy wire ends: only there does a contact carry enough to burn.
    """
    forms = draft.stamps[part.name].faults
    own = draft.rates[part.name]
    names = [form.name for form in forms]
    for key in own:
        if key not in names:
            what = f"{quoted(part.name)} has no fault {quoted(key)}."
            draft.note(("parts", part.name, "rates", key), what, did_you_mean(key, names) or "Leave `rates` out.")
    kept = [form for form in forms if heavy.issuperset(f"{part.name}.{end}" for end in form.between)]
    return tuple(_fault(part, form, own.get(form.name)) for form in kept)


def _fault(part: Part, form: FaultForm, own_rate: float | None) -> Fault:
    says = form.says if form.whole else f"the {part.title} {form.says}"
    return Fault(
        name=f"{part.name}:{form.name}",
        thing=part.name,
        says=f"{says}, {form.degree}" if form.degree else says,
        rate=form.rate if own_rate is None else own_rate,
        patches=form.patches,
        mend=form.mend or f"change the {part.title}",
        price=part.price if form.price is None else form.price,
        minutes=part.minutes if form.minutes is None else form.minutes,
        zone=part.zone,
        degree_of=f"{part.name}:{form.degree_of}" if form.degree_of else "",
        degree=form.degree,
        origin=form.origin if own_rate is None else "this sheet",
    )

"""What each word of a sheet means: sections, kinds of parts and their keys, from the tables that all else reads."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.form import SheetForm
from halfsplit.techsheet.kinds import catalogue
from halfsplit.techsheet.kinds.attribute import Attribute
from halfsplit.techsheet.sections.attributes import COMMON
from halfsplit.techsheet.words import kind_meant


@dataclass(frozen=True, slots=True)
class Meaning:
    """One word, where it stands, and what it means. `place` is empty for a section of the sheet."""

    word: str
    place: str
    says: str
    required: bool


def meanings() -> tuple[Meaning, ...]:
    """Every word a sheet can be written with: sections and their keys, keys of every part, kinds and their keys."""
    found: list[Meaning] = []
    for name, field in SheetForm.model_fields.items():
        word = field.alias or name
        found.append(Meaning(word, "", field.description or "", field.is_required()))
        found += [
            _key(key, inner, word) for form in _forms(field.annotation) for key, inner in form.model_fields.items()
        ]
    found += [_attribute(attribute, "any part") for attribute in COMMON]
    for kind in catalogue().values():
        found.append(Meaning(kind.name, "kind of part", kind.meaning, required=False))
        found += [_attribute(attribute, kind.name) for attribute in kind.attributes]
    return tuple(found)


def meanings_of(word: str) -> tuple[Meaning, ...]:
    """Every place of one word; for a kind of part, its keys as well.

    Raises:
        InputError: A sheet has no such word.
    """
    every = meanings()
    found = tuple(one for one in every if word in (one.word, one.place))
    if not found:
        known = dict.fromkeys(one.word for one in every)
        raise InputError(f"A sheet has no word {quoted(word)}.", kind_meant(word, known))
    return found


def _key(name: str, field: FieldInfo, section: str) -> Meaning:
    return Meaning(field.alias or name, section, field.description or "", field.is_required())


def _attribute(attribute: Attribute, place: str) -> Meaning:
    return Meaning(attribute.name, place, attribute.meaning, attribute.required)


def _forms(annotation: Any) -> list[type[BaseModel]]:
    """Shapes inside a field's type."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [form for inner in get_args(annotation) for form in _forms(inner)]

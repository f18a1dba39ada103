"""JSON Schema of a sheet, for editors: which keys each kind of part has, and what they mean.

It is generated from the shapes in `form` and the catalogue of kinds, and judges shape only; `read_sheet` judges all
the rest.
"""

from __future__ import annotations

from typing import Any

from halfsplit.techsheet.form import SheetForm
from halfsplit.techsheet.kinds import catalogue
from halfsplit.techsheet.kinds.attribute import Attribute, Reader
from halfsplit.techsheet.kinds.base import Kind
from halfsplit.techsheet.sections.attributes import COMMON
from halfsplit.units import EXAMPLES

DIALECT = "https://json-schema.org/draft/2020-12/schema"

_WORD: dict[str, Any] = {"type": ["string", "number", "boolean"]}
"""One word or quantity. Editors take `25` for a number and may take `on` for a truth value; here both are words."""
_PHRASES = {"type": "object", "minProperties": 1, "additionalProperties": _WORD}
_SHAPES: dict[str, dict[str, Any]] = {
    "names": {"type": "array", "minItems": 1, "uniqueItems": True, "items": _WORD},
    "contacts": _PHRASES,
    "chart": {
        "type": "object",
        "minProperties": 1,
        "additionalProperties": {"type": "array", "minItems": 1, "uniqueItems": True, "items": _WORD},
    },
    "shares": _PHRASES,
    "rates": _PHRASES,
    "leads": {"type": "array", "minItems": 1, "uniqueItems": True, "items": _WORD},
    "phrases": _PHRASES,
    "states": {"type": "object", "minProperties": 2, "additionalProperties": {"type": [*_WORD["type"], "null"]}},
}
_EXAMPLES: dict[Reader, Any] = {
    "volts": EXAMPLES["V"],
    "ohms": EXAMPLES["Ω"],
    "amps": EXAMPLES["A"],
    "hertz": EXAMPLES["Hz"],
    "metres": "12 m",
    "temperature": EXAMPLES["°F"],
    "minutes": EXAMPLES["min"],
    "power": "5.4 kW at 240 V",
    "price": 24,
    "names": ["L1", "N", "L2"],
    "contacts": {"COM-NO": "door shut"},
    "chart": {"fill": ["1-2", "3-4"], "wash": ["1-2"]},
    "shares": {"off": "0 %", "low": "10 %"},
    "states": {"whole": "", "broken": "the belt is broken"},
    "state": "drum free",
    "point": "chassis.B",
    "rates": {"open": 12},
    "leads": ["1-2"],
    "phrases": {"door": "DS-N above 60 V"},
}


def sheet_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a sheet, with the keys of every kind."""
    schema: dict[str, Any] = _loosened(SheetForm.model_json_schema(by_alias=True))
    kinds = catalogue()
    schema["$defs"] |= {_name(kind): _kind(kind) for kind in kinds.values()}
    schema["$defs"]["part"] = {
        "type": "object",
        "required": ["kind"],
        "properties": {"kind": _choice(kinds)},
        "allOf": [{"if": _is(kind), "then": {"$ref": f"#/$defs/{_name(kind)}"}} for kind in kinds.values()],
    }
    schema["properties"]["parts"]["additionalProperties"] = {"$ref": "#/$defs/part"}
    return {"$schema": DIALECT, **schema}


def _loosened(shape: Any) -> Any:
    """The shape with every text a word: what an editor takes for a number is text here."""
    if isinstance(shape, list):
        return [_loosened(item) for item in shape]
    if not isinstance(shape, dict):
        return shape
    loose = {key: _loosened(value) for key, value in shape.items()}
    return {**loose, **_WORD} if shape.get("type") == "string" else loose


def _name(kind: Kind) -> str:
    """Name of a kind's definition, fit for a reference."""
    return f"kind-{kind.name.replace(' ', '-')}"


def _is(kind: Kind) -> dict[str, Any]:
    return {"properties": {"kind": {"const": kind.name}}, "required": ["kind"]}


def _choice(kinds: dict[str, Kind]) -> dict[str, Any]:
    return {"oneOf": [{"const": kind.name, "description": kind.meaning} for _, kind in sorted(kinds.items())]}


def _kind(kind: Kind) -> dict[str, Any]:
    """A part of one kind: its keys and no others."""
    attributes = (*COMMON, *kind.attributes)
    return {
        "title": kind.name,
        "description": kind.meaning,
        "type": "object",
        "properties": {attribute.name: _value(attribute) for attribute in attributes},
        "required": [attribute.name for attribute in attributes if attribute.required],
        "additionalProperties": False,
    }


def _value(attribute: Attribute) -> dict[str, Any]:
    shape = {**_SHAPES.get(attribute.reader, _WORD), "description": attribute.meaning}
    if attribute.reader in _EXAMPLES:
        shape["examples"] = [_EXAMPLES[attribute.reader]]
    if attribute.default is not None:
        shape["default"] = attribute.default
    return shape

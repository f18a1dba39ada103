"""JSON Schema of a sheet, for editors."""

from __future__ import annotations

from typing import Any

from halfsplit.techsheet.form import SheetForm
from halfsplit.techsheet.kinds import catalogue


def sheet_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a sheet, with the keys of every kind."""
    schema = SheetForm.model_json_schema(by_alias=True)
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    kinds = sorted(catalogue())
    schema["properties"]["parts"]["additionalProperties"] = {
        "type": "object",
        "required": ["kind"],
        "properties": {"kind": {"enum": kinds}},
    }
    return schema

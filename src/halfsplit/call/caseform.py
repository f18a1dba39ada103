"""The shape of a case file: its keys and what kind of value stands at each."""

from __future__ import annotations

from typing import Any

from pydantic import Field

from halfsplit.techsheet import Form
from halfsplit.trade import MODES

_MODE = f"What the meter was set to: {', '.join(MODES[:-1])} or {MODES[-1]}."


class CaseSetupForm(Form):
    """A setup of the case's own."""

    says: str = Field(default="", description="The state in words.")
    steps: list[str] = Field(description="`as NAME` first if it begins like another, then `setting position` steps.")


class SeenForm(Form):
    """A function told or seen."""

    function: str = Field(description="A function of the sheet.")
    level: str = Field(description="none, weak, normal or too much.")
    by: str = Field(default="customer", description="customer or technician.")
    setup: str = Field(default="", description="Where it was seen; the function's own setup if left out.")
    after: str = Field(default="", description="The last thing that had been changed by then; none if left out.")


class ReadingForm(Form):
    """A reading of the meter."""

    points: list[str] = Field(
        default=[], description="The two points, as in [heater.1, heater.2]; left out for watts at the plug."
    )
    mode: str = Field(description=_MODE)
    setup: str = Field(description="A setup by name, or steps with commas between them.")
    reading: str = Field(description="What the meter showed, as in 118 V, 10.7 ohm, OL or beeps.")
    after: str = Field(default="", description="The last thing that had been changed by then; none if left out.")


class SkippedForm(Form):
    """A check not to be proposed again: a function, or two points and a meter mode, in a setup."""

    function: str = Field(default="", description="A function of the sheet.")
    points: list[str] = Field(default=[], description="The two points, as in [heater.1, heater.2].")
    mode: str = Field(default="", description=_MODE)
    setup: str = Field(default="", description="A setup by name, or steps with commas between them.")


class CaseForm(Form):
    """One call's evidence."""

    case: str = Field(default="", description="What this case is about, in words.")
    sheet: str = Field(default="", description="The sheet it is about.")
    fixed: list[str] = Field(default=[], description="Steps that hold for the whole call, as in `cord 3-wire`.")
    setups: dict[str, CaseSetupForm] = Field(default={}, description="Setups of the case's own.")
    seen: list[SeenForm] = Field(default=[], description="What was told or seen.")
    readings: list[ReadingForm] = Field(default=[], description="What was read.")
    skipped: list[SkippedForm] = Field(default=[], description="Checks not to be proposed again.")
    unreachable: list[str] = Field(default=[], description="Points that no probe can get to.")
    changed: list[str] = Field(default=[], description="Things changed or mended on this call, in order.")
    truck: list[str] | None = Field(default=None, description="Parts on the truck; all of them if left out.")
    return_minutes: float = Field(default=60.0, ge=0.0, description="Minutes to fetch a part, a second trip included.")
    limit: float | None = Field(default=None, ge=0.0, description="What the customer wants to spend at most.")


def case_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a case."""
    schema = CaseForm.model_json_schema(by_alias=True)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}

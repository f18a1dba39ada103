"""The shape of a sheet: its keys and what kind of value stands at each.

What may live here: shape only, as pydantic models; what the words mean (does this terminal exist?) is checked in
`sections`. The JSON Schema for editors comes from these classes, and so does what is said about a missing key.
"""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag

Text = Annotated[str, Field(min_length=1)]


def _branch(value: Any) -> str:
    """Which branch of `Value` a value is to be judged by, so that a mistake in it is told once, not three times."""
    return "<list>" if isinstance(value, list) else "<mapping>" if isinstance(value, dict) else "<text>"


def _inner_branch(value: Any) -> str:
    """Which branch of a value inside a mapping."""
    return "<list>" if isinstance(value, list) else "<text>"


_Inner = Annotated[
    Annotated[str, Tag("<text>")] | Annotated[list[str], Tag("<list>")],
    Discriminator(_inner_branch),
]
Value = Annotated[
    Annotated[str, Tag("<text>")]
    | Annotated[list[str], Tag("<list>")]
    | Annotated[dict[str, _Inner], Tag("<mapping>")],
    Discriminator(_branch),
]
"""What can stand at a key of a part."""


class Form(BaseModel):
    """Base of every shape: unknown keys are mistakes, and keys are written with spaces."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class ZoneForm(Form):
    """What must come off to reach a part."""

    title: Text = Field(description="The zone in words, as in `rear panel`.")
    open: Text = Field(description="Minutes to open it, as in `5 min`.")
    close: Text = Field(description="Minutes to close it again, as in `5 min`.")


class SetupForm(Form):
    """A named state: steps replayed from the defined start."""

    says: Text = Field(description="The state in words a customer would understand.")
    minutes: Text = Field(default="0 min", description="Minutes to bring it about, as for warming up.")
    steps: list[Text] = Field(description="`as NAME` first if it begins like another, then `setting position` steps.")


class FunctionForm(Form):
    """What a person sees the machine do."""

    ask: Text = Field(description="The question that asks for it.")
    setup: Text = Field(description="The setup in which it is looked at.")
    shows: Text = Field(description="What it shows of which part, as in `power of heater`.")
    needs: list[Text] = Field(default=[], description="States without which it is `none`, as in `belt whole`.")
    weak_without: list[Text] = Field(
        default=[], alias="weak without", description="States without which it is `weak`, as in `vent clear`."
    )
    over: str = Field(
        default="", description="The part over whose cycles it is averaged, against what its knob promises."
    )


class ComplaintForm(Form):
    """What the customer says, and what that means in functions."""

    says: Text = Field(description="The customer's words.")
    means: dict[str, Text] = Field(description="Function to level: none, weak, normal or too much.")


class NameplateForm(Form):
    """What the machine's plate says."""

    current: Text = Field(description="Rated current, as in `24 A`.")
    setup: Text = Field(description="The setup in which it takes that.")


class PaperReadingForm(Form):
    """One row of the paper's own table of expected readings."""

    between: list[Text] = Field(description="Two points, as in [heater.1, heater.2].")
    mode: Text = Field(default="ohms", description="Setting of the meter, as in `ohms` or `volts`.")
    setup: Text = Field(description="The setup in which it is read.")
    least: Text = Field(description="Lowest sound reading, as in `10 Ω`.")
    most: Text = Field(description="Highest sound reading, as in `12 Ω` or `OL`.")


class SheetForm(Form):
    """A machine's wiring sheet."""

    sheet: Text = Field(description="Short name, as in `dryer`.")
    title: Text = Field(description="What the machine is, in words.")
    family: str = Field(default="", description="Family, as in `dryer`.")
    about: str = Field(default="", description="Where the sheet comes from.")
    currency: Text = Field(default="USD", description="Currency of the prices: three capitals, as in `USD` (ISO 4217).")
    default_wire: Text = Field(
        default="16 AWG 0.6 m", alias="default wire", description="Gauge and length of a wire that gives none."
    )
    settings: dict[str, list[Text]] = Field(
        default={}, description="What can be set, and its positions, the start first."
    )
    linked: list[Text] = Field(
        default=[], description="Which fault brings another about, as in `vent:blocked -> thermal cut-off:open, 0.1`."
    )
    per_call: list[Text] = Field(
        default=[], alias="per call", description="Settings that stay the same for a whole call."
    )
    temperatures: dict[str, dict[str, Text]] = Field(
        default={}, description="Places, and how hot each is for every position of a setting."
    )
    zones: dict[str, ZoneForm] = Field(default={}, description="What must come off to reach a part.")
    parts: dict[str, dict[str, Value]] = Field(description="Every part with its kind and values.")
    wires: list[Text] = Field(
        description="Each as `colour from to`, then `, gauge AWG length`, then `, when setting position`."
    )
    setups: dict[str, SetupForm] = Field(default={}, description="Named states of the machine.")
    functions: dict[str, FunctionForm] = Field(default={}, description="What a person sees it do.")
    complaints: dict[str, ComplaintForm] = Field(default={}, description="What customers say.")
    nameplate: NameplateForm | None = Field(default=None, description="What the machine's plate says.")
    readings: dict[str, PaperReadingForm] = Field(default={}, description="The paper's own table of readings.")
    cautions: list[Text] = Field(default=[], description="What can hurt someone in this machine, one sentence each.")

"""The shape of a sheet: its keys and what kind of value stands at each, checked by pydantic.

What may live here: shape only. What the words mean (does this terminal exist?) is checked in `build`.
The JSON Schema for editors comes from these classes.
"""

from __future__ import annotations

import copy
from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from halfsplit.errors import Problem
from halfsplit.techsheet.document import Document, Path
from halfsplit.techsheet.words import did_you_mean

_MOST_ROUNDS = 5
_SHAPES = {
    "string_type": "Write one value after the colon.",
    "list_type": "Write a list, as in [one, two].",
    "dict_type": "Write `key: value` lines under it.",
    "model_type": "Write `key: value` lines under it.",
}

Value = str | list[str] | dict[str, str]


class Form(BaseModel):
    """Base of every shape: unknown keys are mistakes, and keys are written with spaces."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


class ZoneForm(Form):
    """What must come off to reach a part."""

    title: str = Field(description="The zone in words, as in `rear panel`.")
    open: str = Field(description="Minutes to open, as in `5 min`.")
    close: str = Field(description="Minutes to close.")


class SetupForm(Form):
    """A named state: steps replayed from the defined start."""

    says: str = Field(description="The state in words a customer would understand.")
    minutes: str = Field(default="0 min", description="Minutes to bring it about, as for warming up.")
    steps: list[str] = Field(description="`as NAME` first if it begins like another, then `setting position` steps.")


class FunctionForm(Form):
    """What a person sees the machine do."""

    ask: str = Field(description="The question that asks for it.")
    setup: str = Field(description="The setup in which it is looked at.")
    shows: str = Field(description="`power of PART`, `speed of PART`, `hum of PART` or `holding of PART`.")
    needs: list[str] = Field(default=[], description="States without which it is `none`, as in `belt whole`.")
    weak_without: list[str] = Field(default=[], alias="weak without", description="States without which it is `weak`.")


class ComplaintForm(Form):
    """What the customer says, and what that means in functions."""

    says: str = Field(description="The customer's words.")
    means: dict[str, str] = Field(description="Function to level: none, weak, normal or too much.")


class SheetForm(Form):
    """A machine's wiring sheet."""

    sheet: str = Field(description="Short name.")
    title: str = Field(description="What the machine is.")
    family: str = Field(default="", description="Family, as in `dryer`.")
    about: str = Field(default="", description="Where the sheet comes from.")
    currency: str = Field(default="USD", description="Currency of the prices (ISO 4217).")
    default_wire: str = Field(default="16 AWG 0.6 m", alias="default wire", description="Gauge and length of most wires.")
    settings: dict[str, list[str]] = Field(default={}, description="What can be set, and its positions, the start first.")
    per_call: list[str] = Field(default=[], alias="per call", description="Settings that stay the same for a whole call.")
    temperatures: dict[str, dict[str, str]] = Field(default={}, description="Places, and how hot each is by a setting.")
    zones: dict[str, ZoneForm] = Field(default={}, description="What must come off to reach a part.")
    parts: dict[str, dict[str, Value]] = Field(description="Every part with its kind and values.")
    wires: list[str] = Field(description="`colour from to`, then `, gauge AWG length m`, then `, when setting position`.")
    setups: dict[str, SetupForm] = Field(default={}, description="Named states of the machine.")
    functions: dict[str, FunctionForm] = Field(default={}, description="What a person sees it do.")
    complaints: dict[str, ComplaintForm] = Field(default={}, description="What customers say.")


Shape = TypeVar("Shape", bound=Form)


def fit(form: type[Shape], document: Document) -> tuple[Shape | None, tuple[Problem, ...]]:
    """Fit a document into a shape.

    Entries that do not fit are reported and left out, and the rest is kept, so that later checks still see it.

    Returns:
        The shape (None if a required key is missing or wrong) and every problem.
    """
    tree: Any = copy.deepcopy(document.tree)
    problems: list[Problem] = []
    for _ in range(_MOST_ROUNDS):
        try:
            return form.model_validate(tree), tuple(problems)
        except ValidationError as error:
            wrong = error.errors(include_url=False)
        problems += [document.problem(_path(item["loc"]), *_say(form, item)) for item in wrong]
        if not all([_prune(tree, _path(item["loc"])) for item in wrong]):
            return None, tuple(dict.fromkeys(problems))
    return None, tuple(dict.fromkeys(problems))


def _path(loc: tuple[str | int, ...]) -> Path:
    """The part of pydantic's location that is in the document: not its names for union branches."""
    return tuple(step for step in loc if isinstance(step, int) or not step.startswith(("str", "list[", "dict[")))


def _say(form: type[Form], item: Any) -> tuple[str, str]:
    key = str(item["loc"][-1])
    if item["type"] == "extra_forbidden":
        return f"There is no key {key!r} here.", did_you_mean(key, _keys(form, item["loc"]))
    if item["type"] == "missing":
        return f"The key {key!r} is missing.", f"Add `{key}: …`."
    path = _path(item["loc"])
    name = next((str(step) for step in reversed(path) if isinstance(step, str)), key)
    return f"The value of {name!r} has the wrong shape.", _SHAPES.get(item["type"], "See the built-in sheet for its form.")


def _keys(form: type[Form], loc: tuple[str | int, ...]) -> list[str]:
    """Keys allowed at the place where an unknown one was found."""
    forms = {"zones": ZoneForm, "setups": SetupForm, "functions": FunctionForm, "complaints": ComplaintForm}
    here = forms.get(str(loc[0]), form) if len(loc) > 1 else form
    return [field.alias or name for name, field in here.model_fields.items()]


def _prune(tree: Any, path: Path) -> bool:
    """Remove the entry at a path; False when it is a required key that is simply not there."""
    for step in path[:-1]:
        tree = tree[step]
    try:
        del tree[path[-1]]
    except (KeyError, IndexError, TypeError):
        return False
    return True

"""A case as one YAML file: read with every mistake named, written so that it reads back the same."""

from __future__ import annotations

import io
from typing import Any, cast

from pydantic import Field
from ruamel.yaml import YAML

from halfsplit.call.case import Case
from halfsplit.errors import InputError, Problem, SheetError
from halfsplit.techsheet import Document, Form, Machine, did_you_mean, fit, point_of, read_document, setup_of, steps_of
from halfsplit.trade import LEVELS, MODES, Evidence, Level, Mode, Observer, Reading, Seen, Setup
from halfsplit.units import read_reading, show_reading

OBSERVERS = ("customer", "technician")


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


class ReadingForm(Form):
    """A reading of the meter."""

    points: list[str] = Field(description="The two points, as in [heater.1, heater.2].")
    mode: str = Field(description="volts, low-z, ohms or amps.")
    setup: str = Field(description="A setup by name, or steps with commas between them.")
    reading: str = Field(description="What the meter showed, as in 118 V, 10.7 ohm or OL.")


class CaseForm(Form):
    """One call's evidence."""

    case: str = Field(default="", description="What this case is about, in words.")
    sheet: str = Field(default="", description="The sheet it is about.")
    fixed: list[str] = Field(default=[], description="Steps that hold for the whole call, as in `cord 3-wire`.")
    setups: dict[str, CaseSetupForm] = Field(default={}, description="Setups of the case's own.")
    seen: list[SeenForm] = Field(default=[], description="What was told or seen.")
    readings: list[ReadingForm] = Field(default=[], description="What was read.")


def case_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a case."""
    schema = CaseForm.model_json_schema(by_alias=True)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def read_case(text: str, file: str, machine: Machine) -> Case:
    """A case from its YAML text.

    Raises:
        SheetError: With every mistake, each with its line.
    """
    document, problems = read_document(text, file)
    if document is None:
        raise SheetError(problems)
    form, more = fit(CaseForm, document)
    found = [*problems, *more]
    case = _Reader(document, machine, found).case(form) if form is not None else Case()
    if found:
        raise SheetError(tuple(sorted(dict.fromkeys(found), key=lambda problem: problem.line)))
    return case


class _Reader:
    """Turns a fitted form into a case, noting what does not fit the machine."""

    def __init__(self, document: Document, machine: Machine, found: list[Problem]) -> None:
        self.document, self.machine, self.found = document, machine, found
        self.setups: dict[str, Setup] = {}

    def case(self, form: CaseForm) -> Case:
        fixed = self._try(("fixed",), lambda: steps_of(self.machine, form.fixed), ())
        for name, setup in form.setups.items():
            steps = self._try(("setups", name), lambda setup=setup: self._steps(setup.steps), ())
            self.setups[name] = Setup(name, setup.says or name, steps)
        seen = [self._try(("seen", i), lambda item=item: self._seen(item), None) for i, item in enumerate(form.seen)]
        readings = [
            self._try(("readings", i), lambda item=item: self._reading(item), None)
            for i, item in enumerate(form.readings)
        ]
        evidence = tuple(item for item in (*seen, *readings) if item is not None)
        return Case(fixed, self.setups, cast(tuple[Evidence, ...], evidence))

    def _try(self, path: tuple[str | int, ...], work: Any, otherwise: Any) -> Any:
        try:
            return work()
        except InputError as error:
            self.found.append(self.document.problem(path, error.what, error.right))
            return otherwise

    def _steps(self, texts: list[str]) -> tuple[tuple[str, str], ...]:
        steps: tuple[tuple[str, str], ...] = ()
        for text in texts:
            own = self.setups.get(text.removeprefix("as ").strip()) if text.startswith("as ") else None
            steps += own.steps if own else steps_of(self.machine, [text])
        return steps

    def _setup(self, text: str) -> str:
        if text in self.setups:
            return text
        return setup_of(self.machine, text).name

    def _seen(self, form: SeenForm) -> Seen:
        function = self.machine.functions.get(form.function)
        if function is None:
            raise InputError(
                f"There is no function {form.function!r}.", did_you_mean(form.function, self.machine.functions)
            )
        level = one_of(form.level, LEVELS, "level")
        by = one_of(form.by, OBSERVERS, "observer")
        setup = self._setup(form.setup) if form.setup else function.setup
        return Seen(function.name, cast(Level, level), cast(Observer, by), setup)

    def _reading(self, form: ReadingForm) -> Reading:
        mode = cast(Mode, one_of(form.mode, MODES, "meter mode"))
        points = two_points(self.machine, form.points)
        return Reading(points, mode, self._setup(form.setup), read_reading(form.reading, mode))


def one_of(word: str, known: tuple[str, ...], what: str) -> str:
    """A word of a closed list.

    Raises:
        InputError: Another word.
    """
    if word not in known:
        raise InputError(f"{word!r} is not a {what}.", did_you_mean(word, known))
    return word


def two_points(machine: Machine, texts: list[str]) -> tuple[str, str]:
    """Two different points as typed.

    Raises:
        InputError: Not two, unknown, or the same.
    """
    if len(texts) != 2:
        raise InputError(f"A reading is between two points, and {len(texts)} are given.", "Write [heater.1, heater.2].")
    a, b = (point_of(machine, text) for text in texts)
    if a == b:
        raise InputError(f"Both probes are on {a}.", "Give two different points.")
    return a, b


def write_case(case: Case, sheet: str, about: str = "") -> str:
    """The case as YAML that `read_case` reads back to the same evidence."""
    tree: dict[str, Any] = {"case": about, "sheet": sheet}
    if case.fixed:
        tree["fixed"] = [" ".join(step) for step in case.fixed]
    if case.setups:
        tree["setups"] = {
            name: {"says": setup.says, "steps": [" ".join(step) for step in setup.steps]}
            for name, setup in case.setups.items()
        }
    tree["seen"] = [
        {"function": item.function, "level": item.level, "by": item.by, "setup": item.setup}
        for item in case.evidence
        if isinstance(item, Seen)
    ]
    tree["readings"] = [
        {
            "points": list(item.points),
            "mode": item.mode,
            "setup": item.setup,
            "reading": show_reading(item.value, item.mode),
        }
        for item in case.evidence
        if isinstance(item, Reading)
    ]
    out = io.StringIO()
    yaml = YAML()
    yaml.width = 120
    yaml.dump(tree, out)
    return out.getvalue()

"""A case as one YAML file: read with every mistake named, written so that it reads back the same."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import Any, TypeVar, cast

from ruamel.yaml import YAML

from halfsplit.call.case import RETURN_MINUTES, Case
from halfsplit.call.caseform import CaseForm, CaseSetupForm, ReadingForm, SeenForm, SkippedForm, case_schema
from halfsplit.errors import InputError, Problem, SheetError
from halfsplit.nextcheck import mend_of
from halfsplit.predict import Predictor, expected, plug_points
from halfsplit.techsheet import (
    Document,
    Function,
    Machine,
    did_you_mean,
    fit,
    point_of,
    read_document,
    setup_of,
    steps_of,
)
from halfsplit.trade import (
    LEVELS,
    MODES,
    NOTHING_WRONG,
    Action,
    Evidence,
    Level,
    Look,
    Measure,
    Mode,
    Observer,
    Reading,
    Seen,
    Setup,
)
from halfsplit.units import METER_MODES, read_reading, write_reading

Item = TypeVar("Item")
Result = TypeVar("Result")
__all__ = [
    "CaseForm",
    "CaseSetupForm",
    "ReadingForm",
    "SeenForm",
    "SkippedForm",
    "case_schema",
    "one_of",
    "points_for",
    "read_case",
    "two_points",
    "write_case",
]
OBSERVERS = ("customer", "technician")


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
        self.fixed: tuple[tuple[str, str], ...] = ()
        self.healthy = Predictor(machine, (NOTHING_WRONG,))

    def case(self, form: CaseForm) -> Case:
        self._try(("sheet",), lambda: self._same_sheet(form.sheet), None)
        self.fixed = self._try(("fixed",), lambda: steps_of(self.machine, form.fixed), ())
        for name, setup in form.setups.items():
            steps = self._try(("setups", name), partial(self._steps, setup.steps), ())
            self.setups[name] = Setup(name, setup.says or name, steps)
        changed = tuple(dict.fromkeys(self._each("changed", form.changed, self._thing)))
        seen = self._each("seen", form.seen, lambda it: self._dated(self._seen(it), it.after, changed))
        readings = self._each("readings", form.readings, lambda it: self._dated(self._reading(it), it.after, changed))
        skipped = frozenset(self._each("skipped", form.skipped, self._skipped))
        unreachable = self._each("unreachable", form.unreachable, lambda text: point_of(self.machine, text))
        evidence = (*seen, *readings)
        truck = None if form.truck is None else frozenset(self._each("truck", form.truck, self._part))
        return Case(
            self.fixed,
            self.setups,
            tuple(item for item, _ in evidence),
            skipped,
            frozenset(unreachable),
            changed,
            tuple(moment for _, moment in evidence) if changed else (),
            truck,
            form.return_minutes,
            form.limit,
        )

    def _thing(self, name: str) -> str:
        known = {mend_of(self.machine, fault).thing for fault in self.machine.faults}
        if name not in known:
            raise InputError(f"There is no {name!r} to change.", did_you_mean(name, known))
        return name

    def _part(self, name: str) -> str:
        if name not in self.machine.parts:
            raise InputError(f"There is no part {name!r}.", did_you_mean(name, self.machine.parts))
        return name

    def _dated(self, item: Evidence, after: str, changed: tuple[str, ...]) -> tuple[Evidence, int]:
        """An item with how many things had been changed by then."""
        if after and after not in changed:
            raise InputError(f"{after!r} is not among what was changed.", f"Name it under `changed` too: [{after}].")
        return item, changed.index(after) + 1 if after else 0

    def _same_sheet(self, name: str) -> None:
        if name not in ("", self.machine.name):
            raise InputError(
                f"This case is about the sheet {name!r}.", f"Read it with that, not with {self.machine.name!r}."
            )

    def _each(self, key: str, forms: Sequence[Item], work: Callable[[Item], Result]) -> list[Result]:
        """What comes of each form; those with a mistake are noted and left out."""
        found = [self._try((key, place), partial(work, form), None) for place, form in enumerate(forms)]
        return [item for item in found if item is not None]

    def _try(self, path: tuple[str | int, ...], work: Callable[[], Any], otherwise: Any) -> Any:
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

    def _function(self, name: str) -> Function:
        function = self.machine.functions.get(name)
        if function is None:
            raise InputError(f"There is no function {name!r}.", did_you_mean(name, self.machine.functions))
        return function

    def _seen(self, form: SeenForm) -> Seen:
        function = self._function(form.function)
        level = one_of(form.level, LEVELS, "level")
        by = one_of(form.by, OBSERVERS, "observer")
        setup = self._setup(form.setup) if form.setup else function.setup
        return Seen(function.name, cast(Level, level), cast(Observer, by), setup)

    def _reading(self, form: ReadingForm) -> Reading:
        mode = cast(Mode, one_of(form.mode, MODES, "meter mode"))
        points = points_for(self.machine, mode, form.points)
        reading = Reading(points, mode, self._setup(form.setup), read_reading(form.reading, mode))
        return self._possible(reading)

    def _possible(self, reading: Reading) -> Reading:
        """The same, unless no meter can read that there: ohms on a live machine, a clamp around nothing.

        Raises:
            InputError: It cannot be.
        """
        setup = self.setups.get(reading.setup) or setup_of(self.machine, reading.setup)
        expected(self.healthy, (reading.points,), reading.mode, replace(setup, steps=(*self.fixed, *setup.steps)))
        return reading

    def _skipped(self, form: SkippedForm) -> Action:
        if form.function:
            function = self._function(form.function)
            return Look(function.name, self._setup(form.setup) if form.setup else function.setup)
        mode = cast(Mode, one_of(form.mode, MODES, "meter mode"))
        return Measure(points_for(self.machine, mode, form.points), mode, self._setup(form.setup))


def points_for(machine: Machine, mode: Mode, texts: list[str]) -> tuple[str, str]:
    """The points of a reading as typed; at the plug there is no choice, and none need be typed.

    Raises:
        InputError: Not two different points of the machine, or a reading at the plug of a machine without one.
    """
    return plug_points(machine) if METER_MODES[mode].where == "plug" else two_points(machine, texts)


def one_of(word: str, known: tuple[str, ...], what: str) -> str:
    """A word of a closed list.

    Raises:
        InputError: Another word.
    """
    if word not in known:
        article = "an" if what[0] in "aeiou" else "a"
        raise InputError(f"{word!r} is not {article} {what}.", did_you_mean(word, known))
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
    """The case as YAML that `read_case` reads back to the same case, readings to their last digit.

    What was seen comes before what was read; the order of the evidence means nothing to belief.
    """
    tree: dict[str, Any] = {"case": about, "sheet": sheet}
    if case.fixed:
        tree["fixed"] = [" ".join(step) for step in case.fixed]
    if case.setups:
        tree["setups"] = {
            name: {"says": setup.says, "steps": [" ".join(step) for step in setup.steps]}
            for name, setup in case.setups.items()
        }
    tree["seen"] = [
        {"function": item.function, "level": item.level, "by": item.by, "setup": item.setup, **_after(case, moment)}
        for item, moment in zip(case.evidence, case.moments, strict=True)
        if isinstance(item, Seen)
    ]
    tree["readings"] = [
        {
            "points": list(item.points),
            "mode": item.mode,
            "setup": item.setup,
            "reading": write_reading(item.value, item.mode),
            **_after(case, moment),
        }
        for item, moment in zip(case.evidence, case.moments, strict=True)
        if isinstance(item, Reading)
    ]
    if case.skipped:
        tree["skipped"] = sorted((_skipped(action) for action in case.skipped), key=str)
    if case.unreachable:
        tree["unreachable"] = sorted(case.unreachable)
    tree |= _of_the_call(case)
    out = io.StringIO()
    yaml = YAML()
    yaml.width = 120
    yaml.dump(tree, out)
    return out.getvalue()


def _after(case: Case, moment: int) -> dict[str, str]:
    return {"after": case.changed[moment - 1]} if moment else {}


def _of_the_call(case: Case) -> dict[str, Any]:
    """What was changed, what is on the truck, and the customer's limit, as far as they say anything."""
    tree: dict[str, Any] = {}
    if case.changed:
        tree["changed"] = list(case.changed)
    if case.truck is not None:
        tree["truck"] = sorted(case.truck)
    if case.return_minutes != RETURN_MINUTES:
        tree["return_minutes"] = case.return_minutes
    if case.limit is not None:
        tree["limit"] = case.limit
    return tree


def _skipped(action: Action) -> dict[str, Any]:
    if isinstance(action, Look):
        return {"function": action.function, "setup": action.setup}
    return {"points": list(action.points), "mode": action.mode, "setup": action.setup}

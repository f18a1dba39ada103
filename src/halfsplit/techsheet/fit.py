"""Fit a document into a shape, with one sentence for everything that does not fit.

What may live here: the way from pydantic's errors to sentences with lines, for any `Form`. Where something does not
fit, a stand-in of the right shape takes its place and the place is remembered as in doubt, so that later checks see all
the rest at its true index and keep silent about the stand-in.
"""

from __future__ import annotations

import copy
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Annotated, Any, Generic, TypeVar, get_args, get_origin

from pydantic import ValidationError

from halfsplit.errors import Problem, quoted
from halfsplit.techsheet.document import Document
from halfsplit.techsheet.events import MOST_PROBLEMS, Path
from halfsplit.techsheet.form import Form
from halfsplit.techsheet.words import did_you_mean, nearest

Shape = TypeVar("Shape", bound=Form)

_MOST_ROUNDS = 12  # each round repairs one level, and a shape is never deeper than this
_TEXT_STAND_IN = "?"
_STAND_INS: dict[str, Any] = {
    "missing": _TEXT_STAND_IN,
    "string_type": _TEXT_STAND_IN,
    "string_too_short": _TEXT_STAND_IN,
    "list_type": [],
    "dict_type": {},
    "model_type": {},
}
_RIGHT = {
    "string_type": "Write one text there, in quotes if it has a colon, a comma or brackets.",
    "list_type": "Write a list, as in [one, two].",
    "dict_type": "Write `key: value` lines under it.",
    "model_type": "Write `key: value` lines under it.",
}


@dataclass(frozen=True, slots=True)
class Fitted(Generic[Shape]):
    """A document in its shape.

    Attributes:
        shape: The shape with stand-ins, None if even they do not help.
        problems: Everything that did not fit.
        doubts: Paths where a stand-in is.
        tree: The document's tree with the stand-ins.
    """

    shape: Shape | None
    problems: tuple[Problem, ...]
    doubts: frozenset[Path]
    tree: dict[str, Any]


def fit_around(form: type[Shape], document: Document) -> Fitted[Shape]:
    """Fit a document into a shape, with stand-ins where it does not fit."""
    tree: dict[str, Any] = copy.deepcopy(document.tree)
    problems: list[Problem] = []
    doubts: set[Path] = set(document.doubts)
    for _ in range(_MOST_ROUNDS):
        try:
            return Fitted(form.model_validate(tree), tuple(problems), frozenset(doubts), tree)
        except ValidationError as error:
            wrong = _Wrong(form, tree, error.errors(include_url=False, include_context=False, include_input=False))
        problems += [document.problem(path, what, right) for path, what, right in wrong.sentences(doubts)]
        doubts.update(wrong.repair())
    problems = problems or [document.problem((), "This is not of the shape of a sheet.", "See the built-in sheet.")]
    return Fitted(None, tuple(problems), frozenset(doubts), tree)


def fit(form: type[Shape], document: Document) -> tuple[Shape | None, tuple[Problem, ...]]:
    """Fit a document into a shape.

    Entries of a mapping that do not fit are reported and left out; so is a whole list with a wrong item, as a list with
    a hole would no longer match the document's lines.

    Returns:
        The shape (None if a required key is missing or wrong) and every problem.
    """
    fitted = fit_around(form, document)
    tree = fitted.tree
    for path in fitted.doubts:
        section = tree.get(str(path[0]))
        if len(path) > 1 and isinstance(section, dict):
            section.pop(str(path[1]), None)
        else:
            tree.pop(str(path[0]), None)
    try:
        return form.model_validate(tree), fitted.problems
    except ValidationError:
        return None, fitted.problems


def in_doubt(path: Path, doubts: Iterable[Path]) -> bool:
    """Whether a path, or something around it or inside it, is in doubt."""
    return any(doubt[: len(path)] == path[: len(doubt)] for doubt in doubts)


class _Wrong:
    """The errors of one round of validation."""

    def __init__(self, form: type[Form], tree: dict[str, Any], errors: list[Any]) -> None:
        self.form, self.tree = form, tree
        self.errors = [(_path(tree, item["loc"], item["type"]), item["type"]) for item in errors]

    def sentences(self, doubts: set[Path]) -> list[tuple[Path, str, str]]:
        """Path, what is wrong and what would be right, for what is not in doubt already."""
        said: list[tuple[Path, str, str]] = []
        misspelt = self._misspelt()
        for path, kind in self.errors[:MOST_PROBLEMS]:
            around = any(path[:length] in doubts for length in range(1, len(path) + 1))
            if not around and path not in misspelt:
                said.append((path, *self._say(path, kind)))
        return said

    def _misspelt(self) -> set[Path]:
        """Keys that are not there but stand there under a wrong name: one sentence is enough."""
        unknown = [path for path, kind in self.errors if kind == "extra_forbidden"][:MOST_PROBLEMS]
        meant = [(*path[:-1], nearest(str(path[-1]), _keys(self.form, path))) for path in unknown]
        return {path for path in meant if path[-1] and path[-1] not in _holder(self.tree, path)}

    def _say(self, path: Path, kind: str) -> tuple[str, str]:
        key, where = str(path[-1]), _where(path)
        if kind == "extra_forbidden":
            return f"There is no key {quoted(key)} here.", did_you_mean(key, _keys(self.form, path)) or "Leave it out."
        meaning = _meaning(self.form, path)
        if kind == "missing":
            return f"The key {quoted(key)} is missing{where}.", f"Add `{key}`. {meaning}".strip()
        thing = f"Item {path[-1] + 1}{where}" if isinstance(path[-1], int) else f"The value of {quoted(key)}"
        if kind == "string_too_short":
            return f"{thing} is empty.", f"Write it. {meaning}".strip()
        return f"{thing} has the wrong shape.", _RIGHT.get(kind, "See the built-in sheet for its form.")

    def repair(self) -> set[Path]:
        """Put stand-ins where something is wrong and take out what is unknown.

        Returns:
            The paths that are now in doubt.
        """
        doubts = self._misspelt()
        for path, kind in self.errors:
            holder = _holder(self.tree, path)
            if kind == "extra_forbidden":
                del holder[path[-1]]
                continue
            doubts.add(path)
            if kind in _STAND_INS:
                holder[path[-1]] = copy.copy(_STAND_INS[kind])
        return doubts


def _holder(tree: Any, path: Path) -> Any:
    """The mapping or list that the last step of a path is in."""
    for step in path[:-1]:
        tree = tree[step]
    return tree


def _where(path: Path) -> str:
    """What the last step of a path is in."""
    if len(path) < 2:
        return ""
    holder = path[-2]
    return f" in item {holder + 1} of {quoted(str(path[-3]))}" if isinstance(holder, int) else f" in {quoted(holder)}"


def _path(tree: Any, loc: tuple[str | int, ...], kind: str) -> Path:
    """The part of pydantic's location that is in the tree: not its names for branches of a union."""
    path: list[str | int] = []
    for step in loc:
        inside = step in tree if isinstance(tree, dict) else isinstance(tree, list) and isinstance(step, int)
        if inside:
            path.append(step)
            tree = tree[step]
    return (*path, loc[-1]) if kind == "missing" else tuple(path)


def _form_at(form: type[Form], path: Path) -> type[Form] | None:
    """The form whose key the last step of a path is, None if it is not a form's."""
    here: Any = form
    for step in path[:-1]:
        if isinstance(here, type) and issubclass(here, Form):
            fields = {field.alias or name: field.annotation for name, field in here.model_fields.items()}
            here = fields.get(str(step))
        else:
            inner = get_args(here)
            here = inner[-1] if get_origin(here) in (dict, list) else None
        while get_origin(here) is Annotated:
            here = get_args(here)[0]
    return here if isinstance(here, type) and issubclass(here, Form) else None


def _keys(form: type[Form], path: Path) -> list[str]:
    """Keys that could stand where a path ends."""
    here = _form_at(form, path)
    return [field.alias or name for name, field in here.model_fields.items()] if here else []


def _meaning(form: type[Form], path: Path) -> str:
    """What a key is for; for an item, what its list is for."""
    while path and isinstance(path[-1], int):
        path = path[:-1]
    here = _form_at(form, path) if path else None
    fields = {field.alias or name: field.description for name, field in here.model_fields.items()} if here else {}
    return fields.get(str(path[-1])) or "" if path else ""

"""What a person asked for: the address they came by, and what they typed that could not be used."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from typing import Literal, cast

from django.http import QueryDict

from halfsplit.call import one_of, points_for, two_points
from halfsplit.errors import HalfsplitError, InputError
from halfsplit.techsheet import Machine, did_you_mean, point_of, setup_of
from halfsplit.trade import LEVELS, MODES, Action, Level, Look, Measure, Mode, Observer, Reading, Seen
from halfsplit.units import METER_MODES, read_reading

Place = Literal["now", "seen", "reading", "log"]
PLACES: tuple[Place, ...] = ("now", "seen", "reading", "log")
OBSERVERS: tuple[Observer, ...] = ("technician", "customer")
_MOST_ECHOED = 200


class FieldError(InputError):
    """Something typed into one field, by name, cannot be used."""

    def __init__(self, field: str, error: HalfsplitError) -> None:
        super().__init__(error.what, error.right)
        self.field = field


@dataclass(frozen=True, slots=True)
class Asked:
    """What the address of a call's page asks to see.

    Attributes:
        at: The part of the page to come back to.
        done: Number of the entry just written.
        by: Whose word the list of functions writes down.
        check: Key of a check wanted instead of the one proposed.
    """

    at: Place = "now"
    done: int = 0
    by: Observer = "technician"
    check: str = ""


@dataclass(frozen=True, slots=True)
class Refused:
    """What was typed and why it cannot be used, to be shown beside the field.

    Attributes:
        at: The part of the page with the form.
        what: What is wrong.
        right: What would be right.
        field: The field that is wrong, by name; empty if it is none alone.
        typed: The fields as they were sent.
    """

    at: Place
    what: str
    right: str
    field: str = ""
    typed: Mapping[str, str] = dataclass_field(default_factory=dict)


def asked(query: QueryDict) -> Asked:
    """Read an address; what makes no sense in it is left out."""
    done = query.get("done", "")
    return Asked(
        place_of(query),
        int(done) if done.isascii() and done.isdigit() and len(done) < 19 else 0,
        "customer" if query.get("by") == "customer" else "technician",
        query.get("check", ""),
    )


def place_of(fields: QueryDict) -> Place:
    """The part of the page a form or an address belongs to."""
    at = fields.get("at", "")
    return next((place for place in PLACES if place == at), "now")


def refused(error: HalfsplitError, fields: QueryDict) -> Refused:
    """Keep what was typed, and say why not."""
    what, right = error.what, error.right
    typed = {name: fields.get(name, "")[:_MOST_ECHOED] for name in fields if name != "csrfmiddlewaretoken"}
    where = error.field if isinstance(error, FieldError) else ""
    return Refused(place_of(fields), what, right, where, typed)


def last_seen(fields: QueryDict) -> int | None:
    """Number of the last entry that the page had when its form was sent."""
    after = fields.get("after", "")
    return int(after) if after.isascii() and after.isdigit() and len(after) < 19 else None


def check_key(fields: QueryDict) -> str:
    """Key of the check that a form answers, as addresses carry it: what is refused must stand under its own check."""
    return "|".join(fields.get(name, "") for name in ("mode", "a", "b", "setup"))


def reading_in(machine: Machine, fields: QueryDict) -> Reading:
    """The reading that a form describes.

    Raises:
        FieldError: A point, mode, setup or value that cannot be used.
    """
    with about("mode"):
        mode = cast(Mode, one_of(fields.get("mode", ""), MODES, "meter mode"))
        at_plug = METER_MODES[mode].where == "plug"
        points = points_for(machine, mode, []) if at_plug else _two_points(machine, fields)
    with about("setup"):
        setup = setup_of(machine, fields.get("setup", ""))
    with about("value"):
        return Reading(points, mode, setup.name, read_reading(fields.get("value", ""), mode))


def _two_points(machine: Machine, fields: QueryDict) -> tuple[str, str]:
    with about("a"):
        a = point_of(machine, fields.get("a", ""))
    with about("b"):
        return two_points(machine, [a, fields.get("b", "")])


@contextmanager
def about(field: str) -> Iterator[None]:
    """Say of an error inside which field it is about."""
    try:
        yield
    except FieldError:
        raise
    except InputError as error:
        raise FieldError(field, error) from error


def seen_in(machine: Machine, fields: QueryDict) -> Seen:
    """What was seen or told; a button carries level and function as `none/heat`.

    Raises:
        InputError: An unknown function, level or observer.
    """
    level, _, function = fields.get("saw", "").partition("/")
    by = one_of(fields.get("by", ""), OBSERVERS, "observer")
    name = _function(machine, function)
    return Seen(name, cast(Level, one_of(level, LEVELS, "level")), cast(Observer, by), machine.functions[name].setup)


def action_in(machine: Machine, fields: QueryDict) -> Action:
    """The check that a form is about.

    Raises:
        InputError: An unknown function, point, mode or setup.
    """
    setup = one_of(fields.get("setup", ""), tuple(machine.setups), "setup")
    if "function" in fields:
        return Look(_function(machine, fields.get("function", "")), setup)
    mode = cast(Mode, one_of(fields.get("mode", ""), MODES, "meter mode"))
    return Measure(points_for(machine, mode, [fields.get("a", ""), fields.get("b", "")]), mode, setup)


def _function(machine: Machine, name: str) -> str:
    if name not in machine.functions:
        raise InputError(f"There is no function {name!r}.", did_you_mean(name, machine.functions))
    return name

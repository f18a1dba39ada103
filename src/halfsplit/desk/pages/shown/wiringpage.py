"""What the wiring page shows: strips to tap, and what a meter would read between the two terminals tapped."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from django.utils.safestring import SafeString, mark_safe

from halfsplit.call import between, standing_of, suspect_says
from halfsplit.drawing import View, draw_strips
from halfsplit.errors import InputError
from halfsplit.techsheet import Machine
from halfsplit.trade import Action, Measure, Suspect

_MOST_SUSPECTS = 3


@dataclass(frozen=True, slots=True)
class Asked:
    """What the address asks for: the page's own, a setup, and up to two terminals."""

    address: str
    setup: str
    a: str
    b: str


@dataclass(frozen=True, slots=True)
class Known:
    """What a call knows: its leading suspects, and the things it suspects and has cleared."""

    leading: tuple[Suspect, ...] = ()
    suspected: frozenset[str] = frozenset()
    cleared: frozenset[str] = frozenset()


def of_check(asked: Asked, action: Action) -> Asked:
    """The same page with the next check's setup and, where it has them, its two probes."""
    points = action.points if isinstance(action, Measure) else ("", "")
    return replace(asked, setup=action.setup, a=points[0], b=points[1])


@dataclass(frozen=True, slots=True)
class Line:
    """One machine and what a meter would show in it."""

    who: str
    shows: str


@dataclass(frozen=True, slots=True)
class WiringPage:
    """All of it. `says` tells what to tap next, or what is read."""

    title: str
    address: str
    setups: tuple[tuple[str, str, bool], ...]
    a: str
    b: str
    says: str
    readings: tuple[Line, ...]
    strips: tuple[SafeString, ...]
    words: tuple[str, ...]
    cautions: tuple[str, ...]


def wiring_of(machine: Machine, asked: Asked, known: Known) -> WiringPage:
    """The page in the setup asked for, the sheet's first where it is none of them.

    Raises:
        InputError: A terminal that is not on the sheet.
    """
    setup = asked.setup if asked.setup in machine.setups else next(iter(machine.setups))
    probes = tuple(point for point in (asked.a, asked.b) if point)
    view = View(standing_of(machine, setup), probes, known.cleared, known.suspected, _tap(asked, setup))
    strips = draw_strips(machine, view)
    says, readings = _told(machine, setup, probes, known.leading)
    return WiringPage(
        title=machine.title,
        address=asked.address,
        setups=tuple((name, one.says, name == setup) for name, one in machine.setups.items()),
        a=asked.a,
        b=asked.b,
        says=says,
        readings=readings,
        strips=tuple(mark_safe(strip.svg) for strip in strips),  # noqa: S308  # `drawing` escapes all text
        words=tuple(strip.words for strip in strips),
        cautions=machine.cautions,
    )


def _tap(asked: Asked, setup: str) -> Callable[[int, str], str]:
    """Where a tap on a terminal leads: the first sets the red probe, the second the black one, a third begins anew.

    The page comes back with the same strip under the thumb.
    """

    def address(strip: int, point: str) -> str:
        second = asked.a and not asked.b and point != asked.a
        probes = {"a": asked.a, "b": point} if second else {"a": point}
        return f"{asked.address}?{urlencode({'setup': setup, **probes})}#strip-{strip}"

    return address


def _told(
    machine: Machine, setup: str, probes: tuple[str, ...], suspects: tuple[Suspect, ...]
) -> tuple[str, tuple[Line, ...]]:
    """What is said of the probes, and what they read; at points of this sheet that may not be read so, why not.

    Raises:
        InputError: A terminal that is not on the sheet.
    """
    try:
        return _says(probes), _readings(machine, setup, probes, suspects)
    except InputError as error:
        if not set(probes) <= set(machine.points):
            raise
        return f"{error.what} {error.right}".strip(), ()


def _readings(machine: Machine, setup: str, probes: tuple[str, ...], suspects: tuple[Suspect, ...]) -> tuple[Line, ...]:
    if len(probes) < 2:
        return ()
    read = between(machine, setup, (probes[0], probes[1]), suspects[:_MOST_SUSPECTS])
    rows = (("Nothing wrong" if not row.who.faults else suspect_says(machine, row.who), row.shows) for row in read.rows)
    return tuple(Line(who[:1].upper() + who[1:], shows) for who, shows in rows)


def _says(probes: tuple[str, ...]) -> str:
    if not probes:
        return "Tap a terminal to put the red probe on it."
    if len(probes) == 1:
        return f"Red on {probes[0]}. Tap another terminal for the black one."
    return f"Red on {probes[0]}, black on {probes[1]}:"

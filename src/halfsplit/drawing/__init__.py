"""Drawings of the wiring: where the two probes go, as SVG for phone and desk and in words for everyone else."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from importlib import resources

from halfsplit.drawing.layout import Scene, lay_out, lay_out_board
from halfsplit.drawing.page import page
from halfsplit.drawing.picture import Picture
from halfsplit.drawing.rungs import Rung, boards, every_strip, leftovers, rungs
from halfsplit.drawing.standing import Known, Standing, standing_in
from halfsplit.drawing.strip import EVERYTHING, WINDOWS, Points, Strip, check_points, choose, fold
from halfsplit.drawing.svg import to_svg
from halfsplit.drawing.words import in_words
from halfsplit.techsheet import Machine

__all__ = [
    "Rung",
    "Standing",
    "StripDrawing",
    "View",
    "as_page",
    "describe_rungs",
    "draw_machine",
    "draw_rungs",
    "draw_strips",
    "drawing_css",
    "leftovers",
    "rungs",
    "standing_in",
]


@dataclass(frozen=True, slots=True)
class View:
    """What of the whole wiring is shown.

    Attributes:
        standing: How the machine stands; None draws contacts at rest and nothing live.
        probes: Terminals with a probe on them: none, the red one, or both.
        cleared: Parts, wires or branches known to be good, by name.
        suspected: Parts, wires or branches that may be the fault, by name.
        address: Where a tap on a terminal leads, from the number of its strip and its name.
    """

    standing: Standing | None = None
    probes: tuple[str, ...] = ()
    cleared: frozenset[str] = frozenset()
    suspected: frozenset[str] = frozenset()
    address: Callable[[int, str], str] | None = None


@dataclass(frozen=True, slots=True)
class StripDrawing:
    """One rung or board: its name, its SVG, and the same in words."""

    name: str
    svg: str
    words: str


_HIGHEST = 900.0
"""Where a picture is folded tighter, px: little more than one screen of a telephone held upright."""


def draw_rungs(
    machine: Machine,
    points: Points,
    cleared: frozenset[str] = frozenset(),
    suspected: frozenset[str] = frozenset(),
    standing: Standing | None = None,
    *,
    whole: bool = False,
) -> str:
    """Where to put two probes: the rung that has both points, or the two rungs that have one each, as SVG.

    Args:
        machine: The machine.
        points: Where the red probe (A) and the black probe (B) go, as in `("heater.1", "heater.2")`.
        cleared: Parts, wires or branches known to be good, by name.
        suspected: Parts, wires or branches that may be the fault, by name.
        standing: How the machine stands while the check is made; None draws contacts at rest and nothing live.
        whole: Show every part instead of folding what is far from the probes.

    Returns:
        One SVG element, 358 px wide, that takes its colours from `drawing_css`.

    Raises:
        InputError: A point that is not on the sheet, or twice the same point.
    """
    scene = Scene(machine, Known(cleared, suspected, standing), _letters(points))
    strips, picture = fitted(scene, points, whole)
    return to_svg(picture, f"Probes on {points[0]} and {points[1]}", _described(scene, strips))


def describe_rungs(machine: Machine, points: Points, standing: Standing | None = None) -> tuple[str, ...]:
    """The same in words, one line for each rung; with the same `standing` they are the rungs that are drawn.

    Raises:
        InputError: A point that is not on the sheet, or twice the same point.
    """
    scene = Scene(machine, Known(standing=standing), _letters(points))
    return _described(scene, fitted(scene, points, whole=False)[0])


def draw_machine(machine: Machine) -> str:
    """Every rung, and the ground wires and cabinet metal, whole and without probes, as SVG."""
    scene = Scene(machine, Known(), {})
    strips = [fold(rung, (), EVERYTHING) for rung in every_strip(machine)]
    return to_svg(lay_out(scene, strips), machine.title, _described(scene, strips))


def draw_strips(machine: Machine, view: View) -> tuple[StripDrawing, ...]:
    """The whole wiring in a state: each rung, each board and what is left over as a drawing of its own.

    Raises:
        InputError: A probe on a terminal that is not on the sheet, or both on the same.
    """
    check_points(machine, view.probes)
    known = Known(view.cleared, view.suspected, view.standing)
    letters = dict(zip(view.probes, "AB", strict=False))
    found: list[StripDrawing] = []
    for rung in every_strip(machine):
        scene = _scene(machine, known, letters, view, len(found))
        strip = fold(rung, (), EVERYTHING)
        said = in_words(machine, strip, letters)
        found.append(StripDrawing(rung.name, to_svg(lay_out(scene, [strip]), rung.name, (said,)), said))
    for rung in boards(machine):
        scene = _scene(machine, known, letters, view, len(found))
        said = f"{rung.name}: {', '.join(rung.points)}"
        found.append(StripDrawing(rung.name, to_svg(lay_out_board(scene, rung), rung.name, (said,)), said))
    return tuple(found)


def _scene(machine: Machine, known: Known, letters: dict[str, str], view: View, number: int) -> Scene:
    address = None if view.address is None else partial(view.address, number)
    return Scene(machine, known, letters, address, footed=False)


def as_page(title: str, setup: str, strips: Sequence[StripDrawing]) -> str:
    """Drawings as one HTML page that needs nothing else: to print, or to carry on a telephone."""
    return page(title, setup, [strip.svg for strip in strips], drawing_css())


def drawing_css() -> str:
    """The style sheet that goes with every drawing, light and dark."""
    return resources.files(__package__).joinpath("drawing.css").read_text(encoding="utf-8")


def _letters(points: Points) -> dict[str, str]:
    return {points[0]: "A", points[1]: "B"}


def _described(scene: Scene, strips: list[Strip]) -> tuple[str, ...]:
    return tuple(in_words(scene.machine, strip, scene.letters) for strip in strips)


def fitted(scene: Scene, points: Points, whole: bool) -> tuple[list[Strip], Picture]:
    """The most generous window whose picture is not too high; the tightest if none is."""
    chosen = choose(scene.machine, points, scene.known.standing or Standing())
    for window in (EVERYTHING,) if whole else WINDOWS:
        strips = [fold(rung, points, window) for rung in chosen]
        picture = lay_out(scene, strips)
        if picture.height <= _HIGHEST:
            break
    return strips, picture

"""No label touches another, a flag or a symbol, and none leaves the frame, wherever the probes are."""

import random

import pytest

from halfsplit.drawing import Standing, fitted
from halfsplit.drawing.graph import links_of
from halfsplit.drawing.layout import Scene, lay_out
from halfsplit.drawing.picture import WIDTH, Drawn, Flag, Mark, Picture, Text
from halfsplit.drawing.rungs import every_strip
from halfsplit.drawing.standing import Known
from halfsplit.drawing.strip import EVERYTHING, fold
from halfsplit.techsheet import Machine
from tests.unit.drawing.machines import NAMES, machine

HIGHEST = 900


def touching(picture: Picture) -> list[tuple[object, object]]:
    """Pairs of pieces that must stay apart and do not. A symbol may meet the next: they share a terminal."""
    solid = sorted(
        (piece for piece in picture.pieces if isinstance(piece, Text | Mark | Flag | Drawn)),
        key=lambda piece: piece.box.top,
    )
    found = []
    for index, one in enumerate(solid):
        for other in solid[index + 1 :]:
            if other.box.top >= one.box.bottom:
                break
            if one.box.overlaps(other.box) and not (isinstance(one, Drawn) and isinstance(other, Drawn)):
                found.append((one, other))
    return found


def outside(picture: Picture) -> list[object]:
    """Pieces that leave the frame."""
    boxes = [(piece, piece.box) for piece in picture.pieces if isinstance(piece, Text | Mark | Flag | Drawn)]
    boxes += [(piece, piece.plate) for piece in picture.pieces if hasattr(piece, "plate") and piece.plate]
    return [
        piece for piece, box in boxes if box.left < 0 or box.top < 0 or box.right > WIDTH or box.bottom > picture.height
    ]


def pairs_of(of: Machine) -> list[tuple[str, str]]:
    """The two ends of every link, and 200 pairs at random."""
    ends = [(link.a, link.b) for link in links_of(of)]
    chance = random.Random(20)
    points = list(of.points)
    return ends + [tuple(chance.sample(points, 2)) for _ in range(200)]


def everything_marked(of: Machine) -> Known:
    """The most that can be written: every second thing suspected, the others cleared, all live, a third lifted."""
    things = [*of.parts, *of.wires]
    standing = Standing({}, frozenset(list(of.wires)[::3]), frozenset(of.points))
    return Known(frozenset(things[::2]), frozenset(things[1::2]), standing)


@pytest.mark.parametrize("known", ["nothing", "everything"])
@pytest.mark.parametrize("name", NAMES)
def test_labels_stay_apart_and_inside_for_any_two_points(name: str, known: str) -> None:
    of = machine(name)
    for points in pairs_of(of):
        scene = Scene(
            of, Known() if known == "nothing" else everything_marked(of), dict(zip(points, "AB", strict=True))
        )
        strips, picture = fitted(scene, points, whole=False)
        assert touching(picture) == [], points
        assert outside(picture) == [], points
        assert len(strips) <= 2
        assert known == "everything" or picture.height <= HIGHEST, points


@pytest.mark.parametrize("name", NAMES)
def test_labels_stay_apart_in_the_whole_drawing(name: str) -> None:
    of = machine(name)
    strips = [fold(rung, (), EVERYTHING) for rung in every_strip(of)]
    picture = lay_out(Scene(of, everything_marked(of), {}), strips)
    assert touching(picture) == []
    assert outside(picture) == []


def test_touching_labels_would_be_noticed() -> None:
    pieces = (Text("heater.1", "name", 140, 100), Text("heater.2", "name", 150, 110), Text("far out", "name", 330, 300))
    picture = Picture(400, pieces)
    assert touching(picture) == [pieces[:2]]
    assert outside(picture) == [pieces[2]]

"""From strips to a picture: everything its place, one column of wiring with flags to its left and labels to its right.

What may live here: heights. Each label gets the height it needs between its neighbours, so that none can touch another
however long a name is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from halfsplit.circuit import ALWAYS
from halfsplit.drawing.graph import Link, metal_points, supply_points, terminal_of
from halfsplit.drawing.labels import INDENT, Label, connector_label, height, link_label, point_label
from halfsplit.drawing.letters import STYLES, width, wrap
from halfsplit.drawing.picture import (
    COLUMN,
    FLAG_HALF,
    LABELS,
    WIDTH,
    Box,
    Drawn,
    End,
    Flag,
    Folded,
    Frame,
    Joint,
    Mark,
    Picture,
    Piece,
    Span,
    Text,
)
from halfsplit.drawing.rungs import Rung
from halfsplit.drawing.standing import Known, Standing, is_closed, marks_of
from halfsplit.drawing.strip import Fold, Strip
from halfsplit.techsheet import Machine

_EDGE, _PAD, _BETWEEN_STRIPS = 10.0, 3.0, 22.0
_RAIL, _METAL = 14.0, 26.0
"""Room between an end's terminal and the end."""
_SHORTEST = {"element": 60.0, "inside": 60.0, "wire": 36.0, "metal": 36.0}
_SHORTEST_FOLD = 46.0
_PLATE = 6.0


@dataclass(frozen=True, slots=True)
class Scene:
    """What one picture is about: the machine, what is known, and probe letters by terminal.

    `address` says where a tap on a terminal leads; `footed` pictures say at their foot how contacts stand.
    """

    machine: Machine
    known: Known
    letters: Mapping[str, str]
    address: Callable[[str], str] | None = None
    footed: bool = True


@dataclass(frozen=True, slots=True)
class _Spot:
    """A terminal with its label: the room that this needs above and below it, and how far a flag reaches at least."""

    point: str
    label: Label
    above: float
    below: float
    flag: float


def lay_out(scene: Scene, strips: Sequence[Strip]) -> Picture:
    """The picture of `strips`, one below the other."""
    pieces: list[Piece] = []
    y = _EDGE
    for number, strip in enumerate(strips):
        y += _BETWEEN_STRIPS if number else 0.0
        y = _heading(strip, y, pieces)
        y = _strip(scene, strip, y, pieces)
    y = _footer(scene, pieces, y)
    return Picture(y + _EDGE, tuple(pieces))


def _heading(strip: Strip, y: float, pieces: list[Piece]) -> float:
    rung = strip.rung
    first, last = terminal_of(rung.points[0]), terminal_of(rung.points[-1])
    ends = f": {first} to {last}, {rung.volts:.0f} V" if rung.volts else ""
    return _write(pieces, wrap(rung.name[:1].upper() + rung.name[1:] + ends, "title", WIDTH - 2 * _EDGE), "title", y)


def _footer(scene: Scene, pieces: list[Piece], y: float) -> float:
    moving = scene.footed and any(isinstance(piece, Drawn) and _moves(piece.link) for piece in pieces)
    if not moving:
        return y
    return _write(pieces, wrap(_how_contacts_stand(scene), "note", WIDTH - 2 * _EDGE), "note", y + 8.0)


def _how_contacts_stand(scene: Scene) -> str:
    standing = scene.known.standing
    if standing is None:
        return "Contacts drawn at rest."
    if any(drive.name in standing.positions for drive in scene.machine.network.drives):
        return "Contacts drawn as they stand in this check."
    return "Contacts drawn as set for this check; what the machine moves by itself, at rest."


def _moves(link: Link) -> bool:
    return link.kind != "wire" and not link.is_load and link.conducts != ALWAYS


def _write(pieces: list[Piece], lines: Sequence[str], style: str, y: float) -> float:
    for line in lines:
        pieces.append(Text(line, style, _EDGE, y + STYLES[style].line / 2))
        y += STYLES[style].line
    return y


def _strip(scene: Scene, strip: Strip, y: float, pieces: list[Piece]) -> float:
    """Place terminals and what is between them downwards from `y`; returns where the strip ends."""
    spots = [_spot(scene, strip, index) for index in range(len(strip.points))]
    y = _top_end(scene, spots[0], y, pieces)
    for index, spot in enumerate(spots):
        if index:
            y = _between(scene, (spots[index - 1], strip.between[index - 1], spot), y, pieces)
        _joint(scene, spot, y, pieces)
    _span(strip, pieces)
    if strip.rung.kind == "spare":
        return y + max(spots[0].below, spots[0].flag)
    return _bottom_end(scene, spots[-1], y, pieces)


def lay_out_board(scene: Scene, rung: Rung) -> Picture:
    """A board as a box: its terminals one below the other on the right side, each with the wires that go to it."""
    pieces: list[Piece] = []
    title = wrap(rung.name[:1].upper() + rung.name[1:], "title", WIDTH - 2 * _EDGE)
    y = top = _write(pieces, title, "title", _EDGE) + 8.0
    for point in rung.points:
        label = connector_label(scene.machine, scene.known, point, point in scene.letters)
        above = STYLES[label[0].style].line / 2
        flag = FLAG_HALF + 1.0 if point in scene.letters else 0.0
        y += max(above, flag) + _PAD
        _joint(scene, _Spot(point, label, above, height(label) - above, flag), y, pieces)
        y += max(height(label) - above, flag) + _PAD
    pieces.append(Frame(top, y))
    return Picture(y + _EDGE, tuple(pieces))


def _spot(scene: Scene, strip: Strip, index: int) -> _Spot:
    """The first line of a terminal's label stands beside it; all else hangs below."""
    point = strip.points[index]
    probed = point in scene.letters
    label = point_label(scene.machine, scene.known, strip, index, probed)
    above = STYLES[label[0].style].line / 2
    return _Spot(point, label, above, height(label) - above, FLAG_HALF + 1.0 if probed else 0.0)


def _between(scene: Scene, pair: tuple[_Spot, Link | Fold, _Spot], top: float, pieces: list[Piece]) -> float:
    """Place what is between two terminals, the upper one at `top`; returns the height of the lower one."""
    upper, between, lower = pair
    label = link_label(scene.machine, scene.known, between)
    needed = upper.below + height(label) + 2 * _PAD + lower.above
    bottom = top + max(_shortest(between), needed, upper.flag + lower.flag)
    if isinstance(between, Fold):
        pieces.append(Folded(top, bottom))
    else:
        standing = scene.known.standing or Standing()
        closed, turned = is_closed(scene.machine, standing, between), upper.point == between.b
        flows = between.name in standing.flowing
        pieces.append(Drawn(between, top, bottom, closed, turned, marks_of(scene.known, between), flows))
    # Beside the middle of the symbol, or as near as the terminals' own labels let it.
    highest, lowest = top + upper.below + _PAD, bottom - lower.above - _PAD - height(label)
    _label(pieces, label, min(max((top + bottom - height(label)) / 2, highest), lowest), INDENT)
    return bottom


def _span(strip: Strip, pieces: list[Piece]) -> None:
    """Join the two flags if both are on this strip."""
    ys = [piece.y for piece in pieces if isinstance(piece, Flag) and piece.point in strip.points]
    if len(ys) == 2:
        pieces.append(Span(min(ys) + FLAG_HALF, max(ys) - FLAG_HALF))


def _shortest(between: Link | Fold) -> float:
    return _SHORTEST_FOLD if isinstance(between, Fold) else _SHORTEST[between.kind]


def _joint(scene: Scene, spot: _Spot, y: float, pieces: list[Piece]) -> None:
    letter = scene.letters.get(spot.point, "")
    top = y - STYLES[spot.label[0].style].line / 2
    plate = None
    if letter:
        pieces.append(Flag(letter, spot.point, y))
        names = tuple(line for line in spot.label if line.style == "probed")
        right = LABELS + max(width(line.text, line.style) for line in names) + _PLATE
        plate = Box(LABELS - _PLATE, top, right, top + height(names))
    address = scene.address(spot.point) if scene.address else ""
    pieces.append(Joint(spot.point, y, letter, plate, address))
    _label(pieces, spot.label, top)


def _label(pieces: list[Piece], label: Label, y: float, indent: float = 0.0) -> None:
    """Write a label downwards from `y`."""
    for line in label:
        half = STYLES[line.style].line / 2
        if line.mark:
            pieces.append(Mark(line.mark, LABELS + indent, y + half))
        pieces.append(Text(line.text, line.style, LABELS + indent + line.indent, y + half, faint=line.faint))
        y += 2 * half


def _top_end(scene: Scene, spot: _Spot, y: float, pieces: list[Piece]) -> float:
    """The rail above the first terminal, with its name; returns the terminal's height."""
    if spot.point not in supply_points(scene.machine):
        return y + max(spot.above, spot.flag) + 6.0
    line = STYLES["rail"].line
    pieces.append(Text(terminal_of(spot.point), "rail", COLUMN, y + 4.0 + line / 2, centred=True))
    rail = y + line + 8.0
    y = rail + max(_RAIL, spot.above, spot.flag)
    pieces.append(End("rail", rail, y))
    return y


def _bottom_end(scene: Scene, spot: _Spot, y: float, pieces: list[Piece]) -> float:
    """Rail or cabinet below the last terminal, at height `y`; returns where the strip ends."""
    label = y + max(spot.below, spot.flag)
    if spot.point in metal_points(scene.machine):
        pieces.append(End("metal", y + 24.0, y))
        return max(label, y + 24.0 + _METAL)
    if spot.point not in supply_points(scene.machine):
        return label
    rail, line = y + max(_RAIL, spot.below - 4.0), STYLES["rail"].line
    pieces.append(End("rail", rail, y))
    pieces.append(Text(terminal_of(spot.point), "rail", COLUMN, rail + 6.0 + line / 2, centred=True))
    return max(label, rail + 6.0 + line)

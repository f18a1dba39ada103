"""What is written beside terminals, links and folds. Nothing about where it stands."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from halfsplit.circuit import ALWAYS
from halfsplit.drawing.graph import Link, part_of, supply_points
from halfsplit.drawing.letters import STYLES, wrap
from halfsplit.drawing.picture import LABELS, MARK, WIDTH
from halfsplit.drawing.rungs import title_of
from halfsplit.drawing.standing import Known, marks_of
from halfsplit.drawing.strip import Fold, Strip
from halfsplit.techsheet import COLOURS, Machine

INDENT = 10.0
"""How far in the labels of links begin, so that the names of terminals stand out."""
ROOM = WIDTH - LABELS - INDENT - 8.0
"""Room for a label, px."""
_MARK_ROOM = MARK + 5.0


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a label, with a sign before it if `mark` names one."""

    text: str
    style: str
    mark: str = ""
    faint: bool = False

    @property
    def indent(self) -> float:
        """How far in its text begins."""
        return _MARK_ROOM if self.mark else 0.0


Label = tuple[Line, ...]


def height(label: Label) -> float:
    """Height of a label, px."""
    return float(sum(STYLES[line.style].line for line in label))


def point_label(machine: Machine, known: Known, strip: Strip, index: int, probed: bool) -> Label:
    """A terminal's name; its part's title where no symbol of that part stands beside it; whether it is live."""
    point = strip.points[index]
    style = "probed" if probed else "name"
    lines = tuple(Line(line, style) for line in wrap(point, style, ROOM + INDENT))
    beside = strip.between[max(index - 1, 0) : index + 1]
    on_symbol = any(isinstance(link, Link) and link.thing == part_of(point) for link in beside)
    if not on_symbol and point not in supply_points(machine):
        lines += _lines(machine.title_of(part_of(point)), "part")
    if probed:
        lines += _other_wires(machine, strip, index)
    if known.standing is not None and point in known.standing.live:
        lines += (Line("live", "mark", "live"),)
    return lines


def connector_label(machine: Machine, known: Known, point: str, probed: bool) -> Label:
    """A board's terminal and the wires on it, each with its colour and where it goes."""
    lines = _lines(point, "probed" if probed else "name")
    for wire in machine.wires.values():
        if point in (wire.a, wire.b):
            other = wire.b if point == wire.a else wire.a
            lines += _lines(f"{colour_code(wire.colour)} to {other}", "wire")
    if known.standing is not None and point in known.standing.live:
        lines += (Line("live", "mark", "live"),)
    return lines


def link_label(machine: Machine, known: Known, link: Link | Fold) -> Label:
    """What a link is, and what is known of it; or how many parts a fold hides."""
    if isinstance(link, Fold):
        return _fold_label(known, link)
    marks = marks_of(known, link)
    signs = tuple(Line(mark, "mark", mark) for mark in marks)
    if link.kind == "metal":
        return _lines("the same metal", "note")
    if link.kind != "wire":
        return _lines(title_of(machine, link), "part", faint="cleared" in marks) + signs
    return _lines(colour_words(link.colour), "wire", faint="cleared" in marks) + _only_when(link) + signs


def colour_words(colour: str) -> str:
    """Letter code and words of an insulation colour: `RD/BK red/black` (IEC 60757)."""
    code = colour_code(colour)
    return colour if code == colour else f"{code} {colour}"


def colour_code(colour: str) -> str:
    """Letter code of an insulation colour: `RD/BK`."""
    return "/".join(COLOURS[part] for part in colour.split("/"))


def count_of_parts(number: int) -> str:
    """`… 5 parts …`."""
    return f"… {number} part{'' if number == 1 else 's'} …"


def _fold_label(known: Known, folded: Fold) -> Label:
    hidden = Counter(mark for link in folded.links for mark in marks_of(known, link) if mark != "cleared")
    signs = tuple(Line(f"{number} {mark}", "mark", mark) for mark, number in hidden.items())
    # What lies between the probes decides the reading, so all of it is named.
    named = ", ".join(folded.parts) if folded.measured else f"{folded.parts[0]} to {folded.parts[-1]}"
    return (*_lines(count_of_parts(len(folded.parts)), "note"), *_lines(named, "note"), *signs)


def _other_wires(machine: Machine, strip: Strip, index: int) -> Label:
    """Colours of the wires on a probed terminal that are not drawn there: they tell it from its neighbours."""
    drawn = {link.name for link in strip.between[max(index - 1, 0) : index + 1] if isinstance(link, Link)}
    here = [wire for wire in machine.wires.values() if strip.points[index] in (wire.a, wire.b)]
    others = Counter(colour_code(wire.colour) for wire in here if wire.name not in drawn)
    if not others:
        return ()
    listed = ", ".join(code if number == 1 else f"{number} {code}" for code, number in others.items())
    return _lines(f"{'also' if len(here) > others.total() else 'wires'} here: {listed}", "note")


def _only_when(link: Link) -> Label:
    """A wire that is not always there says when it is."""
    if link.conducts == ALWAYS:
        return ()
    words = " or ".join(
        " and ".join(f"{variable} {' or '.join(sorted(allowed))}" for variable, allowed in every)
        for every in link.conducts
    )
    return _lines(f"only with {words}", "note")


def _lines(text: str, style: str, faint: bool = False) -> Label:
    return tuple(Line(line, style, faint=faint) for line in wrap(text, style, ROOM))

"""A picture as SVG text: classes only, so that it passes a strict content security policy and takes the page's colours.

What may live here: one function for each sort of piece. Every link and terminal carries its name as data, for the tests
that read the drawing back and for pages that want to point at it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from halfsplit.drawing.letters import STYLES
from halfsplit.drawing.picture import (
    COLUMN,
    FLAG_BODY,
    FLAG_HALF,
    FLAG_LEFT,
    FLAG_TIP,
    LABELS,
    MARK,
    WIDTH,
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
from halfsplit.drawing.symbols import TURNED, shape
from halfsplit.drawing.tags import Value, circle, line, path, tag, words

_HUES = {"A": "red", "B": "black"}
_TAP_HALF = 16.0
"""Half the height of what a thumb can hit of a terminal, px: 32 of the 24 that WCAG 2.2 asks for (2.5.8)."""
_BASELINE = 0.35
"""From the middle of a line of text down to its baseline, in its size."""


def to_svg(picture: Picture, title: str, description: Sequence[str]) -> str:
    """The whole document, one string."""
    ordered = sorted(picture.pieces, key=lambda piece: _LAYERS.index(type(piece)))
    about = tag("title", "", words(title)) + tag("desc", "", words("\n".join(description)))
    paper = tag("rect", "wd-paper", x=0, y=0, width=WIDTH, height=picture.height, rx=6)
    values: dict[str, Value] = {"width": WIDTH, "height": round(picture.height)}
    values["viewBox"] = f"0 0 {WIDTH:.0f} {picture.height:.0f}"
    inside = about + paper + "".join(_WRITERS[type(piece)](piece) for piece in ordered)
    return tag("svg", "wd", inside, xmlns="http://www.w3.org/2000/svg", role="img", **values)


def _text(text: Text) -> str:
    css = f"wd-t wd-{text.style}" + (" wd-mid" if text.centred else "") + (" wd-faint" if text.faint else "")
    return tag("text", css, words(text.text), x=text.x, y=text.y + _BASELINE * STYLES[text.style].size)


def _drawn(drawn: Drawn) -> str:
    css = " ".join(("wd-link", *(f"wd-is-{mark}" for mark in drawn.marks)))
    inside = _wire(drawn) if drawn.link.kind == "wire" else _part(drawn)
    inside += _flow(drawn) if drawn.flows else ""
    return tag("g", css, inside, data_link=drawn.link.name)


def _wire(drawn: Drawn) -> str:
    """Casing, insulation, tracer: so that white shows on white and black on black. A lifted wire stands open."""
    colours = drawn.link.colour.split("/")
    layers = ["wd-casing", f"wd-wire wd-c-{colours[0]}"]
    if len(colours) > 1:
        layers.append(f"wd-tracer wd-c-{colours[1]}")
    pieces = [(drawn.top, drawn.bottom)]
    if "lifted" in drawn.marks:
        pieces = [(drawn.top + 18, drawn.bottom)]
    return "".join(line(css, COLUMN, top, COLUMN, bottom) for css in layers for top, bottom in pieces)


def _flow(drawn: Drawn) -> str:
    """Two strokes beside the link that say: current. It alternates, so they point nowhere."""
    x, y = COLUMN - 16.0, drawn.middle
    return path("wd-flow", f"M{x - 4} {y - 7} q4 -5 8 0 M{x - 4} {y} q4 -5 8 0 M{x - 4} {y + 7} q4 -5 8 0")


def _part(drawn: Drawn) -> str:
    if drawn.link.kind == "metal":
        return line("wd-metal", COLUMN, drawn.top, COLUMN, drawn.bottom)
    inside, reach = shape(drawn.link.symbol, drawn.closed)
    turn = " scale(1 -1)" if drawn.turned and drawn.link.symbol in TURNED else ""
    leads = line("wd-ink", COLUMN, drawn.top, COLUMN, drawn.middle - reach)
    leads += line("wd-ink", COLUMN, drawn.middle + reach, COLUMN, drawn.bottom)
    return leads + tag("g", "wd-symbol", inside, transform=f"translate({COLUMN:.0f} {drawn.middle:.1f}){turn}")


def _frame(frame: Frame) -> str:
    """The box of a board, its right side where its terminals stand."""
    size = {"width": COLUMN - FLAG_LEFT, "height": frame.bottom - frame.top}
    return tag("rect", "wd-board", x=FLAG_LEFT, y=frame.top, rx=6, **size)


def _folded(folded: Folded) -> str:
    return line("wd-fold", COLUMN, folded.top, COLUMN, folded.bottom)


def _joint(joint: Joint) -> str:
    plate = ""
    if joint.plate:
        box = joint.plate
        css = f"wd-plate wd-plate-{joint.letter.lower()}"
        size = {"width": box.right - box.left, "height": box.bottom - box.top}
        plate = tag("rect", css, x=box.left, y=box.top, rx=4, **size)
    leader = line("wd-leader", COLUMN, joint.y, LABELS - 4.0, joint.y)
    drawn = leader + plate + tag("circle", "wd-joint", cx=COLUMN, cy=joint.y, r=5.5, data_point=joint.point)
    if not joint.address:
        return drawn
    # A thumb needs more than the circle: all of the terminal's line is to be tapped.
    size = {"width": WIDTH - COLUMN + 8.0, "height": 2 * _TAP_HALF}
    field = tag("rect", "wd-tap", x=COLUMN - 12.0, y=joint.y - _TAP_HALF, rx=4, **size)
    return tag("a", "wd-go", field + drawn, href=joint.address, aria_label=f"probe on {joint.point}")


def _span(span: Span) -> str:
    x = (FLAG_LEFT + FLAG_BODY) / 2
    return line("wd-span", x, span.top, x, span.bottom)


def _flag(flag: Flag) -> str:
    """Two shapes that cannot be mixed up: A is a pennant with a point, B a round tag on a stalk."""
    hue, y, half = _HUES[flag.letter], flag.y, FLAG_HALF - 2.0
    if flag.letter == "A":
        outline = f"M{FLAG_LEFT} {y - half} H{FLAG_BODY} L{FLAG_TIP} {y} L{FLAG_BODY} {y + half} H{FLAG_LEFT} Z"
        drawn = path("wd-flag wd-flag-a", outline)
    else:
        size = {"width": FLAG_BODY - FLAG_LEFT, "height": 2 * half}
        drawn = line("wd-stalk", FLAG_BODY, y, FLAG_TIP, y)
        drawn += tag("rect", "wd-flag wd-flag-b", x=FLAG_LEFT, y=y - half, rx=half, **size)
    middle = (FLAG_LEFT + FLAG_BODY) / 2
    drawn += tag("text", "wd-letter wd-mid", words(flag.letter), x=middle, y=y + 3)
    drawn += tag("text", "wd-hue wd-mid", words(hue), x=middle, y=y + 16)
    return tag("g", "wd-probe", drawn, data_probe=flag.letter, data_at=flag.point)


def _mark(mark: Mark) -> str:
    x, y, half = mark.x, mark.y, MARK / 2
    shapes = {
        "cleared": path("wd-tick", f"M{x + 1} {y} l5 6 l9 -12"),
        "suspected": circle("wd-query", x + half, y, half) + tag("text", "wd-q wd-mid", "?", x=x + half, y=y + 5),
        "lifted": path("wd-lift", f"M{x + 2} {y + 6} h12 M{x + half} {y + 3} v-9 m-4 4 l4 -4 l4 4"),
        "live": path("wd-bolt", f"M{x + 10} {y - 8} l-8 9 h5 l-2 7 l8 -10 h-5 Z"),
    }
    return tag("g", f"wd-sign wd-sign-{mark.sort}", shapes[mark.sort])


def _end(end: End) -> str:
    x, y = COLUMN, end.y
    stem = line("wd-ink", x, end.joint, x, y)
    if end.sort == "rail":
        return stem + line("wd-rail", x - 22, y, x + 22, y)
    slants = " ".join(f"M{x + left} {y} l-6 10" for left in (-12, 0, 12))
    return stem + path("wd-ink", f"M{x - 18} {y} H{x + 18} {slants}")


_WRITERS: dict[type, Callable[..., str]] = {
    Frame: _frame,
    End: _end,
    Span: _span,
    Folded: _folded,
    Drawn: _drawn,
    Joint: _joint,
    Flag: _flag,
    Mark: _mark,
    Text: _text,
}
_LAYERS: list[type[Piece]] = [Frame, End, Span, Folded, Drawn, Joint, Flag, Mark, Text]

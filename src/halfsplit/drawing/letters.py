"""How wide a line of text can get, and how it is broken: the drawing is laid out without a browser, so it guesses high.

Widths are upper bounds per em for the widest of the common screen fonts (DejaVu Sans, from its metrics rounded up), so
that labels stay apart whatever font the screen has. Sizes here must be those of `drawing.css`; a test compares them.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Style:
    """Size and height of a line of text in px of the drawing, and whether it is bold."""

    size: int
    line: int
    bold: bool = False


STYLES = {
    "title": Style(16, 21, bold=True),
    "rail": Style(16, 20, bold=True),
    "probed": Style(16, 23, bold=True),
    "name": Style(14, 18, bold=True),
    "part": Style(14, 18),
    "wire": Style(14, 18),
    "mark": Style(14, 19, bold=True),
    "note": Style(13, 17),
    "letter": Style(26, 30, bold=True),
    "hue": Style(13, 16, bold=True),
}
_NARROW, _SLIM, _WIDE = frozenset("ijlI .,:;'|!"), frozenset("frt-/()[]"), frozenset("mwMW…→%@Ω")
_EMS = {"narrow": 0.38, "slim": 0.50, "wide": 1.11, "capital": 0.84, "other": 0.72}
_REGULAR = 0.93
"""A regular letter against a bold one."""


def width(text: str, style: str) -> float:
    """Upper bound of the width of one line, px."""
    ems = sum(_EMS[_sort(letter)] for letter in text)
    return ems * STYLES[style].size * (1.0 if STYLES[style].bold else _REGULAR)


def wrap(text: str, style: str, room: float) -> tuple[str, ...]:
    """Lines no wider than `room` px, broken at spaces, and inside a word only where it is wider than a line."""
    lines: list[str] = []
    for word in text.split():
        for piece in _pieces(word, style, room):
            if lines and width(f"{lines[-1]} {piece}", style) <= room and word.startswith(piece):
                lines[-1] += f" {piece}"
            else:
                lines.append(piece)
    return tuple(lines)


def _pieces(word: str, style: str, room: float) -> list[str]:
    pieces = [""]
    for letter in word:
        if width(pieces[-1] + letter, style) > room:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def _sort(letter: str) -> str:
    if letter in _NARROW:
        return "narrow"
    if letter in _SLIM:
        return "slim"
    if letter in _WIDE:
        return "wide"
    return "capital" if letter.isupper() or letter.isdigit() else "other"

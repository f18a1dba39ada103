"""Symbols of electronic parts after IEEE 315 and IEC 60617, in strokes of our own as those in `symbols`."""

from __future__ import annotations

from halfsplit.drawing.tags import circle, line, path

Shape = tuple[str, float]
_INK, _BODY, _SOLID = "wd-ink", "wd-body", "wd-solid"


def capacitor(closed: bool) -> Shape:
    """Two plates."""
    del closed
    return line(_INK, -13, -4, 13, -4) + line(_INK, -13, 4, 13, 4), 4


def diode(closed: bool) -> Shape:
    """A triangle that points to its bar: from end a, the anode, to end b."""
    del closed
    return path(_BODY, "M-11 -10 H11 L0 9 Z") + line(_INK, -11, 9, 11, 9), 10


def led(closed: bool) -> Shape:
    """A diode that shines."""
    rays = path(_INK, "M13 -4 l8 -8 M21 -12 h-5 M21 -12 v5 M13 6 l8 -8 M21 -2 h-5 M21 -2 v5")
    return diode(closed)[0] + rays, 10


def neon(closed: bool) -> Shape:
    """Two electrodes in a bulb with gas."""
    del closed
    electrodes = (
        line(_INK, 0, -17, 0, -5) + line(_INK, -6, -5, 6, -5) + line(_INK, 0, 17, 0, 5) + line(_INK, -6, 5, 6, 5)
    )
    return circle(_BODY, 0, 0, 17) + electrodes + circle(_SOLID, 10, 6, 2), 17


def triac(closed: bool) -> Shape:
    """Two diodes in opposite directions, and a gate."""
    del closed
    body = path(_BODY, "M-14 -9 H0 L-7 9 Z M0 9 H14 L7 -9 Z")
    return body + line(_INK, -15, -9, 15, -9) + line(_INK, -15, 9, 15, 9) + path(_INK, "M7 9 l8 8 h6"), 9

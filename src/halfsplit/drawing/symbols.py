"""Symbols after IEEE 315 and IEC 60617, in plain strokes of our own, each round (0, 0), its leads going up and down.

What may live here: the shapes. A symbol is a function of whether it is closed; it returns its SVG and how far from the
middle its leads begin. What has no symbol of its own is a box.
"""

from __future__ import annotations

from collections.abc import Callable

from halfsplit.drawing.electronic import capacitor, diode, led, neon, triac
from halfsplit.drawing.tags import circle, line, path, tag, words

Shape = tuple[str, float]
"""SVG text, and half the height that the leads leave free."""
_INK, _BODY = "wd-ink", "wd-body"


def shape(symbol: str, closed: bool) -> Shape:
    """The shape of a symbol by its name in the catalogue."""
    return _SHAPES.get(symbol, _box)(closed)


def _blade(closed: bool) -> str:
    """A contact: two dots and a blade, on both or swung away."""
    end = (0, -14) if closed else (-15, -12)
    return line("wd-blade", 0, 14, *end) + circle("wd-solid", 0, -14, 4) + circle("wd-solid", 0, 14, 4)


def _contact(closed: bool) -> Shape:
    return _blade(closed), 14


def _thermostat(closed: bool) -> Shape:
    """A contact with the step of a bimetal hung on its blade."""
    step = path(_INK, f"M{0 if closed else -8} 0 h6 v-8 h7 v8 h7")
    return _blade(closed) + step, 14


def _cut_off(closed: bool) -> Shape:
    """A link in a tube, as a fuse: it works once."""
    del closed
    return tag("rect", _BODY, x=-8, y=-17, width=16, height=34) + line(_INK, 0, -17, 0, 17), 17


def _heater(closed: bool) -> Shape:
    del closed
    rungs = "".join(line(_INK, -10, y, 10, y) for y in (-11, 0, 11))
    return tag("rect", _BODY, x=-10, y=-22, width=20, height=44) + rungs, 22


def _resistor(closed: bool) -> Shape:
    del closed
    return path(_INK, "M0 -21 l9 3.5 l-18 7 l18 7 l-18 7 l18 7 l-18 7 l9 3.5"), 21


def _lamp(closed: bool) -> Shape:
    del closed
    return circle(_BODY, 0, 0, 17) + path(_INK, "M-12 -12 L12 12 M12 -12 L-12 12"), 17


def _motor(closed: bool) -> Shape:
    del closed
    return circle(_BODY, 0, 0, 19) + tag("text", "wd-m", words("M"), x=0, y=6), 19


def _winding(closed: bool) -> Shape:
    del closed
    return path(_INK, "M0 -20 a10 5 0 0 1 0 10 a10 5 0 0 1 0 10 a10 5 0 0 1 0 10 a10 5 0 0 1 0 10"), 20


def _breaker(closed: bool) -> Shape:
    """Two dots and an arc, which stands off when it has opened."""
    arc = "M0 14 a15 15 0 0 1 0 -28" if closed else "M-7 14 a15 15 0 0 1 0 -28"
    return path(_INK, arc) + circle("wd-solid", 0, -14, 4) + circle("wd-solid", 0, 14, 4), 14


def _plug(closed: bool) -> Shape:
    """A blade in its slot, or out of it."""
    apart = 0 if closed else 6
    socket = path(_INK, f"M-9 {2 - apart} a9 9 0 0 1 18 0")
    blade = tag("rect", "wd-solid", x=-3.5, y=-5 + apart, width=7, height=17)
    return socket + line(_INK, 0, -7 - apart, 0, -14) + blade + line(_INK, 0, 12 + apart, 0, 18), 14


def _link(closed: bool) -> Shape:
    del closed
    return line(_INK, 0, -10, 0, 10), 10


def _box(closed: bool) -> Shape:
    del closed
    return tag("rect", _BODY, x=-14, y=-16, width=28, height=32), 16


_SHAPES: dict[str, Callable[[bool], Shape]] = {
    "contact": _contact,
    "thermostat": _thermostat,
    "cut-off": _cut_off,
    "heater": _heater,
    "resistor": _resistor,
    "lamp": _lamp,
    "motor": _motor,
    "winding": _winding,
    "breaker": _breaker,
    "plug": _plug,
    "link": _link,
    "capacitor": capacitor,
    "diode": diode,
    "led": led,
    "neon": neon,
    "triac": triac,
}
"""Symbols that have a shape of their own."""
SYMBOLS = frozenset(_SHAPES)
TURNED = frozenset({"plug", "diode", "led"})
"""Symbols whose ends differ: drawn upside down when their end b is the upper one."""

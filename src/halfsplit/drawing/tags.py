"""Writing SVG elements as text, with every value escaped."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

Value = str | float


def tag(name: str, css: str = "", *inside: str, **values: Value) -> str:
    """One element: `css` is its classes, `inside` ready-made text, `values` its attributes (`_` becomes `-`)."""
    attributes = {"class": css, **values} if css else values
    written = "".join(f" {key.replace('_', '-')}={quoteattr(_text(value))}" for key, value in attributes.items())
    return f"<{name}{written}>{''.join(inside)}</{name}>" if inside else f"<{name}{written}/>"


def words(text: str) -> str:
    """Text for the inside of an element."""
    return escape(text)


def line(css: str, x1: float, y1: float, x2: float, y2: float) -> str:
    """A straight stroke."""
    return tag("line", css, x1=x1, y1=y1, x2=x2, y2=y2)


def path(css: str, drawn: str) -> str:
    """A path."""
    return tag("path", css, d=drawn)


def circle(css: str, x: float, y: float, radius: float) -> str:
    """A circle."""
    return tag("circle", css, cx=x, cy=y, r=radius)


def _text(value: Value) -> str:
    return value if isinstance(value, str) else f"{value:.1f}".removesuffix(".0")

"""Drawings as one page that stands alone: styles inside, light and dark, columns that break well on A4 and Letter."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

_PAGE_CSS = """
body { margin: 1rem; font: 16px/1.4 system-ui, sans-serif; color-scheme: light dark; }
.strips { columns: 358px; column-gap: 1.25rem; }
figure { margin: 0 0 1.25rem; break-inside: avoid; }
@page { size: auto; margin: 12mm; }
@media print { body { margin: 0; } .wd { color-scheme: light; } .strips { columns: 2; } figure { zoom: .8; } }
"""


def page(title: str, setup: str, drawings: Sequence[str], css: str) -> str:
    """HTML of several SVG drawings under one heading; `setup` says how the machine stands, empty at rest."""
    state = f"As it stands: {setup}" if setup else "At rest"
    figures = "\n".join(f"<figure>{svg}</figure>" for svg in drawings)
    return (
        f'<!doctype html>\n<html lang="en">\n<head><meta charset="utf-8"><title>{escape(title)}</title>\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<style>{_PAGE_CSS}{css}</style></head>\n"
        f"<body><h1>{escape(title)}</h1>\n<p>{escape(state)}</p>\n"
        f'<div class="strips">\n{figures}\n</div></body>\n</html>\n'
    )

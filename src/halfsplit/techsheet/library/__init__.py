"""The built-in sheets: invented, generic machines."""

from __future__ import annotations

from importlib import resources


def names() -> tuple[str, ...]:
    """Names of the built-in sheets, in alphabetical order."""
    folder = resources.files(__name__)
    return tuple(sorted(item.name.removesuffix(".yaml") for item in folder.iterdir() if item.name.endswith(".yaml")))


def text(name: str) -> str:
    """Text of a built-in sheet."""
    return (resources.files(__name__) / f"{name}.yaml").read_text(encoding="utf-8")

"""The same drawing in words: for screen readers, for the terminal, and for whoever reads it out to a mate."""

from __future__ import annotations

from collections.abc import Mapping

from halfsplit.drawing.graph import Link, supply_points, terminal_of
from halfsplit.drawing.labels import count_of_parts
from halfsplit.drawing.rungs import in_short
from halfsplit.drawing.strip import Fold, Strip
from halfsplit.techsheet import Machine


def in_words(machine: Machine, strip: Strip, letters: Mapping[str, str]) -> str:
    """`heater: L1 house → … 5 parts … → [A] heater.1 → heater → [B] heater.2 → … 4 parts … → L2 house`."""
    steps: list[str] = []
    for index in range(len(strip.points)):
        if index:
            between = strip.between[index - 1]
            steps.append(_between(machine, between))
        named = _point(machine, strip, index, letters)
        steps += [named] if named else []
    return f"{strip.rung.name}: {' → '.join(steps)}"


def _between(machine: Machine, between: Link | Fold) -> str:
    if isinstance(between, Fold):
        return count_of_parts(len(between.parts))
    if between.kind == "metal":
        return "the same metal"
    return in_short(between)


def _point(machine: Machine, strip: Strip, index: int, letters: Mapping[str, str]) -> str:
    """A terminal is named where a probe is, at the ends, and where only wires meet."""
    point = strip.points[index]
    if point in letters:
        return f"[{letters[point]}] {point}"
    if point in supply_points(machine):
        return f"{terminal_of(point)} {point.rpartition('.')[0]}"
    beside = strip.between[max(index - 1, 0) : index + 1]
    element = any(isinstance(link, Link) and link.kind in {"element", "inside"} for link in beside)
    return "" if element else point

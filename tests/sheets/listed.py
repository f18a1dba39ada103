"""Lists of symptoms written by hand before the engine was run, and what the engine shows.

A list `NAME_symptoms.yaml` has `healthy: {function: level}` and `faults: {fault: {function: level}}`, where a fault
tells only what differs from healthy, and a level may be a list of levels where whoever wrote it was honestly unsure.
Faults with the same symptoms may be written once: `faults` may have keys of several ids with commas between them.

A list `NAME_groups.yaml` has the suspects that no check parts, as `{alike: [fault, fault], why: words}`; `sound` stands
for nothing wrong.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from ruamel.yaml import YAML

from halfsplit.predict import Predictor, levels
from halfsplit.techsheet import load_machine
from halfsplit.trade import LEVELS, NOTHING_WRONG, Suspect

HERE = Path(__file__).parent
HEALTHY = "healthy"
SOUND = "sound"
LISTED = tuple(sorted(path.name.removesuffix("_symptoms.yaml") for path in HERE.glob("*_symptoms.yaml")))
GROUPED = tuple(sorted(path.name.removesuffix("_groups.yaml") for path in HERE.glob("*_groups.yaml")))


@cache
def written(sheet: str) -> dict[str, dict[str, set[str]]]:
    """Fault (or `healthy`) to function to the levels that the list allows."""
    text = (HERE / f"{sheet}_symptoms.yaml").read_text(encoding="utf-8")
    listed: Any = YAML(typ="safe").load(text)
    sound = listed[HEALTHY]
    table = {HEALTHY: sound}
    for names, differs in listed["faults"].items():
        for fault in str(names).split(", "):
            assert fault not in table, f"{fault} stands twice in the list of {sheet}"
            table[fault] = {**sound, **(differs or {})}
    return {fault: {function: _allowed(level) for function, level in row.items()} for fault, row in table.items()}


@cache
def groups(sheet: str) -> dict[frozenset[str], str]:
    """Suspects that no check parts, each group with why."""
    text = (HERE / f"{sheet}_groups.yaml").read_text(encoding="utf-8")
    listed: Any = YAML(typ="safe").load(text)
    return {frozenset(group["alike"]): str(group["why"]) for group in listed}


def unparted(sheet: str, fault: str) -> frozenset[str]:
    """A fault with those that no check parts from it."""
    found = next((group for group in groups(sheet) if fault in group), frozenset({fault}))
    return found - {SOUND}


def _allowed(level: Any) -> set[str]:
    return {str(one) for one in level} if isinstance(level, list) else {str(level)}


@cache
def shown(sheet: str) -> dict[str, dict[str, str]]:
    """Fault (or `healthy`) to function to the likeliest level that the engine works out."""
    machine = load_machine(sheet)
    predictor = Predictor(machine, (NOTHING_WRONG, *(Suspect((fault,)) for fault in machine.faults)))
    found: dict[str, dict[str, str]] = {fault: {} for fault in (HEALTHY, *machine.faults)}
    for name, function in machine.functions.items():
        best = np.argmax(levels(predictor, function, machine.setups[function.setup]), axis=0)
        for fault, row in zip(found, best, strict=True):
            found[fault][name] = LEVELS[row]
    return found


def differences(sheet: str, fault: str) -> dict[str, tuple[str, set[str]]]:
    """Function to what the engine shows and what the list allows, where they differ."""
    rows = written(sheet)[fault]
    return {name: (level, rows[name]) for name, level in shown(sheet)[fault].items() if level not in rows[name]}

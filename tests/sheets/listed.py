"""Lists of symptoms written by hand before the engine was run, and what the engine shows.

A list `NAME_symptoms.yaml` has `healthy: {function: level}` and `faults: {fault: {function: level}}`, where a fault
tells only what differs from healthy, and a level may be a list of levels where whoever wrote it was honestly unsure.
Faults with the same symptoms may be written once: `faults` may have keys of several ids with commas between them.
The degrees of a joint may be left out: none may then show more of any function than a sound and an open one do.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from ruamel.yaml import YAML

from halfsplit.predict import Predictor, levels
from halfsplit.techsheet import Machine, load_machine
from halfsplit.trade import LEVELS, NOTHING_WRONG, Suspect

HERE = Path(__file__).parent
NAMES: tuple[str, ...] = LEVELS
Rows = dict[str, dict[str, set[str]]]
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
    found = {fault: {function: _allowed(level) for function, level in row.items()} for fault, row in table.items()}
    return {**_degrees(load_machine(sheet), found), **found}


def _degrees(machine: Machine, found: Rows) -> Rows:
    """What the degrees of a joint or contact may show that the list leaves out: at most what sound and open do."""
    rows: Rows = {}
    for name, fault in machine.faults.items():
        if fault.degree_of:
            opened = found[_opened(machine, fault.degree_of)]
            rows[name] = {function: _at_most(found[HEALTHY][function], opened[function]) for function in opened}
    return rows


def _opened(machine: Machine, degree_of: str) -> str:
    """The fault that is the last degree: the wire or contact open."""
    thing, _, short = degree_of.partition(":")
    ways = (short.removesuffix("joint") + "open", short.removesuffix("burnt") + "open")
    return next(name for way in ways if (name := f"{thing}:{way}") in machine.faults)


def _at_most(one: set[str], other: set[str]) -> set[str]:
    """Any level up to the highest of these: what an open wire leaves fed back through a load, a poor one starves."""
    return set(NAMES[: max(NAMES.index(level) for level in one | other) + 1])


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

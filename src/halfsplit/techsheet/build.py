"""From a sheet's text to a checked machine, with every mistake found on the way."""

from __future__ import annotations

import hashlib
from typing import cast

from halfsplit.circuit import Network, Pole
from halfsplit.errors import InputError, Problem
from halfsplit.techsheet.document import read_document
from halfsplit.techsheet.draft import Draft
from halfsplit.techsheet.form import FunctionForm, SheetForm, fit
from halfsplit.techsheet.kinds.base import Shown
from halfsplit.techsheet.machine import Complaint, Fault, Function, Machine, Part, Wire, Zone
from halfsplit.techsheet.parts import part_faults, stamp_parts
from halfsplit.techsheet.wiring import read_wires, strays, wire_faults
from halfsplit.techsheet.words import did_you_mean, read_condition, read_step
from halfsplit.trade import LEVELS, Level, Setup
from halfsplit.units import read_minutes

_AS = "as "


def read_sheet(text: str, file: str) -> tuple[Machine | None, tuple[Problem, ...]]:
    """Read a sheet.

    Returns:
        The machine, or None when there is any problem; and the problems in order of line.
    """
    document, problems = read_document(text, file)
    if document is None:
        return None, problems
    form, more = fit(SheetForm, document)
    found = [*problems, *more]
    machine = None
    if form is not None:
        draft = Draft(form, document, found)
        machine = _build(draft, hashlib.sha256(text.encode()).hexdigest()[:16])
    in_order = tuple(sorted(dict.fromkeys(found), key=lambda problem: problem.line))
    return (None if in_order else machine), in_order


def _build(draft: Draft, digest: str) -> Machine | None:
    form = draft.form
    draft.variables.update(_settings(draft))
    zones = _zones(draft)
    parts = stamp_parts(draft)
    wires, wire_branches = read_wires(draft)
    setups = _setups(draft, wires)
    functions = _functions(draft, setups)
    complaints = _complaints(draft, functions)
    faults = _faults(draft, parts, wires)
    for setting in form.per_call:
        if setting not in form.settings:
            draft.note(("per call",), f"There is no setting {setting!r}.", did_you_mean(setting, form.settings))
    stamps = draft.stamps.values()
    poles = tuple(pole for stamp in stamps for pole in stamp.poles)
    if not poles:
        draft.note(("parts",), "This machine has no supply.", "Add a part of kind `split-phase supply`.")
    if draft.problems:
        return None
    chassis = next((f"{part.name}.{part.terminals[0]}" for part in parts.values() if part.kind == "chassis"), "")
    branches = (*(branch for stamp in stamps for branch in stamp.branches), *wire_branches)
    bare = Network(_hertz(draft), branches, poles)
    earth = _earth(poles)
    branches += strays(bare.points(), tuple(pole.point for pole in poles), chassis, earth)
    drives = tuple(drive for stamp in stamps for drive in stamp.drives)
    return Machine(
        name=form.sheet,
        title=form.title,
        about=form.about,
        currency=form.currency,
        digest=digest,
        network=Network(_hertz(draft), branches, poles, drives, draft.variables),
        zones=zones,
        parts=parts,
        wires=wires,
        settings={name: tuple(positions) for name, positions in form.settings.items()},
        per_call=tuple(form.per_call),
        setups=setups,
        functions=functions,
        complaints=complaints,
        faults=faults,
        elements=tuple(element for stamp in stamps for element in stamp.elements),
        points=tuple(f"{part.name}.{terminal}" for part in parts.values() for terminal in part.terminals),
        chassis=chassis,
    )


def _settings(draft: Draft) -> dict[str, tuple[str, ...]]:
    for name, positions in draft.form.settings.items():
        if len(positions) < 2 or len(set(positions)) < len(positions):
            draft.note(("settings", name), f"{name!r} needs two different positions or more.", "The first is the start.")
    return {name: tuple(positions) for name, positions in draft.form.settings.items()}


def _zones(draft: Draft) -> dict[str, Zone]:
    zones = {}
    for name, zone in draft.form.zones.items():
        with draft.noting("zones", name):
            zones[name] = Zone(name, zone.title, read_minutes(zone.open), read_minutes(zone.close))
    return zones


def _hertz(draft: Draft) -> float:
    return next(stamp.hertz for stamp in draft.stamps.values() if stamp.hertz is not None)


def _earth(poles: tuple[Pole, ...]) -> str:
    return next(pole.point for pole in reversed(poles) if pole.volts == 0)


def _setups(draft: Draft, wires: dict[str, Wire]) -> dict[str, Setup]:
    setups: dict[str, Setup] = {}
    for name, form in draft.form.setups.items():
        steps: list[tuple[str, str]] = []
        for index, text in enumerate(form.steps):
            with draft.noting("setups", name, "steps", index):
                steps += _step(draft, setups, wires, text)
        with draft.noting("setups", name, "minutes"):
            setups[name] = Setup(name, form.says, tuple(steps), read_minutes(form.minutes))
    return setups


def _step(draft: Draft, setups: dict[str, Setup], wires: dict[str, Wire], text: str) -> tuple[tuple[str, str], ...]:
    if text.startswith(_AS):
        other = text.removeprefix(_AS).strip()
        if other not in setups:
            raise InputError(f"No setup {other!r} stands above this one.", did_you_mean(other, setups))
        return setups[other].steps
    settings = {name: positions for name, positions in draft.variables.items() if name in draft.form.settings}
    return (read_step(text, settings, wires),)


def _functions(draft: Draft, setups: dict[str, Setup]) -> dict[str, Function]:
    functions = {}
    for name, form in draft.form.functions.items():
        with draft.noting("functions", name):
            functions[name] = _function(draft, name, form, setups)
    return functions


def _function(draft: Draft, name: str, form: FunctionForm, setups: dict[str, Setup]) -> Function:
    if form.setup not in setups:
        raise InputError(f"The function {name!r} is seen in no known setup ({form.setup!r}).", did_you_mean(form.setup, setups))
    aspect, _, part = form.shows.partition(" of ")
    shown = _shown(draft, aspect.strip(), part.strip())
    needs = read_condition(form.needs, draft.variables)
    weak = read_condition(form.weak_without, draft.variables)
    return Function(name, form.ask, form.setup, part.strip(), aspect.strip(), shown, needs, weak)


def _shown(draft: Draft, aspect: str, part: str) -> Shown:
    stamp = draft.stamps.get(part)
    if stamp is None:
        if part in draft.doubtful:
            raise InputError("")
        raise InputError(f"There is no part {part!r} to show anything.", did_you_mean(part, draft.form.parts))
    if aspect not in stamp.shows:
        raise InputError(f"{part!r} shows no {aspect!r}.", did_you_mean(aspect, stamp.shows))
    return stamp.shows[aspect]


def _complaints(draft: Draft, functions: dict[str, Function]) -> dict[str, Complaint]:
    complaints = {}
    for name, form in draft.form.complaints.items():
        for function, level in form.means.items():
            path = ("complaints", name, "means", function)
            if function not in draft.form.functions:
                draft.note(path, f"There is no function {function!r}.", did_you_mean(function, functions))
            if level not in LEVELS:
                draft.note(path, f"{level!r} is not a level.", f"Levels are {', '.join(LEVELS)}.")
        means = tuple((function, cast(Level, level)) for function, level in form.means.items())
        complaints[name] = Complaint(name, form.says, means)
    return complaints


def _faults(draft: Draft, parts: dict[str, Part], wires: dict[str, Wire]) -> dict[str, Fault]:
    faults = [fault for part in parts.values() for fault in part_faults(draft, part)]
    faults += [fault for wire in wires.values() for fault in wire_faults(wire, parts)]
    return {fault.name: fault for fault in faults}

"""From a sheet's text to a checked machine, with every mistake found on the way."""

from __future__ import annotations

import hashlib
from dataclasses import replace

from halfsplit.circuit import Network, Pole
from halfsplit.errors import Problem, quoted
from halfsplit.techsheet.document import Document, read_document
from halfsplit.techsheet.fit import fit_around
from halfsplit.techsheet.form import SheetForm
from halfsplit.techsheet.machine import Fault, Machine, Part, Wire
from halfsplit.techsheet.sections.at_times import read_at_times
from halfsplit.techsheet.sections.basics import (
    check_currency,
    default_wire,
    read_per_call,
    read_settings,
    read_temperatures,
    read_zones,
)
from halfsplit.techsheet.sections.crossed import read_crossed, with_copies
from halfsplit.techsheet.sections.dead_only import dead_only_points
from halfsplit.techsheet.sections.draft import Draft, EnoughError
from halfsplit.techsheet.sections.functions import read_complaints, read_functions
from halfsplit.techsheet.sections.links import read_links
from halfsplit.techsheet.sections.outlets import swapped_outlets
from halfsplit.techsheet.sections.paper import read_nameplate, read_paper_readings
from halfsplit.techsheet.sections.parts import part_faults, read_parts
from halfsplit.techsheet.sections.setups import read_setups
from halfsplit.techsheet.sections.wires import heavy_points, read_wires, strays, wire_faults

_HERTZ = 60.0
MOST_ONE_WAY = 6
"""Diodes in a sheet: `circuit.meter` tries all their states for each ohms reading, and refuses more."""
_HOUSE = ("supply", "breaker", "outlet")
"""Endings of the kinds that stay in the house when the machine is taken away."""


def read_sheet(text: str, file: str) -> tuple[Machine | None, tuple[Problem, ...]]:
    """Read a sheet.

    Returns:
        The machine, or None when there is any problem; and the problems in order of line.
    """
    document, problems = read_document(text, file)
    if document is None:
        return None, problems
    found = list(problems)
    machine = _read(document, found)
    if machine is None or found:
        return None, tuple(sorted(dict.fromkeys(found), key=lambda problem: problem.line))
    return replace(machine, digest=hashlib.sha256(text.encode()).hexdigest()[:16]), ()


def _read(document: Document, found: list[Problem]) -> Machine | None:
    fitted = fit_around(SheetForm, document)
    found += fitted.problems
    if fitted.shape is None:
        return None
    try:
        return _build(Draft(fitted.shape, document, found, fitted.doubts))
    except EnoughError:
        return None


def _build(draft: Draft) -> Machine | None:
    """All sections in the order in which one needs another; a machine only if nothing was noted."""
    form = draft.form
    check_currency(draft)
    settings = read_settings(draft)
    read_temperatures(draft)
    zones = read_zones(draft)
    parts = read_parts(draft)
    wires, wire_branches = read_wires(draft, default_wire(draft))
    setups = read_setups(draft, settings, wires)
    functions = read_functions(draft, setups)
    complaints = read_complaints(draft)
    per_call = read_per_call(draft)
    nameplate, readings = read_nameplate(draft, setups), read_paper_readings(draft, setups)
    crossings, swapped = swapped_outlets(parts, wires, wire_branches)
    wire_branches, crossed = read_crossed(draft, parts, wire_branches)
    faults = _faults(draft, parts, wires) | swapped | crossed
    faults = {name: with_copies(fault, wire_branches) for name, fault in faults.items()} if crossed else faults
    stamps = draft.stamps.values()
    branches = (*(branch for stamp in stamps for branch in stamp.branches), *wire_branches, *crossings)
    branches, at_times = read_at_times(draft, branches, faults)
    faults |= at_times
    linked = read_links(draft, faults)
    _check_supply(draft)
    _check_one_way(draft)
    if draft.problems:
        return None
    chassis = next((f"{part.name}.{part.terminals[0]}" for part in parts.values() if part.kind == "chassis"), "")
    poles = tuple(pole for stamp in stamps for pole in stamp.poles)
    hertz = next((stamp.hertz for stamp in stamps if stamp.hertz is not None), _HERTZ)
    sources = tuple(source for stamp in stamps for source in stamp.sources)
    transformers = tuple(made for stamp in stamps for made in stamp.transformers)
    bare = Network(hertz, branches, poles, sources=sources, transformers=transformers)
    held = (*(pole.point for pole in poles), *bare.held_pairs())
    house = frozenset(part.name for part in parts.values() if part.kind.endswith(_HOUSE))
    branches += strays(bare.points(), held, chassis, _earth(poles), house)
    drives = tuple(drive for stamp in stamps for drive in stamp.drives)
    return Machine(
        name=form.sheet,
        title=form.title,
        about=form.about,
        currency=form.currency,
        digest="",
        network=Network(hertz, branches, poles, drives, draft.variables, sources, transformers),
        zones=zones,
        parts=parts,
        wires=wires,
        settings=settings,
        per_call=per_call,
        setups=setups,
        functions=functions,
        complaints=complaints,
        faults=faults,
        linked=linked,
        elements=tuple(element for stamp in stamps for element in stamp.elements),
        points=tuple(f"{part.name}.{terminal}" for part in parts.values() for terminal in part.terminals),
        chassis=chassis,
        nameplate=nameplate,
        readings=readings,
        cautions=tuple(form.cautions),
        dead_only=dead_only_points(draft.stamps, wires, parts),
        powers={name: stamp.shows["power"] for name, stamp in draft.stamps.items() if "power" in stamp.shows},
    )


def _faults(draft: Draft, parts: dict[str, Part], wires: dict[str, Wire]) -> dict[str, Fault]:
    heavy = heavy_points(wires)
    faults = [fault for part in parts.values() for fault in part_faults(draft, part, heavy)]
    faults += [fault for wire in wires.values() for fault in wire_faults(wire, parts)]
    return {fault.name: fault for fault in faults}


def _check_supply(draft: Draft) -> None:
    """One supply, and no more; nothing is said while a part is in doubt, which may be it."""
    supplies = [name for name, stamp in draft.stamps.items() if stamp.poles]
    if not supplies and not draft.unsure_parts:
        draft.note(("parts",), "This machine has no supply.", "Add a part of kind `split-phase supply`.")
    for name in supplies[1:]:
        what = f"{quoted(name)} is a second supply beside {quoted(supplies[0])}."
        draft.note(("parts", name), what, "Keep one: a machine has one plug.")


def _check_one_way(draft: Draft) -> None:
    """An ohmmeter's current is worked out through every state of what conducts one way: there is an end to that."""
    valves = [name for name, stamp in draft.stamps.items() for branch in stamp.branches if branch.one_way]
    for name in valves[MOST_ONE_WAY:]:
        what = f"{quoted(name)} is more than the {MOST_ONE_WAY} parts of a sheet that may conduct one way only."
        draft.note(("parts", name), what, "Leave out those that no check goes through.")


def _earth(poles: tuple[Pole, ...]) -> str:
    return next((pole.point for pole in reversed(poles) if pole.volts == 0), poles[-1].point)

"""Boards: a supply that wakes, rails of direct volts, inputs it senses, outputs it drives by rules, codes it shows.

A board is blamed only with its inputs right and its output wrong, and that comes of itself: its rules hold in every
suspect's machine, and only its own faults break them. Links between boards are inputs like any other: a board `sends`
volts on a line while it is awake, and the other `sees` them only if every wire is good.

Resistances, delays and rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Kind, Stamp, Surroundings
from halfsplit.techsheet.kinds.boardparts import RAIL_OHM, SENDS_OHM, Written, driven, fed, run, sensed, shown, supplied
from halfsplit.techsheet.kinds.boardwords import (
    Board,
    ends_of,
    read_code,
    read_input,
    read_output,
    read_program,
    read_rule,
)
from halfsplit.units import read_quantity


def _board(part: PartValues, around: Surroundings) -> Stamp:
    written = _read(part)
    board = Board(part.part, written.inputs, {"code": written.codes, "program": written.programs})
    awake = part.branch("awake")
    pieces = [
        supplied(part, written, awake),
        *(fed(part, f"rail {name}", found, (awake, RAIL_OHM)) for name, found in written.rails.items()),
        *(fed(part, f"line {name}", found, (awake, SENDS_OHM)) for name, found in written.sends.items()),
        *(sensed(part, name, found, awake) for name, found in written.inputs.items()),
        *(driven(part, name, out, read_rule(out.rule, board, around)) for name, out in written.outputs.items()),
        *(shown(part, name, code, read_rule(code.rule, board, around)) for name, code in written.codes.items()),
        *(
            run(part, name, read_rule(made.starts, board, around), read_rule(made.goes_on, board, around))
            for name, made in written.programs.items()
        ),
    ]
    return _joined(part, pieces)


def _read(part: PartValues) -> Written:
    """Every phrase read.

    Raises:
        InputError: One of them cannot be.
    """
    usual = part.number("input resistance")
    rails, sends = (_volts_by_ends(part, key) for key in ("rails", "sends"))
    inputs = {name: read_input(text, usual) for name, text in _pairs(part, "inputs")}
    written = Written(
        ends_of(part.name("supply")),
        rails,
        sends,
        inputs,
        {name: read_output(text) for name, text in _pairs(part, "outputs")},
        {name: read_code(text) for name, text in _pairs(part, "codes")},
        {name: read_program(text) for name, text in _pairs(part, "programs")},
        part.name("low side on") if part.has("low side on") else "",
    )
    plus = [ends[0] for ends, _ in rails.values()]
    for name, found in inputs.items():
        if found.pull_up is not None and found.pull_up[1] not in plus:
            right = f"Its rails are at: {', '.join(plus) or 'none'}."
            raise InputError(f"The input {quoted(name)} is pulled up to no rail ({quoted(found.pull_up[1])}).", right)
    if written.low_side and written.low_side not in written.supply:
        right = f"Write one of {written.supply[0]} and {written.supply[1]}, or leave it out where it is isolated."
        raise InputError(f"{quoted(written.low_side)} is no terminal of its supply.", right)
    return written


def _pairs(part: PartValues, key: str) -> tuple[tuple[str, str], ...]:
    return tuple(part.states(key).items()) if part.has(key) else ()


def _volts_by_ends(part: PartValues, key: str) -> dict[str, tuple[tuple[str, str], float]]:
    return {name: (ends_of(name), read_quantity(volts, "V")) for name, volts in _pairs(part, key)}


def _joined(part: PartValues, pieces: list[Stamp]) -> Stamp:
    """One stamp of many; every variable of another board that a rule names is asked for."""
    branches = tuple(branch for piece in pieces for branch in piece.branches)
    drives = tuple(drive for piece in pieces for drive in piece.drives)
    conditions = [branch.condition for branch in branches] + [drive.condition for drive in drives]
    named = [variable for found in conditions for way in found for variable, _ in way if ":sees " in variable]
    own = {drive.name for drive in drives}
    return Stamp(
        branches,
        drives=drives,
        faults=tuple(fault for piece in pieces for fault in piece.faults),
        shows={aspect: shown for piece in pieces for aspect, shown in piece.shows.items()},
        elements=tuple(element for piece in pieces for element in piece.elements),
        terminals=tuple(dict.fromkeys(terminal for piece in pieces for terminal in piece.terminals)),
        sources=tuple(source for piece in pieces for source in piece.sources),
        asks=tuple(dict.fromkeys(variable for variable in named if variable not in own)),
    )


KINDS = (
    Kind(
        "board",
        "Control board: it wakes on its supply, senses inputs, drives outputs by rules and shows codes. Without "
        "`low side on` its rails are isolated; with it they are live.",
        (
            Attribute("supply", "name", "Two terminals it takes its power from, as in `L-N`."),
            Attribute("power", "power", "What it takes, as in 4 W at 120 V."),
            Attribute("wakes at", "volts", "Volts at its supply above which it works."),
            Attribute("rails", "phrases", "Direct volts it makes, as in {5V-0V: 5 V}.", optional=True),
            Attribute("low side on", "name", "Supply terminal that the low side of its rails is on.", optional=True),
            Attribute("sends", "phrases", "Lines it drives while awake, as in {TX-0V: 5 V}.", optional=True),
            Attribute(
                "inputs",
                "phrases",
                "As in {door: DS-N above 60 V, hot: 'T-0V below 2 V, 10 kΩ up to 5V'}.",
                optional=True,
            ),
            Attribute("input resistance", "ohms", "Of an input that gives none.", 1e6),
            Attribute(
                "programs",
                "phrases",
                "What it remembers, as in {bake: 'starts when sees start, goes on while sees door'}.",
                optional=True,
            ),
            Attribute("outputs", "phrases", "As in {heat: relay H1-H2 when cycle bake and sees door}.", optional=True),
            Attribute(
                "codes", "phrases", "As in {F2: 'cycle bake and does not see hot, after 60 s, latched'}.", optional=True
            ),
        ),
        _board,
    ),
)

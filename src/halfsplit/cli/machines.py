"""Commands about a machine: sheets, proofread, meter, netlist, schema."""

from __future__ import annotations

from math import isinf
from typing import TYPE_CHECKING, Annotated, Any, Literal

import typer

from halfsplit.cli.output import MISTAKE, AsJson, SheetName, problem_json, show, show_json
from halfsplit.trade import Mode

if TYPE_CHECKING:
    from halfsplit.call import MeterReading

SetupText = Annotated[
    str, typer.Option("--setup", help="A setup by name, or steps with commas: 'plug in, timer timed dry'.")
]
FaultNames = Annotated[list[str], typer.Option("--fault", help="A fault by id, as in heater:open; may be repeated.")]


def add_to(app: typer.Typer) -> None:
    """Add these commands."""
    for command in (sheets, proofread, meter, netlist, schema):
        app.command()(command)


def sheets(as_json: AsJson = False) -> None:
    """List the built-in sheets."""
    from halfsplit.techsheet import library_names, load_machine

    machines = [load_machine(name) for name in library_names()]
    rows = [
        {
            "name": machine.name,
            "title": machine.title,
            "parts": len(machine.parts),
            "wires": len(machine.wires),
            "faults": len(machine.faults),
            "setups": list(machine.setups),
            "functions": list(machine.functions),
            "complaints": {complaint.name: complaint.says for complaint in machine.complaints.values()},
        }
        for machine in machines
    ]
    if as_json:
        show_json({"sheets": rows})
    else:
        for row in rows:
            counts = f"{row['parts']} parts, {row['wires']} wires, {row['faults']} single faults"
            show(f"{row['name']}  {row['title']} ({counts})")


def proofread(sheet: SheetName, as_json: AsJson = False) -> None:
    """Read a sheet: every mistake with its line and what would be right, and what its own wiring makes doubtful."""
    from halfsplit.proofread import doubts
    from halfsplit.techsheet import read_sheet, sheet_text

    text, file = sheet_text(sheet)
    machine, problems = read_sheet(text, file)
    doubtful = () if machine is None else doubts(machine, text, file)
    if as_json:
        told = {"problems": [problem_json(p) for p in problems], "doubts": [problem_json(p) for p in doubtful]}
        show_json({"sheet": sheet, "sound": machine is not None, **told})
    elif machine is not None:
        counts = f"{len(machine.parts)} parts, {len(machine.wires)} wires, {len(machine.faults)} single faults"
        show(f"{file}: nothing to correct ({counts}).")
        if doubtful:
            show("\n".join(["It can be used, but these are worth a second look:", *map(str, doubtful)]))
    else:
        show("\n".join(str(problem) for problem in problems))
    if machine is None:
        raise typer.Exit(MISTAKE)


def meter(
    sheet: SheetName,
    setup: SetupText,
    mode: Annotated[Mode, typer.Option("--mode", help="Meter mode.")],
    points: Annotated[
        tuple[str, str],
        typer.Option(
            "--points", metavar="A B", help="The two points, as in heater.1; none for watts.", show_default=False
        ),
    ] = ("", ""),
    fault: FaultNames = [],  # noqa: B006 - typer copies it
    as_json: AsJson = False,
) -> None:
    """Show what a meter would read between two points, in a sound machine or under faults."""
    from halfsplit.call import meter_reading
    from halfsplit.techsheet import load_machine
    from halfsplit.units import show_reading

    found = meter_reading(load_machine(sheet), setup, points, mode, tuple(fault))
    if as_json:
        show_json(
            {
                "sheet": sheet,
                "setup": {
                    "name": found.setup.name,
                    "says": found.setup.says,
                    "steps": [list(s) for s in found.setup.steps],
                },
                "points": list(found.points),
                "mode": mode,
                "faults": list(found.faults),
                "value": None if found.open else found.value,
                "open": found.open,
                "spread": found.spread,
                "shows": show_reading(found.value, mode),
                "ghost": found.ghost,
                "chatters": list(found.chatters),
                **_ways_json(found),
                "others": _others_json(found),
                "turned": None if isinf(found.turned) else found.turned,
            }
        )
        return
    show(_meter_line(found))
    if show_reading(found.turned, mode) != show_reading(found.value, mode):
        show(f"With the probes the other way round: {show_reading(found.turned, mode)}.")
    for line in _other_lines(found):
        show(line)
    if found.ghost:
        show("This is a ghost voltage: a low-impedance meter shows next to nothing.")
    for sentence in found.ways_say:
        show(sentence)
    if found.chatters:
        show(f"It does not settle: {', '.join(found.chatters)} keeps switching.")


def _meter_line(found: MeterReading) -> str:
    from halfsplit.units import METER_MODES, show_reading

    meter = METER_MODES[found.mode]
    where = "At the plug" if meter.where == "plug" else " to ".join(found.points)
    spread = f" (give or take {show_reading(found.spread, found.mode)})"
    if meter.is_tone:
        spread = f" ({100 * found.value:.0f} % likely to beep)"
    shown = show_reading(found.value, found.mode)
    return f"{where}, {found.setup.says}, {meter.dial}: {shown}{'' if found.open else spread}"


def _other_lines(found: MeterReading) -> list[str]:
    from halfsplit.units import show_reading, show_share

    return [
        f"It is near a threshold: with {', '.join(other.moved)} the other way "
        f"(in {show_share(other.share)} of machines) it is {show_reading(other.value, found.mode)}."
        for other in found.others
    ]


def _others_json(found: MeterReading) -> list[dict[str, Any]]:
    return [
        {
            "share": other.share,
            "moved": list(other.moved),
            "value": None if isinf(other.value) else other.value,
            "spread": other.spread,
        }
        for other in found.others
    ]


def _ways_json(found: MeterReading) -> dict[str, Any]:
    """Ways of the measuring current and leads worth lifting, as JSON; an open reading is null."""
    ways = [
        {"through": list(way.through), "share": way.share, "ohm": way.ohm, "between": way.between} for way in found.ways
    ]
    return {
        "ways": ways,
        "lifts": [{"wire": lift.wire, "ohm": None if isinf(lift.ohm) else lift.ohm} for lift in found.lifts],
    }


def netlist(sheet: SheetName, setup: SetupText, fault: FaultNames = [], as_json: AsJson = False) -> None:  # noqa: B006
    """Print the machine in one state as a SPICE deck, so that anyone may check the numbers."""
    from halfsplit.call import netlist_of
    from halfsplit.techsheet import load_machine

    text = netlist_of(load_machine(sheet), setup, tuple(fault))
    if as_json:
        show_json({"sheet": sheet, "setup": setup, "faults": list(fault), "spice": text})
    else:
        show(text)


def schema(
    what: Annotated[Literal["sheet", "case"], typer.Argument(help="Which file the schema is for.")],
    as_json: AsJson = True,
) -> None:
    """Print the JSON Schema of a sheet or of a case, for editors. It is JSON with or without --json."""
    from halfsplit.call import case_schema
    from halfsplit.techsheet import sheet_schema

    del as_json
    show_json(sheet_schema() if what == "sheet" else case_schema())

"""Commands about a machine: sheets, proofread, meter, netlist, schema."""

from __future__ import annotations

from typing import Annotated, Literal

import typer

from halfsplit.cli.meter import meter
from halfsplit.cli.output import (
    MISTAKE,
    AsJson,
    FaultNames,
    SetupText,
    SheetName,
    problem_json,
    show,
    show_json,
)


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

"""Commands that show a machine's wiring: draw, access."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from halfsplit.cli.output import AsJson, SheetName, show, show_json, write_file


def add_to(app: typer.Typer) -> None:
    """Add these commands."""
    for command in (draw, access):
        app.command()(command)


def draw(
    sheet: SheetName,
    setup: Annotated[str, typer.Option("--setup", help="Draw it as it stands in this; at rest if left out.")] = "",
    points: Annotated[
        tuple[str, str], typer.Option("--points", metavar="A B", help="Terminals with the red and the black probe.")
    ] = ("", ""),
    out: Annotated[Path | None, typer.Option("--out", help="HTML file to write; in words if left out.")] = None,
    as_json: AsJson = False,
) -> None:
    """Draw the whole wiring, rung by rung: for paper and browser with --out, else in words."""
    from halfsplit.call import between, show_between, standing_of
    from halfsplit.drawing import View, as_page, draw_strips
    from halfsplit.techsheet import load_machine, point_of

    machine = load_machine(sheet)
    probes = tuple(point_of(machine, point) for point in points if point)
    standing = standing_of(machine, setup) if setup else None
    strips = draw_strips(machine, View(standing=standing, probes=probes))
    read = between(machine, setup, (probes[0], probes[1])) if setup and len(probes) == 2 else None
    if out is not None:
        write_file(out, as_page(machine.title, setup, strips), over=True)
    if as_json:
        rungs = [{"name": strip.name, "words": strip.words, "svg": strip.svg} for strip in strips]
        reading = None if read is None else {"points": read.points, "mode": read.mode, "shows": read.rows[0].shows}
        show_json({"sheet": sheet, "setup": setup, "rungs": rungs, "reading": reading})
    elif out is not None:
        show(f"{out} is drawn: open it in a browser, or print it.")
    else:
        show("\n".join(strip.words for strip in strips))
    if read is not None and not as_json:
        show(show_between(read))


def access(
    sheet: SheetName,
    part: Annotated[str, typer.Argument(metavar="[PART]", help="One part; all if left out.")] = "",
    as_json: AsJson = False,
) -> None:
    """List what is where: zones in the order they come off, and the wires to tag or photograph before lifting them."""
    from halfsplit.call import access_list
    from halfsplit.techsheet import load_machine

    machine = load_machine(sheet)
    found = access_list(machine, part)
    if as_json:
        show_json(
            {
                "sheet": sheet,
                "cautions": machine.cautions,
                "zones": [
                    {
                        "zone": one.zone.name,
                        "title": one.zone.title,
                        "open_minutes": one.zone.open_minutes,
                        "close_minutes": one.zone.close_minutes,
                        "parts": one.parts,
                        "wires": [{"at": point, "colour": wire.colour, "name": wire.name} for point, wire in one.wires],
                    }
                    for one in found
                ],
            }
        )
        return
    show("\n".join(["Plug out, and prove it dead, first.", *(f"Caution: {caution}" for caution in machine.cautions)]))
    for one in found:
        minutes = f"{one.zone.open_minutes:.0f} min to open, {one.zone.close_minutes:.0f} min to close"
        show(f"\n{one.zone.title} ({minutes})")
        show("".join(f"  {machine.title_of(name)}\n" for name in one.parts))
        if one.wires:
            show("  Photograph or tag before lifting:")
            show("".join(f"    {point}: {wire.colour}\n" for point, wire in one.wires))

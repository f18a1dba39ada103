"""The command that shows what a meter would read."""

from __future__ import annotations

from math import isinf
from typing import TYPE_CHECKING, Annotated, Any

import typer

from halfsplit.cli.output import AsJson, FaultNames, SetupText, SheetName, show, show_json
from halfsplit.trade import Mode

if TYPE_CHECKING:
    from halfsplit.call import MeterReading


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

    found = meter_reading(load_machine(sheet), setup, points, mode, tuple(fault))
    if as_json:
        show_json({"sheet": sheet, **_as_json(found)})
    else:
        show("\n".join(_lines(found)))


def _as_json(found: MeterReading) -> dict[str, Any]:
    from halfsplit.units import show_reading

    where = found.setup
    return {
        "setup": {"name": where.name, "says": where.says, "steps": [list(step) for step in where.steps]},
        "points": list(found.points),
        "mode": found.mode,
        "faults": list(found.faults),
        "value": None if found.open else found.value,
        "open": found.open,
        "spread": found.spread,
        "shows": show_reading(found.value, found.mode),
        "ghost": found.ghost,
        "chatters": list(found.chatters),
        **_ways_json(found),
        "others": _others_json(found),
        "turned": None if isinf(found.turned) else found.turned,
    }


def _lines(found: MeterReading) -> list[str]:
    from halfsplit.units import show_reading

    shown, turned = (show_reading(value, found.mode) for value in (found.value, found.turned))
    lines = [_meter_line(found)]
    lines += [f"With the probes the other way round: {turned}."] if turned != shown else []
    lines += _other_lines(found)
    lines += ["This is a ghost voltage: a low-impedance meter shows next to nothing."] if found.ghost else []
    lines += found.ways_say
    return [*lines, *([f"It does not settle: {', '.join(found.chatters)} keeps switching."] if found.chatters else [])]


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

    lines = []
    for other in found.others:
        share, shown = show_share(other.share), show_reading(other.value, found.mode)
        if other.away:
            lines.append(f"The fault comes and goes: in {share} of looks it is {shown}.")
        else:
            moved = ", ".join(other.moved)
            lines.append(f"It is near a threshold: with {moved} the other way (in {share} of machines) it is {shown}.")
    return lines


def _others_json(found: MeterReading) -> list[dict[str, Any]]:
    return [
        {
            "share": other.share,
            "moved": list(other.moved),
            "away": other.away,
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

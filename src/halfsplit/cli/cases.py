"""Commands about a case: suspects, next, and find (the whole path in a terminal)."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Annotated, Any

import typer

from halfsplit.cli.output import AsJson, SheetName, show, show_json

if TYPE_CHECKING:
    from halfsplit.call import Advice, Case, NextCheck, Reason, SuspectView
    from halfsplit.techsheet import Machine

CaseName = Annotated[str, typer.Argument(metavar="CASE", help="A case file in YAML.")]


def add_to(app: typer.Typer) -> None:
    """Add these commands."""
    app.command()(suspects)
    app.command(name="next")(next_check)


def suspects(
    sheet: SheetName,
    case: CaseName,
    as_json: AsJson = False,
    most: Annotated[int, typer.Option("--most", min=1, help="How many suspects to print; JSON has all of them.")] = 12,
    why: Annotated[
        bool, typer.Option("--why", help="Also what is ruled out and by what, and what would change the answer.")
    ] = False,
) -> None:
    """List what could explain a case, likeliest first, with reasons."""
    advice = _advice(sheet, case, most=10_000 if as_json else most)
    if as_json:
        show_json({**advice_json(sheet, advice), **(_why_json(sheet, case) if why else {})})
    else:
        show("\n".join([*suspect_lines(advice), *(_why_lines(sheet, case) if why else [])]))


def _why_json(sheet: str, case: str) -> dict[str, Any]:
    """What is ruled out and what the answer hangs on, as JSON."""
    from halfsplit.call import cleared, origins, turns

    known = _known(sheet, case)
    return {
        "cleared": [asdict(it) for it in cleared(*known)],
        "turns": [asdict(it) for it in turns(*known)],
        "rates_from": origins(*known),
    }


def _why_lines(sheet: str, case: str) -> list[str]:
    """The same for people."""
    from halfsplit.call import cleared, origins, title_of_things, turns

    machine, known = _known(sheet, case)
    lines = [f"Ruled out: {title_of_things(machine, it.thing)} ({'; '.join(it.by)})." for it in cleared(machine, known)]
    lines += [f"Rates of {len(things)} things: {origin}." for origin, things in origins(machine, known).items()]
    return ["", *lines] + [
        f"It hangs on this: {it.item}. Without it, likeliest: {title_of_things(machine, it.instead)}."
        for it in turns(machine, known)
    ]


def next_check(sheet: SheetName, case: CaseName, as_json: AsJson = False) -> None:
    """Propose the next check of a case, or say where the search ends."""
    advice = _advice(sheet, case, most=12)
    if as_json:
        checks = {"next": check_json(advice.next), "others": [check_json(check) for check in advice.others]}
        show_json({"sheet": sheet, **ending_json(advice), **checks})
    else:
        show("\n".join(check_lines(advice)))


def _advice(sheet: str, case: str, most: int) -> Advice:
    from halfsplit.call import advise

    return advise(*_known(sheet, case), most=most)


def _known(sheet: str, case: str) -> tuple[Machine, Case]:
    from halfsplit.call import read_case
    from halfsplit.techsheet import load_machine, read_text_file

    machine = load_machine(sheet)
    return machine, read_case(read_text_file(case), case, machine)


def ending_json(advice: Advice) -> dict[str, Any]:
    """Where the search stands, as JSON."""
    return {
        "ending": advice.ending,
        "says": advice.says,
        "blamed": list(advice.blamed),
        "conflicts": list(advice.conflicts),
        "expected_cost": advice.cost,
    }


def advice_json(sheet: str, advice: Advice) -> dict[str, Any]:
    """Suspects as JSON."""
    return {
        "sheet": sheet,
        **ending_json(advice),
        "not_on_sheet": advice.not_on_sheet,
        "idle_pairs": advice.idle_pairs,
        "dropped": advice.dropped,
        "suspects": [_suspect_json(view) for view in advice.suspects],
    }


def _suspect_json(view: SuspectView) -> dict[str, Any]:
    return {
        "faults": list(view.suspect.faults),
        "probability": view.share,
        "consistent": view.consistent,
        "says": view.says,
        "mend": view.mend,
        "things": list(view.things),
        "reasons": [asdict(reason) for reason in view.reasons],
    }


def check_json(check: NextCheck | None) -> dict[str, Any] | None:
    """A check as JSON; null when there is none."""
    if check is None:
        return None
    action = asdict(check.action)
    kind = "look" if "function" in action else action["mode"]
    rest = {key: value for key, value in asdict(check).items() if key != "action"}
    outcomes = [{"label": it.label, "chance": it.chance, "means": list(it.means)} for it in check.outcomes]
    return {"kind": kind, **action, **rest, "outcomes": outcomes}


def suspect_lines(advice: Advice) -> list[str]:
    """Suspects for people: the evidence once, then each suspect with what does not go with it."""
    from halfsplit.units import show_share

    evidence = [reason.item for reason in advice.suspects[0].reasons] if advice.suspects else []
    lines = [advice.says, *(f"  {number}. {item}." for number, item in enumerate(evidence, 1)), ""]
    for view in advice.suspects:
        lines.append(f"{show_share(view.share):>10}  {view.says}  [{view.suspect.name}]")
        against = [(number, reason) for number, reason in enumerate(view.reasons, 1) if not reason.supports]
        lines += [f"            {_against(number, reason)}" for number, reason in against]
        lines += [] if against or not evidence else ["            goes with everything above"]
    lines.append(f"{show_share(advice.not_on_sheet):>10}  not on this sheet, or the sheet is wrong")
    return [*lines, *(f"Read again: {conflict}." for conflict in advice.conflicts)]


def _against(number: int, reason: Reason) -> str:
    how = "cannot be" if reason.contradicts else "is unlikely"
    return f"{number} {how}: it would be {reason.predicted}"


def check_lines(advice: Advice) -> list[str]:
    """The next check for people, or the end of the search."""
    from halfsplit.units import show_share

    check = advice.next
    if check is None:
        mends = [view.mend for view in advice.suspects[:1]] if advice.blamed else []
        return [advice.says, *mends, *(f"Read again: {conflict}." for conflict in advice.conflicts)]
    lines = [f"Next: {check.title}", f"  Setup: {check.setup_says}."]
    lines += [f"  Meter: {check.meter}."] if check.meter else []
    lines += [f"  {sentence}" for sentence in check.beside]
    lines += [f"  Open: {', '.join(check.zones)}."] if check.zones else []
    lines += [f"  About {check.minutes:.0f} min.", f"  {check.caution}", "  It can turn out:"]
    lines += [
        f"    {view.label} ({show_share(view.chance)}): {'; '.join(view.means) or 'no one thing'}"
        for view in check.outcomes
    ]
    return [*lines, f"  Why: {check.why}", "", advice.says]

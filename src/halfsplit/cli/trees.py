"""The command `tree`: a complaint's checks as a decision tree, to print or to carry."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Annotated, Any

import typer

from halfsplit.cli.output import AsJson, SheetName, show, show_json

if TYPE_CHECKING:
    from halfsplit.call import NextCheck, Node

_HEAD = "Each answer leads to the next check. CAUTION and DANGER hold at every check they stand with."


def add_to(app: typer.Typer) -> None:
    """Add this command."""
    app.command()(tree)


def tree(
    sheet: SheetName,
    complaint: Annotated[str, typer.Argument(metavar="COMPLAINT", help="A complaint of the sheet, as in 'no heat'.")],
    depth: Annotated[int, typer.Option("--depth", min=1, max=20, help="At most so many checks in a row.")] = 5,
    most: Annotated[int, typer.Option("--most", min=1, max=500, help="At most so many checks in all.")] = 24,
    fixed: Annotated[
        list[str], typer.Option("--fixed", help="What holds for the whole call, as in 'cord 3-wire'; may be repeated.")
    ] = [],  # noqa: B006
    as_json: AsJson = False,
) -> None:
    """Compile the checks for a complaint into a decision tree."""
    from halfsplit.call import Case, compile_tree
    from halfsplit.techsheet import load_machine, steps_of

    machine = load_machine(sheet)
    root = compile_tree(machine, complaint, depth, most, Case(fixed=steps_of(machine, fixed)))
    if as_json:
        head = {"sheet": sheet, "complaint": complaint, "says": machine.complaints[complaint].says}
        show_json({**head, "fixed": fixed, "depth": depth, "most": most, "tree": node_json(root)})
    else:
        show("\n".join([f"{machine.title}: {machine.complaints[complaint].says}", _HEAD, "", *node_lines(root)]))


def node_json(node: Node) -> dict[str, Any]:
    """A node and all that follows from it as JSON."""
    return {
        "check": _check_json(node.check),
        "ending": node.ending,
        "says": node.says,
        "blamed": list(node.blamed),
        "mend": node.mend,
        "cut_off": node.cut_off,
        "rare": node.rare,
        "branches": [
            {"label": branch.label, "chance": branch.chance, "reach": branch.reach, "then": node_json(branch.then)}
            for branch in node.branches
        ],
    }


def _check_json(check: NextCheck | None) -> dict[str, Any] | None:
    if check is None:
        return None
    action = asdict(check.action)
    kind = "look" if "function" in action else action["mode"]
    says = {"title": check.title, "setup_says": check.setup_says, "meter": check.meter, "minutes": check.minutes}
    return {"kind": kind, **action, **says, "zones": list(check.zones), "caution": check.caution, "live": check.live}


def node_lines(node: Node, deep: int = 0) -> list[str]:
    """A node and all that follows from it for people, each step further in."""
    from halfsplit.units import show_share

    space = "    " * deep
    check = node.check
    if check is None:
        return [space + line for line in _end_lines(node)]
    lines = [f"{check.title}", f"  ({check.setup_says}{', meter on ' + check.meter if check.meter else ''})"]
    lines += [f"  Open: {', '.join(check.zones)}."] if check.zones else []
    lines = [space + line for line in [*lines, f"  {check.caution}"]]
    for branch in node.branches:
        lines.append(f"{space}- {branch.label} ({show_share(branch.chance)}):")
        lines += node_lines(branch.then, deep + 1)
    return [*lines, f"{space}- anything else: read it again, then ask `halfsplit find`."]


def _end_lines(node: Node) -> list[str]:
    if node.cut_off:
        return [f"{node.says}", "The tree is cut off here: go on with `halfsplit find`."]
    return [f"END: {node.says}", *([f"Then: {node.mend}."] if node.mend else [])]

"""The rules of doubt. Each gets the bench and yields the paths it doubts, with what is odd and what to look at.

What may live here: one rule a function, in the trade's words. Limits: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from halfsplit.heat import MeltLink
from halfsplit.predict import contradictions, lifts_worth, nameplate_agrees, nameplate_amps
from halfsplit.proofread.bench import Bench
from halfsplit.techsheet import PaperReading, Path, Tree
from halfsplit.units import read_temperature, show, show_reading

Doubt = tuple[Path, str, str]
_POWERED_SHARE = 0.05
_LEAST_SHARE, _MOST_SHARE = 0.45, 1.6
_CHANGED_VOLTS = 1.0


def never_powered(bench: Bench) -> Iterator[Doubt]:
    """A part that works on power and gets none in any setup."""
    for part, share in _best_shares(bench).items():
        if share < _POWERED_SHARE and not _has_glowed(bench, part):
            yield (
                ("parts", part),
                f"No setup of this sheet ever powers {part!r}.",
                "Look for a wire or contact left out on its way, or add the setup in which it works.",
            )


def _has_glowed(bench: Bench, part: str) -> bool:
    """Whether an igniter has done its work in some setup and is out by the time everything has settled."""
    row = bench.predictor.layout.variable_index.get(f"{part}:glowed")
    return row is not None and any(settled.state[row, 0] == 1 for settled in bench.settled.values())


def across_the_wrong_legs(bench: Bench) -> Iterator[Doubt]:
    """A part that gets far less, or far more, than what is printed on it, at its best."""
    for part, share in _best_shares(bench).items():
        if _POWERED_SHARE <= share < _LEAST_SHARE:
            yield (
                ("parts", part),
                f"{part!r} never gets more than {share:.0%} of its rated power.",
                "It may hang between one leg and neutral instead of between two legs, or have another part in its way.",
            )
        elif share > _MOST_SHARE:
            yield (
                ("parts", part),
                f"{part!r} gets {share:.0%} of its rated power.",
                "It may hang between two legs instead of between one and neutral.",
            )


def _best_shares(bench: Bench) -> dict[str, float]:
    """Share of rated power at its best over all setups, of every part that shows its power."""
    best = {}
    for part, shown in bench.machine.powers.items():
        watts = [
            sum(float(settled.solution.watts(branch)[0]) for branch in shown.branches)
            for settled in bench.settled.values()
        ]
        best[part] = max(watts, default=0.0) / shown.rated_watts
    return best


def changes_nothing(bench: Bench) -> Iterator[Doubt]:
    """A contact that may stand open or welded and no volts anywhere, in any setup, are other than they were."""
    faults = bench.machine.faults
    for name in faults:
        stem = name.removesuffix("-open")
        welded = f"{stem}-welded"
        if stem != name and welded in faults and not (_moves(bench, name) or _moves(bench, welded)):
            part, contact = stem.split(":", 1)
            yield (
                ("parts", part, "contacts", contact),
                f"It changes nothing in any setup whether contact {contact} of {part!r} is open or closed.",
                "Look at the wires on both of its ends, or add the setup in which it matters.",
            )


def _moves(bench: Bench, fault: str) -> bool:
    column = bench.column(fault)
    return any(float(np.abs(volts[:, column] - volts[:, 0]).max()) > _CHANGED_VOLTS for volts in bench.volts.values())


def never_shown(bench: Bench) -> Iterator[Doubt]:
    """A code that no fault brings in any setup."""
    layout = bench.predictor.layout
    for drive in bench.machine.network.drives:
        part, _, code = drive.name.partition(":code ")
        if not code:
            continue
        row = layout.variable_index[drive.name]
        if not any((settled.state[row] == 1).any() for settled in bench.settled.values()):
            yield (
                ("parts", part, "codes", code),
                f"Nothing that can go wrong in this sheet makes {part!r} show {code}.",
                "Look at its rule, or add the setup in which it comes.",
            )


def contradicted_by_the_paper(bench: Bench) -> Iterator[Doubt]:
    """Nameplate and expected readings that the wiring as typed would not give."""
    both = nameplate_amps(bench.predictor)
    if both is not None and not nameplate_agrees(both):
        yield (
            ("nameplate", "current"),
            f"The nameplate says {show(both[0], 'A')}, but this wiring takes {show(both[1], 'A')}, over a tenth off.",
            "One of the two has a slip, or the setup is not the one with the most loads on.",
        )
    for found in contradictions(bench.predictor):
        row, worked_out = found.row, show_reading(found.worked_out, found.row.mode)
        yield (
            ("readings", row.name),
            f"Between {row.points[0]} and {row.points[1]} this wiring reads {worked_out}, not what the paper says.",
            _way_out(bench, found.row) or "One of the two has a slip: follow the wires of those points on the paper.",
        )


def _way_out(bench: Bench, row: PaperReading) -> str:
    """For ohms with another way beside the part: the lead to lift for what the paper says; empty if none gives it."""
    if row.mode != "ohms":
        return ""
    least, most = row.limits
    setup = bench.machine.setups[row.setup]
    for lifted in lifts_worth(bench.predictor.healthy, row.points, setup):
        if least <= lifted.ohm <= most:
            reads = show_reading(lifted.ohm, "ohms")
            return (
                f"Another part lies beside it: with the lead {lifted.wire} lifted it reads {reads}. "
                f"If the paper means it so, give this row a setup with the step `lift {lifted.wire}`."
            )
    return ""


def may_open_already(bench: Bench) -> Iterator[Doubt]:
    """A thermal link at a temperature of the sheet at which some sound ones have opened (IEC 60691: Tf +0/-10 K)."""
    parts, places = (_mapping(bench.document.tree.get(key)) for key in ("parts", "temperatures"))
    for name, part in parts.items():
        written = _mapping(part)
        if written.get("kind") != "thermal cut-off":
            continue
        link = MeltLink(read_temperature(str(written["opens at"])))
        for position, text in _mapping(places[str(written["place"])]).items():
            if position != "setting" and link.promises(read_temperature(str(text))) == "may open":
                yield (
                    ("parts", name, "opens at"),
                    f"At {text} ({position}) some sound links like {name!r} have opened, and others have not.",
                    "A link opens up to 10 K below what is printed on it: check both temperatures.",
                )


def _mapping(tree: Tree | None) -> dict[str, Tree]:
    return tree if isinstance(tree, dict) else {}


RULES = (
    never_powered,
    across_the_wrong_legs,
    changes_nothing,
    never_shown,
    contradicted_by_the_paper,
    may_open_already,
)

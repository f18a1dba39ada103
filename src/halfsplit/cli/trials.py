"""The command `trial`: hidden faults, strategies compared."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from halfsplit.cli.output import AsJson, SheetName, show, show_json

if TYPE_CHECKING:
    from halfsplit.trial import Outcome, Scores, Yardstick


_WIDTHS = (12, 12, 8, 8, 6, 6, 7, 7)


def add_to(app: typer.Typer) -> None:
    """Add this command."""
    app.command()(trial)


def trial(  # noqa: PLR0913, PLR0917  # each is an option of the command line
    sheet: SheetName,
    cases: Annotated[int, typer.Option("--cases", min=1, max=10_000, help="How many hidden calls.")] = 50,
    seed: Annotated[int, typer.Option("--seed", min=0, help="The same seed draws the same calls.")] = 1,
    people: Annotated[Literal["clean", "noisy"], typer.Option("--people", help="Whether people err.")] = "noisy",
    hidden: Annotated[
        Literal["rates", "two", "mistake"],
        typer.Option("--hidden", help="Faults by their rates, two faults always, or a mistake in the sheet besides."),
    ] = "rates",
    exact: Annotated[
        int, typer.Option("--exact", min=0, max=1000, help="Compare with the least cost on so many small repairs too.")
    ] = 0,
    only: Annotated[list[str], typer.Option("--only", help="Only this strategy; may be repeated.")] = [],  # noqa: B006
    as_json: AsJson = False,
) -> None:
    """Run blind trials: faults drawn from the rates, people who err, and strategies compared on the same calls."""
    from halfsplit.call import Case, engine_for, one_of
    from halfsplit.nextcheck import plan
    from halfsplit.techsheet import load_machine
    from halfsplit.trial import CLEAN, NOISY, STRATEGIES, against_exact, score
    from halfsplit.trial import trial as run

    names = tuple(one_of(name, tuple(STRATEGIES), "strategy") for name in only) or tuple(STRATEGIES)
    engine = engine_for(load_machine(sheet), Case())
    outcomes = run(engine, cases, seed, CLEAN if people == "clean" else NOISY, names, hidden)
    scores = [score([outcome for outcome in outcomes if outcome.strategy == name]) for name in names]
    least = against_exact(exact, plan) if exact else None
    if as_json:
        head = {"sheet": sheet, "cases": cases, "seed": seed, "people": people, "hidden": hidden}
        calls = [asdict(outcome) for outcome in outcomes]
        rows = [asdict(row) for row in scores]
        show_json({**head, "strategies": rows, "exact": asdict(least) if least else None, "calls": calls})
    else:
        head_line = f"{cases} hidden calls ({hidden}), {people} people, seed {seed}:"
        show("\n".join([head_line, *table(scores), *said(scores), *beside(least), *misses(outcomes)]))


def table(scores: list[Scores]) -> list[str]:
    """Scores for people, a line each."""
    titles = ("right first", "wrong part", "cured", "checks", "live", "min", "money", "Brier")
    head = f"{'strategy':<18}" + "".join(f"{title:>{width}}" for title, width in zip(titles, _WIDTHS, strict=True))
    lines = [
        f"{row.strategy:<18}{row.first_right:>12.1%}{row.wrong_part:>12.1%}{row.cured:>8.1%}{row.checks:>8.1f}"
        f"{row.live:>6.1f}{row.minutes:>6.0f}{row.money:>7.0f}{row.brier:>7.3f}"
        for row in scores
    ]
    return [head, *lines]


def said(scores: list[Scores]) -> list[str]:
    """How often our own strategy was right, by the share it stated."""
    ours = next((row for row in scores if row.strategy == "halfsplit"), None)
    bins = ours.reliability if ours else ()
    lines = [
        f"  {it.least:.0%} to {it.most:.0%}: {it.calls} calls, said {it.stated:.0%}, right {it.right:.0%}"
        for it in bins
    ]
    return ["Of what halfsplit said of the first thing it changed:", *lines] if lines else []


def beside(least: Yardstick | None) -> list[str]:
    """The planner beside the least cost there is."""
    if least is None:
        return []
    return [
        f"On {least.repairs} small repairs the planner costs {least.mean:.4f} times the least there is on the mean, "
        f"below {least.ninety_five:.3f} for 95 of 100, {least.worst:.3f} at worst."
    ]


def misses(outcomes: tuple[Outcome, ...]) -> list[str]:
    """The calls that our own strategy did not get right at once, for study."""
    missed = [outcome for outcome in outcomes if outcome.strategy == "halfsplit" and not outcome.first_right]
    lines = [
        f"  {' + '.join(it.truth) or 'nothing wrong'}: {it.wrong_parts} changed in vain, "
        f"{'cured' if it.cured else 'not cured'}, said {it.share:.0%}"
        for it in missed
    ]
    return ["Not right at once:", *lines] if lines else []

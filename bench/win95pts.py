"""The planner on a published troubleshooting network that is not ours: run `python -m bench.win95pts`.

win95pts, a network for troubleshooting printing, 76 nodes: bnlearn Bayesian Network Repository, as pgmpy cites it,
which brings the file; by the group of J. S. Breese and D. Heckerman (from memory). The complaint is "no output".
Suspects are the causes without parents, one at a time, their odds from the network. What each check shows under each
suspect comes from variable elimination; checks are then taken as independent given the suspect, which the network does
not promise: so the hidden cases are drawn from the network itself, not from these tables. It has no costs: those below
are invented.
"""

from __future__ import annotations

import gzip
import warnings
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from halfsplit.belief import Item, weigh
from halfsplit.nextcheck import Courses, Offer, Rates, Remedies, bits_of, cost_to_go, plan
from halfsplit.nextcheck.cost import course
from halfsplit.predict import Outcomes
from halfsplit.trade import Look

Real = NDArray[np.float64]
COMPLAINT = "Problem1"
CHOICES = ("NetPrint", "DSApplctn", "EPSGrphc", "PrtPScript", "TrTypFnts")
"""Parentless nodes that say how one prints, not what is wrong; they are drawn, and known to nobody."""
TESTED = ("AppData", "EMFOK", "GDIIN", "GDIOUT", "PrtDataOut", "NetOK", "LclOK", "PC2PRT")
SEEN = ("PrtFile", "PrtIcon", "PSERRMEM", "PrtStatPaper", "PrtStatToner", "PrtStatMem", "PrtStatOff")
SEE, TEST, LOOK_AT, MEND, IN_VAIN, REFER = 1.0, 4.0, 5.0, 12.0, 5.0, 120.0
"""Costs, minutes, invented."""
_SURE, _LEAST_BITS, _CASES, _SEED = 0.9, 0.02, 400, 1


@dataclass(frozen=True)
class Bench:
    """Suspects with their odds given the complaint, and what every check shows under each, shape (2, S)."""

    network: Any
    suspects: tuple[str, ...]
    shares: Real
    offers: tuple[Offer, ...]

    @property
    def courses(self) -> Courses:
        """Mend at once, or look at each cause first."""
        count = len(self.suspects)
        costs, vain = np.full(count, MEND), np.full(count, IN_VAIN)
        covers = np.zeros((0, count), dtype=bool)
        looks = tuple(() for _ in range(count))
        looking = Remedies(
            self.suspects, np.arange(count), np.full(count, LOOK_AT), costs, vain, covers, np.zeros(0), REFER, looks
        )
        return Courses(replace(looking, looking=np.full(count, np.inf)), looking)


def load() -> Bench:
    """The network from pgmpy's own files, and the tables worked out from it."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # pgmpy warns of its own inside
        import pgmpy
        from pgmpy.inference import VariableElimination
        from pgmpy.readwrite import BIFReader

        file = Path(pgmpy.__file__).parent / "utils/example_models/win95pts.bif.gz"
        network = BIFReader(string=gzip.decompress(file.read_bytes()).decode()).get_model()
        causes = [name for name in network.get_roots() if name not in CHOICES]
        asked = [*SEEN, *TESTED]
        odds, shown = [], []
        for cause in causes:
            states = {name: network.get_cpds(name).state_names[name] for name in [*causes, COMPLAINT]}
            given = {name: states[name][int(name == cause)] for name in causes}
            engine = VariableElimination(network)
            bad = _table(engine, COMPLAINT, given, network)[1]
            good, sick = network.get_cpds(cause).values
            odds.append(bad * sick / good)
            given[COMPLAINT] = states[COMPLAINT][1]
            shown.append([_table(engine, name, given, network) if bad > 1e-9 else np.full(2, 0.5) for name in asked])
    shares = np.array(odds)
    kept = shares > 1e-4 * shares.sum()
    tables = np.array(shown)[kept].transpose(1, 2, 0)
    suspects = tuple(name for name, keep in zip(causes, kept, strict=True) if keep)
    costs = [SEE] * len(SEEN) + [TEST] * len(TESTED)
    offers = [_offer(name, table, cost) for name, table, cost in zip(asked, tables, costs, strict=True)]
    return Bench(network, suspects, shares[kept] / shares[kept].sum(), tuple(offers))


def _table(engine: Any, name: str, given: dict[str, str], network: Any) -> Real:
    factor = engine.query([name], evidence=given, show_progress=False)
    order = [factor.state_names[name].index(state) for state in network.get_cpds(name).state_names[name]]
    return np.asarray(factor.values[order], dtype=np.float64)


def _offer(name: str, table: Real, cost: float) -> Offer:
    return Offer(Outcomes(Look(name, ""), ("as it should be", "not"), table), cost, frozenset(), False)


def draw(bench: Bench, rng: np.random.Generator) -> tuple[int, dict[str, int]]:
    """A hidden cause and the state of every node, drawn from the network until the complaint is so."""
    order = _parents_first(bench.network)
    while True:
        cause = int(rng.choice(len(bench.suspects), p=bench.shares))
        state: dict[str, int] = {}
        for name in order:
            table = bench.network.get_cpds(name)
            if not table.variables[1:] and name not in CHOICES:
                state[name] = int(name == bench.suspects[cause])
            else:
                chances = table.values[(slice(None), *(state[parent] for parent in table.variables[1:]))]
                state[name] = int(rng.random() < chances[1])
        if state[COMPLAINT]:
            return cause, state


def _parents_first(network: Any) -> list[str]:
    import networkx

    return list(networkx.topological_sort(network))


Choose = Callable[[Bench, Real, list[Offer], np.random.Generator], Offer | None]


def ours(bench: Bench, shares: Real, left: list[Offer], rng: np.random.Generator) -> Offer | None:
    """The check that our planner proposes."""
    del rng
    made = plan(SimpleNamespace(zones={}), shares, left, bench.courses, frozenset(), Rates(minute=1.0))  # type: ignore[arg-type]
    return made.best.offer if made.best else None


def most_information(bench: Bench, shares: Real, left: list[Offer], rng: np.random.Generator) -> Offer | None:
    """The check with most bits, until one cause is nearly sure or nothing tells anything."""
    del bench, rng
    best = max(left, key=lambda it: bits_of(it.outcomes, shares), default=None)
    return best if best and shares.max() < _SURE and bits_of(best.outcomes, shares) > _LEAST_BITS else None


def at_random(bench: Bench, shares: Real, left: list[Offer], rng: np.random.Generator) -> Offer | None:
    """Any check, until one cause is nearly sure."""
    del bench
    return left[int(rng.integers(len(left)))] if left and shares.max() < _SURE else None


def no_check(bench: Bench, shares: Real, left: list[Offer], rng: np.random.Generator) -> Offer | None:
    """None: go through the causes by share over cost."""
    del bench, shares, left, rng


def run(bench: Bench, choose: Choose, cause: int, state: dict[str, int], rng: np.random.Generator) -> tuple[float, int]:
    """Minutes until it is cured or handed on, and the checks made."""
    left, shares, spent, items = list(bench.offers), bench.shares, 0.0, []
    while (check := choose(bench, shares, left, rng)) is not None:
        left.remove(check)
        spent += check.minutes
        name = check.outcomes.action.function
        fits = check.outcomes.chances[state[name]]
        items.append(Item(fits, fits, 0.5, 0.02, 0.0, (name,)))
        belief = weigh(bench.shares, 1e-9, items)
        shares = belief.shares / belief.shares.sum()
    return spent + _mended(bench, shares, cause), len(items)


def _mended(bench: Bench, shares: Real, cause: int) -> float:
    spent, courses = 0.0, bench.courses
    way = min((courses.blind, courses.looking), key=lambda it: float(cost_to_go(shares[None, :], it)[0]))
    for remedy, looked in course(shares, way):
        if remedy == cause:
            return spent + MEND + (LOOK_AT if looked else 0.0)
        spent += LOOK_AT if looked else MEND + IN_VAIN
    return spent + REFER


STRATEGIES = {"ours": ours, "most information": most_information, "random": at_random, "no check": no_check}


def measure(cases: int = _CASES) -> dict[str, float]:
    """Mean minutes, their standard error, and mean checks of each strategy on the same hidden causes."""
    bench = load()
    minutes: dict[str, list[float]] = {name: [] for name in STRATEGIES}
    checks: dict[str, list[int]] = {name: [] for name in STRATEGIES}
    for number in range(cases):
        cause, state = draw(bench, np.random.default_rng([_SEED, number]))
        for name, choose in STRATEGIES.items():
            spent, made = run(bench, choose, cause, state, np.random.default_rng([_SEED, number, 1]))
            minutes[name].append(spent)
            checks[name].append(made)
    figures: dict[str, float] = {
        "win95pts, causes of no output": len(bench.suspects),
        "win95pts, checks": len(bench.offers),
        "win95pts, hidden cases": cases,
    }
    for name in STRATEGIES:
        figures |= {
            f"win95pts, {name}, min": float(np.mean(minutes[name])),
            f"win95pts, {name}, give or take, min": float(np.std(minutes[name]) / np.sqrt(cases)),
            f"win95pts, {name}, checks": float(np.mean(checks[name])),
        }
    return figures


def main() -> None:
    """Print the figures, a line each."""
    for name, value in measure().items():
        print(f"{name:<50}{value:8.4g}")


if __name__ == "__main__":
    main()

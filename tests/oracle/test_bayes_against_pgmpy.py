"""Our belief against a Bayesian network solved by pgmpy, on random tables and on the dryer's own.

The network has one node for the suspect, and for each item of evidence two: how it came about (as stated, a step
forgotten, mistaken), and whether it was said. Where the truth is not on the sheet, it has a state for each suspect it
may look like. Only items with keys of their own: that repeated items weigh as one is our rule, not Bayes'.
"""

from __future__ import annotations

import re
import warnings

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.belief import Belief, Item, weigh
from halfsplit.call import Case, told
from halfsplit.call.engine import engine_for, item_of
from halfsplit.techsheet import load_machine
from halfsplit.trade import Evidence, Reading, Seen

Real = NDArray[np.float64]


PGMPY_ON_ITSELF = " ".join(
    [
        "`pgmpy.estimators.StructureScore` is deprecated and will be removed in v1.3.0.",
        "Use `pgmpy.structure_score` instead.",
    ]
)
"""What pgmpy says of its own inside when it is imported."""


def _posterior(prior: Real, unlisted: float, items: list[Item], looks_like: Real) -> Belief:
    """The same question answered by variable elimination."""
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", message=f"^{re.escape(PGMPY_ON_ITSELF)}$", category=FutureWarning)
        from pgmpy.factors.discrete import TabularCPD
        from pgmpy.inference import VariableElimination
        from pgmpy.models import DiscreteBayesianNetwork

    states = np.concatenate([prior, unlisted * looks_like])[:, None]
    network = DiscreteBayesianNetwork()
    network.add_node("truth")
    tables = [TabularCPD("truth", len(states), states / states.sum())]
    for number, item in enumerate(items):
        way, said = f"way {number}", f"said {number}"
        network.add_edges_from([("truth", said), (way, said)])
        shares = [1.0 - item.mistaken - item.wrong_setup, item.wrong_setup, item.mistaken]
        tables.append(TabularCPD(way, 3, [[share] for share in shares]))
        tables.append(TabularCPD(said, 2, _said(item), ["truth", way], [len(states), 3]))
    network.add_cpds(*tables)
    assert network.check_model()
    evidence = {f"said {number}": 1 for number in range(len(items))}
    found = VariableElimination(network).query(["truth"], evidence=evidence, show_progress=False).values
    listed, off_sheet = np.split(found, [len(prior)])
    return Belief(listed, float(off_sheet.sum()), off_sheet / off_sheet.sum())


def _said(item: Item) -> Real:
    """Chance that it was not said, and was, for every truth and then every way, shape (2, truths × 3).

    Densities are divided by the largest, as a network takes only chances; what all share does not count.
    """
    assert item.off_sheet is not None
    listed = np.stack([item.fits, item.forgotten, np.full(len(item.fits), item.broad)], axis=1)
    chances = np.concatenate([listed, np.repeat(item.off_sheet[:, None], 3, axis=1)]).ravel()
    chances = chances / chances.max()
    return np.stack([1.0 - chances, chances])


def _agree(prior: Real, unlisted: float, items: list[Item], looks_like: Real) -> None:
    ours, theirs = weigh(prior, unlisted, items, looks_like), _posterior(prior, unlisted, items, looks_like)
    np.testing.assert_allclose(ours.shares, theirs.shares, rtol=0, atol=1e-9)
    np.testing.assert_allclose(ours.looks_like, theirs.looks_like, rtol=0, atol=1e-9)
    assert ours.not_on_sheet == pytest.approx(theirs.not_on_sheet, abs=1e-9)


def _random_item(rng: np.random.Generator, suspects: int, key: int) -> Item:
    rows = rng.random((3, suspects))
    return Item(rows[0], rows[1], rng.random(), rng.uniform(0, 0.3), rng.uniform(0, 0.3), (str(key),), rows[2])


@pytest.mark.parametrize("seed", range(8))
def test_random_tables(seed: int) -> None:
    rng = np.random.default_rng(seed)
    suspects = int(rng.integers(2, 12))
    weights, looks_like = rng.random(suspects + 1), rng.random(suspects)
    weights /= weights.sum()
    items = [_random_item(rng, suspects, key) for key in range(int(rng.integers(1, 7)))]
    _agree(weights[:-1], float(weights[-1]), items, looks_like / looks_like.sum())


NO_HEAT = (
    Reading(("thermal cut-off.1", "thermal cut-off.2"), "ohms", "dead", float("inf")),
    Reading(("heater.1", "heater.2"), "ohms", "dead", 10.9),
)
WRONG_ABOUT_HEAT = (
    Seen("drum turns", "none", "technician", "running"),
    Reading(("TB.L1", "TB.N"), "volts", "running", 119.2),
    Reading(("motor.6", "motor.4"), "ohms", "dead", 2.5),
)


@pytest.mark.parametrize("more", [(), NO_HEAT, WRONG_ABOUT_HEAT], ids=["told", "cut-off", "told wrongly"])
def test_the_dryer_with_all_its_faults_and_pairs(more: tuple[Evidence, ...]) -> None:
    machine = load_machine("dryer")
    case = Case().plus(*told(machine, "no heat"), *more)
    engine = engine_for(machine, case)
    weighed = engine.weigh(case)
    items = [item_of(evidence, row) for evidence, row in zip(case.evidence, weighed.rows, strict=True)]
    _agree(engine.prior.shares, engine.prior.not_on_sheet, items, engine.looks_like)

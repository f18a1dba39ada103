"""Three ways to the same volts agree to 1e-6 V, on ill-conditioned sets too.

Batched: every column eliminated by itself. Low-rank: all pairs, what neighbours share eliminated once, each pair put in
last. Dense: the nodal matrix; in doubles where that is good enough, in decimals of 90 digits where it is not.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bench.networks import Bench, base_states, invented
from halfsplit.circuit import Branch, Layout, Network, Patch, Pole, columns, pair_volts, solve, suspects
from tests.oracle.dense import dense_volts, exact_volts
from tests.oracle.plain import conductors, pole_volts

AGREE = 1e-6
Pairs = dict[tuple[int, int, int], np.ndarray]


def _low_rank(machine: Bench, layout: Layout) -> Pairs:
    made = suspects(columns(layout, machine.faults), base_states(machine, layout))
    return {
        (int(base), *sorted((int(one), int(other)))): volts
        for block in pair_volts(made)
        for base, one, other, volts in zip(block.base, block.first, block.second, block.volts, strict=True)
    }


def _patches(machine: Bench, one: int, other: int) -> tuple[Patch, ...]:
    return machine.faults[one] if one == other else (*machine.faults[one], *machine.faults[other])


def _positions(layout: Layout, states: np.ndarray, base: int) -> dict[str, str]:
    return {name: layout.positions[name][states[row, base]] for name, row in layout.variable_index.items()}


def _well_conditioned(seed: int) -> Bench:
    """Strays of a tenth of a microfarad and wires of ohms: dense doubles are good to nanovolts."""
    machine = invented(24, 40, seed)
    branches = tuple(
        replace(branch, farad=1e-7, ohm=1e6) if branch.name.startswith("stray") else replace(branch, ohm=branch.ohm + 1)
        for branch in machine.network.branches
    )
    return replace(machine, network=replace(machine.network, branches=branches))


@pytest.mark.parametrize("seed", range(3))
def test_all_three_agree_in_doubles_where_admittances_lie_near_each_other(seed: int) -> None:
    machine = _well_conditioned(seed)
    layout = Layout(machine.network)
    states = base_states(machine, layout)
    low_rank = _low_rank(machine, layout)
    keys = sorted(low_rank)[:: max(1, len(low_rank) // 400)]
    variants = [_patches(machine, one, other) for _, one, other in keys]
    batched = solve(columns(layout, variants), states[:, [base for base, _, _ in keys]]).volts
    alive = [
        conductors(machine.network, patches, _positions(layout, states, base))
        for patches, (base, _, _) in zip(variants, keys, strict=True)
    ]
    poles = [pole_volts(machine.network, patches) for patches in variants]
    dense = dense_volts(layout.points, alive, poles, machine.network.hertz)
    assert np.abs(dense - batched).max() < AGREE
    assert max(np.abs(low_rank[key] - dense[:, column]).max() for column, key in enumerate(keys)) < AGREE


@pytest.mark.parametrize("seed", range(3))
def test_all_three_agree_where_strays_are_femtofarads_and_wires_micro_ohms(seed: int) -> None:
    machine = invented(20, 40, seed)
    branches = tuple(
        replace(branch, farad=1e-15, ohm=1e15)
        if branch.name.startswith("stray")
        else replace(branch, ohm=branch.ohm * 1e-4 if branch.name.startswith("wire") else branch.ohm)
        for branch in machine.network.branches
    )
    machine = replace(machine, network=replace(machine.network, branches=branches))
    layout = Layout(machine.network)
    states = base_states(machine, layout)
    low_rank = _low_rank(machine, layout)
    keys = [sorted(low_rank)[row] for row in np.random.default_rng(seed).choice(len(low_rank), 6, replace=False)]
    for base, one, other in keys:
        patches = _patches(machine, one, other)
        batched = solve(columns(layout, [patches]), states[:, [base]]).volts[:, 0]
        alive = conductors(machine.network, patches, _positions(layout, states, base))
        exact = exact_volts(layout.points, alive, pole_volts(machine.network, patches), machine.network.hertz)
        dense = np.array([complex(float(exact[point][0]), float(exact[point][1])) for point in layout.points])
        assert np.abs(batched - dense).max() < AGREE
        assert np.abs(low_rank[base, one, other] - dense).max() < AGREE


@pytest.mark.parametrize("quality", [10.0, 1e3, 1e5])
def test_near_resonance_pairs_lose_no_more_digits_than_its_quality_explains(quality: float) -> None:
    omega = 2 * np.pi * 60.0
    branches = (
        Branch("feed", "hot", "in", 0.1 * omega / quality),
        Branch("wire", "in", "coil", 0.01),
        Branch("coil", "coil", "capacitor", omega / quality, 1.0),
        Branch("capacitor", "capacitor", "earth", 1e9, farad=1 / omega**2),
        Branch("side", "in", "earth", 1e4),
    )
    faults = ((Patch("series", "wire", 0.5),), (Patch("open", "side"),), (Patch("series", "coil", 3.0),), ())
    machine = Bench(Network(60.0, branches, (Pole("hot", 120.0), Pole("earth", 0.0))), faults, ((),))
    layout = Layout(machine.network)
    for (_, one, other), volts in _low_rank(machine, layout).items():
        patches = _patches(machine, one, other)
        alive = conductors(machine.network, patches, {})
        exact = exact_volts(layout.points, alive, pole_volts(machine.network, patches), 60.0)
        dense = np.array([complex(float(exact[point][0]), float(exact[point][1])) for point in layout.points])
        assert np.abs(volts - dense).max() < 1e-13 * quality**2

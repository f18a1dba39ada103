"""Volts and Thévenin impedances against solves in 50 digits (mpmath), random and stress networks.

Required: volts within 1e-6 V, impedances within 1e-5; aimed at: volts within 1e-11 V. Stress networks are strings of
micro-ohm wires on strays of femtofarads with two wires open, on which dense doubles are off by volts.

Both ways of solving are held to it: column by column, and all pairs with what neighbours share eliminated once.
"""

from __future__ import annotations

import random
from itertools import combinations, pairwise

import mpmath
import numpy as np
import pytest

from bench.networks import base_states, invented
from halfsplit.circuit import (
    Branch,
    Columns,
    Layout,
    Network,
    Patch,
    Pole,
    columns,
    pair_sources,
    pair_volts,
    solve,
    suspects,
)
from halfsplit.circuit.columns import Positions
from halfsplit.circuit.solve import conducting

SEED = 20261125
AIMED_VOLTS = 1e-11
Variants = tuple[tuple[Patch, ...], ...]


def stress(seed: int) -> tuple[Network, Variants]:
    """A string of micro-ohm wires on femtofarad strays, a load across it, and as faults each of its wires open."""
    choose = random.Random(seed)
    names = ["hot", *(f"p{row}" for row in range(choose.randrange(8, 14))), "earth"]
    wires = [Branch(f"wire {row}", a, b, 10.0 ** choose.uniform(-6, -3)) for row, (a, b) in enumerate(pairwise(names))]
    strays = [
        Branch(f"stray {a}", a, choose.choice(["cabinet", "earth"]), 1e15, farad=10.0 ** choose.uniform(-15, -13))
        for a in names[1:-1]
    ]
    strays += [Branch("stray cabinet", "cabinet", "earth", 1e15, farad=1e-12)]
    load = Branch("load", "p2", "p5", 10.0 ** choose.uniform(0, 3), choose.choice([0.0, 0.05]))
    network = Network(60.0, (*wires, load, *strays), (Pole("hot", 120.0), Pole("earth", 0.0)))
    return network, tuple((Patch("open", wire.name),) for wire in wires)


def exact_volts(made: Columns, state: Positions, column: int) -> list[mpmath.mpc]:
    """Volts of every point of one column, in 50 digits, from the nodal matrix."""
    matrix, poles = _matrix(made, state, column)
    held = [complex(volts) for volts in made.layout.pole_volts * made.pole_scale[:, column]]
    free = range(poles, matrix.rows)
    right = mpmath.matrix([-sum(matrix[row, pole] * held[pole] for pole in range(poles)) for row in free])
    return [mpmath.mpc(volts) for volts in held] + list(mpmath.lu_solve(matrix[poles:, poles:], right))


def _matrix(made: Columns, state: Positions, column: int) -> tuple[mpmath.matrix, int]:
    layout = made.layout
    matrix = mpmath.matrix(len(layout.points), len(layout.points))
    conducts = conducting(made, state)[:, column]
    for row in np.flatnonzero(conducts):
        branch = layout.network.branches[row]
        omega = 2 * mpmath.pi * layout.network.hertz
        scale, added = mpmath.mpf(made.branch_scale[row, column]), mpmath.mpf(made.added_ohm[row, column])
        siemens = 1 / (mpmath.mpc(branch.ohm, omega * mpmath.mpf(branch.henry)) * scale + added)
        siemens += mpmath.mpc(0, omega * mpmath.mpf(branch.farad)) / scale
        a, b = int(layout.a[row]), int(layout.b[row])
        for one, other, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
            matrix[one, other] += sign * siemens
    return matrix, len(layout.pole_volts)


def worst_of(made: Columns, state: Positions, ours: np.ndarray) -> float:
    """Largest difference of `ours`, shape (N, S), from 50 digits, volts."""
    with mpmath.workdps(50):
        return max(
            float(abs(mpmath.mpc(complex(volts)) - exact))
            for column in range(made.count)
            for volts, exact in zip(ours[:, column], exact_volts(made, state, column), strict=True)
        )


@pytest.mark.parametrize("seed", range(6))
def test_strings_with_two_opens_are_right_to_fifty_digits_by_both_ways(seed: int) -> None:
    network, faults = stress(SEED + seed)
    layout = Layout(network)
    state = layout.start(1)
    singles = columns(layout, faults)
    shared = {
        (int(one), int(other)): volts
        for block in pair_volts(suspects(singles, state))
        for one, other, volts in zip(block.first, block.second, block.volts, strict=True)
    }
    pairs = random.Random(seed).sample(list(combinations(range(len(faults)), 2)), 12)
    made = columns(layout, [(*faults[one], *faults[other]) for one, other in pairs])
    states = layout.start(made.count)
    assert worst_of(made, states, solve(made, states).volts) < AIMED_VOLTS
    by_groups = np.stack([shared.get(pair, shared.get(pair[::-1])) for pair in pairs], axis=1)
    assert worst_of(made, states, by_groups) < AIMED_VOLTS


@pytest.mark.parametrize("seed", range(4))
def test_an_invented_machine_with_pairs_of_faults_is_right_to_fifty_digits(seed: int) -> None:
    machine = invented(30, 60, seed)
    layout = Layout(machine.network)
    states = base_states(machine, layout)
    blocks = list(pair_volts(suspects(columns(layout, machine.faults), states)))
    choose = np.random.default_rng(seed)
    for block in (blocks[int(number)] for number in choose.choice(len(blocks), 5, replace=False)):
        some = choose.choice(len(block.base), 2, replace=False)
        variants = [
            machine.faults[one] if one == other else (*machine.faults[one], *machine.faults[other])
            for one, other in zip(block.first[some], block.second[some], strict=True)
        ]
        assert worst_of(columns(layout, variants), states[:, block.base[some]], block.volts[some].T) < AIMED_VOLTS


def exact_impedance(made: Columns, state: Positions, column: int, ends: tuple[int, int]) -> mpmath.mpc:
    """Impedance between two points of one column with the poles at 0 V, in 50 digits."""
    matrix, poles = _matrix(made, state, column)
    right = mpmath.matrix(matrix.rows, 1)
    for point, amps in zip(ends, (1, -1), strict=True):
        right[point] += amps
    volts = [mpmath.mpc(0)] * poles + list(mpmath.lu_solve(matrix[poles:, poles:], right[poles:, 0]))
    return volts[ends[0]] - volts[ends[1]]


def worst_impedance(layout: Layout, faults: Variants, states: Positions, seed: int) -> float:
    """Largest relative difference of source impedances, a few pairs of points under a few pairs of faults."""
    choose = np.random.default_rng(seed)
    free = np.arange(len(layout.pole_volts), len(layout.points))
    beside = np.stack([layout.a, layout.b], axis=1)[:6]  # both ends of one wire: nearly nothing between them
    ends = np.concatenate([beside, [choose.choice(free, 2, replace=False) for _ in range(6)]])
    blocks = list(pair_sources(suspects(columns(layout, faults), states), ends))
    worst = 0.0
    with mpmath.workdps(50):
        for block in (blocks[int(number)] for number in choose.choice(len(blocks), 6)):
            row = int(choose.integers(len(block.base)))
            one, other = block.first[row], block.second[row]
            made = columns(layout, [faults[one] if one == other else (*faults[one], *faults[other])])
            for number, pair in enumerate(ends.tolist()):
                exact = exact_impedance(made, states[:, [block.base[row]]], 0, tuple(pair))
                worst = max(worst, float(abs(mpmath.mpc(complex(block.ohms[row, number])) - exact) / abs(exact)))
    return worst


@pytest.mark.parametrize("seed", range(4))
def test_source_impedances_under_pairs_of_faults_are_right_to_twelve_digits(seed: int) -> None:
    network, faults = stress(SEED + seed)
    layout = Layout(network)
    assert worst_impedance(layout, faults, layout.start(1), seed) < 1e-12
    machine = invented(20, 30, seed)
    layout = Layout(machine.network)
    assert worst_impedance(layout, machine.faults, base_states(machine, layout), seed) < 1e-12

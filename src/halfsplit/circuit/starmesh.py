"""Solve many variants of one network abreast by star-mesh elimination.

What may live here: the numbers. Shapes: a column is one variant (a fault, a tolerance); S columns, B branches,
N points, of which the first P are poles.

Why this method: nodal updates compute 1 - y·Z by cancellation and go wrong by volts when two contacts in one string
open. Star-mesh only adds and multiplies admittances of the right half-plane and never subtracts; a held point gives
v_k = Σ w_ki v_i / Σ w_ki, a weighted mean. Opening a branch is w = 0, exact. See docs/decisions/0003.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.plan import Plan
from halfsplit.errors import CircuitError

Complex = NDArray[np.complex128]


@dataclass(frozen=True, slots=True)
class Reduced:
    """An eliminated network: weights (one array of neighbours × S per step) and step totals (each S)."""

    plan: Plan
    points: tuple[str, ...]
    weights: tuple[Complex, ...]
    totals: tuple[Complex, ...]


def reduce(plan: Plan, points: tuple[str, ...], admittance: Complex) -> Reduced:
    """Eliminate every point that is not a pole.

    Args:
        plan: The order, from `make_plan`.
        points: Names, to explain a failure.
        admittance: Siemens, shape (B, S).

    Raises:
        CircuitError: A point has no path to anything, not even stray capacitance.
    """
    edge = np.zeros((plan.edges, admittance.shape[1]), dtype=np.complex128)
    np.add.at(edge, plan.branch_edge, admittance)
    weights, totals = [], []
    for step in plan.steps:
        out = edge[step.edges]
        total = out.sum(axis=0)
        if not total.all():
            raise CircuitError(
                f"The point {points[step.point]} floats: nothing joins it to the rest of the network.",
                "Give it a wire, or stray capacitance.",
            )
        share = out / total
        edge[step.fill] += out[step.first] * share[step.second]
        weights.append(share)
        totals.append(total)
    return Reduced(plan, points, tuple(weights), tuple(totals))


def point_volts(reduced: Reduced, held: Complex) -> Complex:
    """Volts of every point, shape (N, S), from the poles' volts `held`, shape (P, S)."""
    volts = np.zeros((len(reduced.points), held.shape[1]), dtype=np.complex128)
    volts[: len(held)] = held
    for step, share in zip(reversed(reduced.plan.steps), reversed(reduced.weights), strict=True):
        volts[step.point] = (share * volts[step.neighbours]).sum(axis=0)
    return volts


def pair_impedances(reduced: Reduced, pairs: list[tuple[int, int]]) -> Complex:
    """Impedance seen between each pair of points with every pole at 0 V, ohm, shape (pairs, S).

    One ampere goes in at the first point and out at the second. The two halves cancel as soon as they meet, so a
    pair that floats on stray capacitance keeps its small resistance to full precision.
    """
    columns = reduced.totals[0].shape[0]
    rows = np.arange(len(pairs))
    first, second = (np.array(ends, dtype=np.intp) for ends in zip(*pairs, strict=True))
    amps = np.zeros((len(reduced.points), len(pairs), columns), dtype=np.complex128)
    amps[first, rows] += 1.0
    amps[second, rows] -= 1.0
    for step, share in zip(reduced.plan.steps, reduced.weights, strict=True):
        busy = amps[step.point].any(axis=1)
        for neighbour, part in zip(step.neighbours, share, strict=True):
            amps[neighbour, busy] += part * amps[step.point, busy]
    volts = np.zeros_like(amps)
    steps = zip(reversed(reduced.plan.steps), reversed(reduced.weights), reversed(reduced.totals), strict=True)
    for step, share, total in steps:
        here = amps[step.point] / total
        for neighbour, part in zip(step.neighbours, share, strict=True):
            here += part * volts[neighbour]
        volts[step.point] = here
    return np.asarray(volts[first, rows] - volts[second, rows])

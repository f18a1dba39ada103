"""Solve many variants of one network abreast by star-mesh elimination.

What may live here: the numbers. Shapes: a column is one variant (a fault, a tolerance); S columns, B branches,
N points, of which the first P are poles.

Why this method: nodal updates compute 1 - y·Z by cancellation and go wrong by volts when two contacts in one string
open. Star-mesh only adds and multiplies admittances of the right half-plane and never subtracts; a held point gives
v_k = Σ w_ki v_i / Σ w_ki, a weighted mean. Opening a branch is w = 0, exact. See docs/decisions/0003.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.explain import floating_points, island
from halfsplit.circuit.plan import Plan
from halfsplit.errors import CircuitError

Complex = NDArray[np.complex128]
Numbers = NDArray[np.inexact[Any]]
"""Phasors, or for direct current real numbers, which take half the work."""
_WORKING_NUMBERS = 2**20
"""How many numbers a batch of pairs may take: large batches leave the processor's cache and gain nothing."""


@dataclass(frozen=True, slots=True)
class Reduced:
    """An eliminated network: weights (one array of neighbours × S per step) and step totals, shape (steps, S).

    `kept` are the admittances of the edges that are left, shape (K, S).
    """

    plan: Plan
    points: tuple[str, ...]
    weights: tuple[Numbers, ...]
    totals: Numbers
    kept: Numbers


def reduce(plan: Plan, points: tuple[str, ...], admittance: Numbers) -> Reduced:
    """Eliminate every point that is not held.

    Args:
        plan: The order, from `make_plan`.
        points: Names, to explain a failure.
        admittance: Siemens, shape (B, S); real for direct current, which is faster.

    Raises:
        CircuitError: A point has no path to anything, not even stray capacitance.
    """
    edge = _edges(plan, admittance)
    totals = np.empty((len(plan.steps), admittance.shape[1]), dtype=admittance.dtype)
    weights = []
    with np.errstate(divide="ignore", invalid="ignore"):  # a floating point divides by zero; it is named below
        for step, total in zip(plan.steps, totals, strict=True):
            out = edge.take(step.edges, axis=0)
            out.sum(axis=0, out=total)
            share = out / total
            weights.append(share)
            if len(step.fill):
                mesh = out.take(step.first, axis=0) * share.take(step.second, axis=0)
                edge[step.fill] = edge.take(step.fill, axis=0) + mesh
    if not totals.all():
        raise _floats(plan, points, admittance, totals)
    return Reduced(plan, points, tuple(weights), totals, edge[plan.kept_edges])


def _floats(plan: Plan, points: tuple[str, ...], admittance: Numbers, totals: Numbers) -> CircuitError:
    """Why it failed, of the first column that did: all points that hang together with the first that floats."""
    step, column = (int(number) for number in np.argwhere(totals == 0)[0])
    edge = _edges(plan, admittance[:, [column]])[:, 0]  # as it was: what floats has spoilt the sums since
    joins = [
        (here.point, int(other))
        for here in plan.steps
        for other, number in zip(here.neighbours, here.edges, strict=True)
        if edge[number] != 0
    ]
    return floating_points([points[number] for number in island(joins, [plan.steps[step].point])])


def _edges(plan: Plan, admittance: Numbers) -> Numbers:
    """Admittance of every edge, shape (edges, S): parallel branches summed, fill still empty."""
    edge = np.zeros((plan.edges, admittance.shape[1]), dtype=admittance.dtype)
    edge[: len(plan.edge_starts)] = np.add.reduceat(admittance[plan.branch_order], plan.edge_starts, axis=0)
    return edge


def point_volts(reduced: Reduced, held: Numbers) -> Numbers:
    """Volts of every point, shape (N, S), from those of the points that stay, `held`, shape (H, S)."""
    volts = np.zeros((len(reduced.points), held.shape[1]), dtype=held.dtype)
    volts[: len(held)] = held
    for step, share in zip(reversed(reduced.plan.steps), reversed(reduced.weights), strict=True):
        (share * volts.take(step.neighbours, axis=0)).sum(axis=0, out=volts[step.point])
    return volts


def batches(reduced: Reduced, pairs: int) -> list[slice]:
    """Slices of so many pairs that the working arrays of each stay in the processor's cache."""
    size = max(1, _WORKING_NUMBERS // (len(reduced.points) * max(1, reduced.totals.shape[1])))
    return [slice(start, start + size) for start in range(0, pairs, size)]


def pass_dipoles(reduced: Reduced, pairs: NDArray[np.intp]) -> tuple[Numbers, Numbers]:
    """One ampere in at the first point of each pair (pairs, 2) and out at the second, passed on at each elimination.

    Point k, of total Y_k, then receives i_k, and with the points that stay at 0 V the pair's impedance is
    Z = Σ i_k² / Y_k (the network is reciprocal, Y = L D Lᵀ, so Z = |L⁻¹ i|² over D). The two halves cancel as soon as
    they meet, so a pair that floats on stray capacitance keeps its small resistance to full precision.

    Returns:
        Currents as they reached each point, shape (N, pairs, S), and Z, ohm, shape (pairs, S).
    """
    columns = reduced.totals.shape[1]
    rows = np.arange(len(pairs))
    impedance = np.zeros((len(pairs), columns), dtype=reduced.totals.dtype)
    amps = np.zeros((len(reduced.points), *impedance.shape), dtype=impedance.dtype)
    amps[pairs[:, 0], rows] += 1.0
    amps[pairs[:, 1], rows] -= 1.0
    for step, share, total in zip(reduced.plan.steps, reduced.weights, reduced.totals, strict=True):
        busy = np.flatnonzero(amps[step.point].any(axis=1))
        here = amps[step.point, busy]
        impedance[busy] += here * here / total
        for neighbour, part in zip(step.neighbours, share, strict=True):
            amps[neighbour, busy] += part * here
    return amps, impedance


def volts_of_dipoles(reduced: Reduced, amps: Numbers, held: Numbers) -> Numbers:
    """Volts of every point, shape (N, pairs, S), for currents as `pass_dipoles` left them.

    `held` are the volts of the points that stay, shape (H, pairs, S).
    """
    volts = np.zeros_like(amps)
    volts[: len(held)] = held
    for index in reversed(range(len(reduced.plan.steps))):
        step, share = reduced.plan.steps[index], reduced.weights[index]
        volts[step.point] = amps[step.point] / reduced.totals[index]
        for neighbour, part in zip(step.neighbours, share, strict=True):
            volts[step.point] += part * volts[neighbour]
    return volts

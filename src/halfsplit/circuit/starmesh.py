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

from halfsplit.circuit.plan import Plan
from halfsplit.errors import CircuitError

Complex = NDArray[np.complex128]
Numbers = NDArray[np.inexact[Any]]
"""Phasors, or for direct current real numbers, which take half the work."""
_WORKING_NUMBERS = 2**20
"""How many numbers a batch of pairs may take: large batches leave the processor's cache and gain nothing."""


@dataclass(frozen=True, slots=True)
class Reduced:
    """An eliminated network: weights (one array of neighbours × S per step) and step totals, shape (steps, S)."""

    plan: Plan
    points: tuple[str, ...]
    weights: tuple[Numbers, ...]
    totals: Numbers


def reduce(plan: Plan, points: tuple[str, ...], admittance: Numbers) -> Reduced:
    """Eliminate every point that is not a pole.

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
        floating = plan.steps[int(np.flatnonzero((totals == 0).any(axis=1))[0])].point
        raise CircuitError(
            f"The point {points[floating]} floats: nothing joins it to the rest of the network.",
            "Give it a wire, or stray capacitance.",
        )
    return Reduced(plan, points, tuple(weights), totals)


def _edges(plan: Plan, admittance: Numbers) -> Numbers:
    """Admittance of every edge, shape (edges, S): parallel branches summed, fill still empty."""
    edge = np.zeros((plan.edges, admittance.shape[1]), dtype=admittance.dtype)
    edge[: len(plan.edge_starts)] = np.add.reduceat(admittance[plan.branch_order], plan.edge_starts, axis=0)
    return edge


def point_volts(reduced: Reduced, held: Numbers) -> Numbers:
    """Volts of every point, shape (N, S), from the poles' volts `held`, shape (P, S)."""
    volts = np.zeros((len(reduced.points), held.shape[1]), dtype=held.dtype)
    volts[: len(held)] = held
    for step, share in zip(reversed(reduced.plan.steps), reversed(reduced.weights), strict=True):
        (share * volts.take(step.neighbours, axis=0)).sum(axis=0, out=volts[step.point])
    return volts


def pair_impedances(reduced: Reduced, pairs: NDArray[np.intp]) -> Numbers:
    """Impedance seen between each pair of points (pairs, 2) with every pole at 0 V, ohm, shape (pairs, S).

    One ampere goes in at the first point and out at the second, and is passed on at each elimination: point k, of
    total Y_k, then receives i_k, and Z = Σ i_k² / Y_k (the network is reciprocal, Y = L D Lᵀ, so Z = |L⁻¹ i|² over
    D). The two halves cancel as soon as they meet, so a pair that floats on stray capacitance keeps its small
    resistance to full precision.
    """
    columns = reduced.totals.shape[1]
    impedance = np.zeros((len(pairs), columns), dtype=reduced.totals.dtype)
    size = max(1, _WORKING_NUMBERS // (len(reduced.points) * max(1, columns)))
    for start in range(0, len(pairs), size):
        batch = slice(start, start + size)
        _pass_dipoles(reduced, pairs[batch], impedance[batch])
    return impedance


def _pass_dipoles(reduced: Reduced, pairs: NDArray[np.intp], impedance: Numbers) -> None:
    """Pass the currents of one batch of pairs through all eliminations, adding to `impedance`."""
    rows = np.arange(len(pairs))
    amps = np.zeros((len(reduced.points), *impedance.shape), dtype=impedance.dtype)
    amps[pairs[:, 0], rows] += 1.0
    amps[pairs[:, 1], rows] -= 1.0
    for step, share, total in zip(reduced.plan.steps, reduced.weights, reduced.totals, strict=True):
        busy = np.flatnonzero(amps[step.point].any(axis=1))
        here = amps[step.point, busy]
        impedance[busy] += here * here / total
        for neighbour, part in zip(step.neighbours, share, strict=True):
            amps[neighbour, busy] += part * here

"""What sources and transformers hold: two points apart from each other, both of them floating.

What may live here: the small system that is left when every other point is eliminated.

The H points that stay are the poles (held) and the ports (two of each source or winding). Their volts are
v = o + B u: o what is known (a pole's volts, a source's own), u what is not (each pair's low point; for a transformer
its volts a turn), B the numbers 1 and turns. No power is lost in what holds them, so Bᵀ Y v = 0, and with the edges
e = (i, j) that are left, of weight w_e, and d_e = B_i − B_j:

    (Σ_e w_e d_e d_eᵀ) u = −Σ_e w_e d_e (o_i − o_j)

d_e and the difference of the offsets are exact, so a pair that floats on strays keeps them however stiff it is inside:
an edge between the two points of one pair has d = 0 but for its turns, and drops out of the balance of what floats.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.network import Network
from halfsplit.circuit.starmesh import Numbers, Reduced
from halfsplit.errors import CircuitError

Real = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Basis:
    """How the volts of the points that stay follow from the unknowns.

    Attributes:
        poles: How many of the H points are poles; they come first.
        of_unknowns: B, shape (H, U).
        names: What each unknown belongs to, for a failure.
    """

    poles: int
    of_unknowns: Real
    names: tuple[str, ...]

    @property
    def needed(self) -> bool:
        """Whether anything but poles stays."""
        return bool(self.names)


def make_basis(network: Network, *, direct: bool) -> Basis:
    """The basis for alternating current, or for `direct`, in which a transformer's windings are bare wire."""
    windings = [(made.name, winding) for made in network.transformers for winding in made.windings]
    pairs = [source.name for source in network.sources] + [name for name, _ in windings]
    cores = [] if direct else [made.name for made in network.transformers]
    poles = len(network.poles)
    matrix = np.zeros((poles + 2 * len(pairs), len(pairs) + len(cores)))
    for index in range(len(pairs)):
        matrix[poles + 2 * index : poles + 2 * index + 2, index] = 1.0
    for index, (name, winding) in enumerate(windings, start=len(network.sources)):
        if cores:
            matrix[poles + 2 * index, len(pairs) + cores.index(name)] = winding.turns
    return Basis(poles, matrix, (*pairs, *cores))


def check_pairs(network: Network) -> None:
    """Refuse sources and windings that share a point, or sit on a pole.

    Raises:
        CircuitError: Two of them fight over a point.
    """
    owner = {pole.point: f"the pole at {pole.point}" for pole in network.poles}
    held = [(source.name, source.high, source.low) for source in network.sources]
    held += [(made.name, winding.high, winding.low) for made in network.transformers for winding in made.windings]
    for name, *ends in held:
        for point in ends:
            if point in owner:
                raise CircuitError(
                    f"{name} and {owner[point]} both hold the point {point}.",
                    "Put a branch with some resistance between them.",
                )
            owner[point] = name


def hold(basis: Basis, reduced: Reduced, known: Numbers) -> Numbers:
    """Volts of the points that stay, shape (H, S), from what is `known` of them (o), shape (H, S).

    Raises:
        CircuitError: A source or winding floats: nothing joins its points to the rest.
    """
    if not basis.needed:
        return known
    ends = reduced.plan.kept_ends
    _refuse_floating(basis, reduced)
    apart = known[ends[:, 0]] - known[ends[:, 1]]
    right = -(_steps(basis, ends).T @ (reduced.kept * apart))
    return np.asarray(known + basis.of_unknowns @ _solved(basis, reduced, right.T[:, :, None])[:, :, 0].T)


def _refuse_floating(basis: Basis, reduced: Reduced) -> None:
    """Follow the edges that are left from the poles: a pair that none reaches has no volts against anything."""
    reached = np.zeros((len(basis.of_unknowns), reduced.kept.shape[1]), dtype=bool)
    reached[: basis.poles] = True
    joined = reduced.kept != 0
    to_pole = reduced.plan.kept_ends[:, 1] < basis.poles
    np.logical_or.at(reached, reduced.plan.kept_ends[to_pole, 0], joined[to_pole])
    if reached[basis.poles :].reshape(-1, 2, reached.shape[1]).any(axis=1).all():
        return  # as good as always: strays join every pair to a pole
    for _ in basis.names:
        for (first, second), there in zip(reduced.plan.kept_ends, joined, strict=True):
            either = (reached[first] | reached[second]) & there
            reached[first] |= either
            reached[second] |= either
        pairs = reached[basis.poles :].reshape(-1, 2, reached.shape[1])
        pairs |= pairs.any(axis=1, keepdims=True)
    floating = np.flatnonzero(~reached[basis.poles :: 2].all(axis=1))
    if len(floating):
        raise CircuitError(
            f"{basis.names[floating[0]]} floats: nothing joins it to the rest of the network.",
            "Give it a wire, or stray capacitance.",
        )


def fed(basis: Basis, reduced: Reduced, amps: Numbers) -> Numbers:
    """What currents into the points that stay, shape (H, pairs, S), add to a pair's impedance, shape (pairs, S)."""
    if not basis.needed:
        return np.zeros(amps.shape[1:], dtype=amps.dtype)
    right = np.einsum("hu,hps->sup", basis.of_unknowns, amps)
    return np.asarray(np.einsum("sup,sup->ps", right, _solved(basis, reduced, right)))


def volts_fed(basis: Basis, reduced: Reduced, amps: Numbers) -> Numbers:
    """Volts of the points that stay, shape (H, pairs, S), for currents into them with everything held at 0 V."""
    if not basis.needed:
        return np.zeros_like(amps)
    right = np.einsum("hu,hps->sup", basis.of_unknowns, amps)
    return np.asarray(np.einsum("hu,sup->hps", basis.of_unknowns, _solved(basis, reduced, right)))


def _steps(basis: Basis, ends: NDArray[np.intp]) -> Real:
    """D of every edge that is left, shape (K, U)."""
    return np.asarray(basis.of_unknowns[ends[:, 0]] - basis.of_unknowns[ends[:, 1]])


def _solved(basis: Basis, reduced: Reduced, right: Numbers) -> Numbers:
    """U for right sides of shape (S, U, n)."""
    steps = _steps(basis, reduced.plan.kept_ends)
    outer = (steps[:, :, None] * steps[:, None, :]).reshape(len(steps), -1)
    matrix: NDArray[Any] = (reduced.kept.T @ outer).reshape(-1, len(basis.names), len(basis.names))
    # Unknowns may differ by ten orders (a stiff core, a pair on strays): each is brought to one before the solve.
    size = 1.0 / np.sqrt(np.abs(np.diagonal(matrix, axis1=1, axis2=2)))
    even = matrix * size[:, :, None] * size[:, None, :]
    return np.asarray(np.linalg.solve(even, right * size[:, :, None]) * size[:, :, None])

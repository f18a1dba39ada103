"""Star-mesh elimination on small dense meshes, many of them abreast: what solving pairs of faults is made of.

What may live here: arithmetic on arrays of admittances; it knows no network. Shapes: f free points, q further columns
(poles, or what stands for them), then any shape of columns. A mesh is (f, f + q, …): admittance between its points;
what stands on the diagonal is never read.

The shares of a group of points in those that stay are found as Grassmann, Taksar and Heyman find the stationary
distribution of a Markov chain (Operations Research 33, 1985; from memory): totals are sums of what leaves a point,
never a diagonal less something, so that nothing is subtracted.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.circuit.starmesh import Numbers
from halfsplit.errors import CircuitError


@dataclass(frozen=True, slots=True)
class Gone:
    """The first points of a mesh eliminated.

    Attributes:
        shares: What each passes on to every point after it, shape (gone, f + q, …); what is before it is never read.
        inverse: One over what left each of them in all, ohm, shape (gone, …).
        rest: The mesh that is left, shape (f - gone, f - gone + q, …).
    """

    shares: Numbers
    inverse: Numbers
    rest: Numbers


def eliminate(mesh: Numbers, gone: int, carried: int = 0) -> Gone:
    """Eliminate the first `gone` points, in place: what was in `mesh` is gone too.

    Args:
        mesh: Shape (f, f + q, …).
        gone: How many points go.
        carried: How many columns at the end are currents, which take no part in totals.

    Raises:
        CircuitError: A point has no path to anything.
    """
    work = mesh
    free, columns = mesh.shape[:2]
    inverse = np.empty((gone, *mesh.shape[2:]), dtype=mesh.dtype)
    with np.errstate(divide="ignore", invalid="ignore"):  # a floating point divides by zero; it is refused below
        for k in range(gone):
            row, total = work[k, k + 1 :], inverse[k]
            np.add.reduce(row[: columns - carried - k - 1], axis=0, out=total)
            np.divide(1.0, total, out=total)
            share = row * total
            if k + 1 < free:
                rest = work[k + 1 :, k + 1 :]
                np.add(rest, row[: free - k - 1, None] * share, out=rest)
            row[...] = share
    if not np.isfinite(inverse).all():
        raise CircuitError(
            "Under some pair of faults a point floats: nothing joins it to the rest of the network.",
            "Give every point stray capacitance.",
        )
    return Gone(work[:gone], inverse, work[gone:, gone:])


def share_of_rest(made: Gone) -> Numbers:
    """Each eliminated point as a weighted mean of those that stay, shape (gone, f - gone + q, …)."""
    gone = len(made.shares)
    mean = made.shares[:, gone:].copy()
    for k in range(gone - 2, -1, -1):
        mean[k] += np.add.reduce(made.shares[k, k + 1 : gone, None] * mean[k + 1 :], axis=0)
    return mean


def passed_on(made: Gone) -> Numbers:
    """How much of what enters at each eliminated point comes to each of them, itself included, shape (gone, gone, …).

    The first axis is where it comes to, the second where it enters.
    """
    gone = len(made.shares)
    comes = np.zeros((gone, gone, *made.shares.shape[2:]), dtype=made.shares.dtype)
    for k in range(gone - 1, -1, -1):
        comes[k, k] = 1.0
        comes[k + 1 :, k] = (made.shares[k, k + 1 : gone, None] * comes[k + 1 :, k + 1 :].swapaxes(0, 1)).sum(axis=0)
    return comes


def at_poles(mesh: Numbers, free: int, volts: Numbers) -> Numbers:
    """The poles put together: their admittances summed, and the current they would feed; shape (f, free + 2, …).

    Args:
        mesh: Shape (f, free + P, …).
        free: How many columns come before the poles.
        volts: Of the poles, shape (P, …).
    """
    columns = np.broadcast_shapes(mesh.shape[2:], volts.shape[1:])
    put = np.empty((len(mesh), free + 2, *columns), dtype=mesh.dtype)
    put[:, :free] = mesh[:, :free]
    poles = mesh[:, free:]
    put[:, free] = np.add.reduce(poles, axis=1)
    np.add.reduce(poles * volts, axis=1, out=put[:, free + 1])
    return put

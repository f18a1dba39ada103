"""How others would solve the same columns: a loop of dense solves, one batched dense solve, a loop of inverses.

They are given the admittances of every column for nothing, and have to set up their matrices. Shapes: B branches, N
points of which the first P are poles, n columns.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit import Layout

Complex = NDArray[np.complex128]
Index = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Task:
    """Columns to solve: admittances (B, n) and volts of the poles (P, n)."""

    layout: Layout
    siemens: Complex
    held: Complex


def nodal(layout: Layout, siemens: Complex) -> Complex:
    """The nodal matrix of one column, shape (N, N)."""
    points = len(layout.points)
    matrix = np.zeros((points, points), dtype=np.complex128)
    a, b = layout.a, layout.b
    for one, other, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
        np.add.at(matrix, (one, other), sign * siemens)
    return matrix


def loop(task: Task) -> Complex:
    """One dense solve after another, shape (n, N)."""
    found = np.empty((task.siemens.shape[1], len(task.layout.points)), dtype=np.complex128)
    poles = len(task.held)
    for row in range(len(found)):
        matrix = nodal(task.layout, task.siemens[:, row])
        found[row, :poles] = task.held[:, row]
        found[row, poles:] = np.linalg.solve(matrix[poles:, poles:], -matrix[poles:, :poles] @ task.held[:, row])
    return found


def batched(task: Task) -> Complex:
    """All matrices first and one call to solve them, shape (n, N)."""
    poles = len(task.held)
    matrices = np.stack([nodal(task.layout, column) for column in task.siemens.T])
    right = -np.einsum("nij,jn->ni", matrices[:, poles:, :poles], task.held)
    free = np.linalg.solve(matrices[:, poles:, poles:], right[:, :, None])[:, :, 0]
    return np.concatenate([task.held.T, free], axis=1)


def loaded(task: Task, ends: Index, meters: tuple[float, ...]) -> NDArray[np.float64]:
    """Volts that meters show between points `ends` (pairs, 2), an inverse for each column, shape (n, meters, pairs)."""
    poles = len(task.held)
    found = np.empty((task.siemens.shape[1], len(meters), len(ends)))
    impedance = np.zeros((len(task.layout.points),) * 2, dtype=np.complex128)
    for row in range(len(found)):
        matrix = nodal(task.layout, task.siemens[:, row])
        impedance[poles:, poles:] = inverse = np.linalg.inv(matrix[poles:, poles:])
        volts = np.concatenate([task.held[:, row], -inverse @ (matrix[poles:, :poles] @ task.held[:, row])])
        p, q = ends.T
        seen = impedance[p, p] + impedance[q, q] - impedance[p, q] - impedance[q, p]
        for number, meter in enumerate(meters):
            found[row, number] = np.abs((volts[p] - volts[q]) * (meter / (meter + seen)))
    return found

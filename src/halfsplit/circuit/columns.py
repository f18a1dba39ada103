"""A network under many variants at once: one column a variant (a fault, a pair of faults, a tolerance at its edge).

What may live here: turning patches into arrays, and conditions into masks.
Shapes: V variables, B branches, P poles, E sources, N points, S columns.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.network import Condition, Network, Patch
from halfsplit.circuit.plan import Plan, make_plan
from halfsplit.circuit.ports import Basis, check_pairs, make_basis
from halfsplit.circuit.starmesh import Complex
from halfsplit.errors import CircuitError

Mask = NDArray[np.bool_]
Positions = NDArray[np.int8]
Real = NDArray[np.float64]
Indices = NDArray[np.intp]
UNPINNED = -1


class Layout:
    """The shape of a network, worked out once: indices by name, and the elimination plan. Never changes."""

    def __init__(self, network: Network) -> None:
        """Index every name of `network` and plan its elimination.

        Raises:
            CircuitError: Two sources, windings or poles hold one point.
        """
        check_pairs(network)
        self.network = network
        self.points = network.points()
        self.point_index = {point: index for index, point in enumerate(self.points)}
        self.branch_index = {branch.name: index for index, branch in enumerate(network.branches)}
        self.positions = network.positions()
        self.variable_index = {name: index for index, name in enumerate(self.positions)}
        self.a = np.array([self.point_index[branch.a] for branch in network.branches], dtype=np.intp)
        self.b = np.array([self.point_index[branch.b] for branch in network.branches], dtype=np.intp)
        ends = list(zip(self.a, self.b, strict=True))
        self.plan: Plan = make_plan(ends, len(self.points), len(network.poles), len(network.held_pairs()))
        self.pole_volts = np.array([pole.volts for pole in network.poles], dtype=np.complex128)
        self.source_volts = np.array([source.volts for source in network.sources], dtype=np.complex128)
        self.source_direct = np.array([source.direct for source in network.sources], dtype=np.float64)
        self.basis: Basis = make_basis(network, self.plan, direct=False)
        self.direct_basis: Basis = make_basis(network, self.plan, direct=True)
        self.one_way = np.array([i for i, branch in enumerate(network.branches) if branch.one_way], dtype=np.intp)
        self._series = np.array([[branch.ohm, branch.henry, branch.farad] for branch in network.branches])
        self._dc = np.array([branch.ohm if branch.dc_ohm is None else branch.dc_ohm for branch in network.branches])
        conditions = [branch.condition for branch in network.branches]
        self._conditions = tuple(dict.fromkeys(conditions))
        place = {condition: index for index, condition in enumerate(self._conditions)}
        self._condition_of = np.array([place[condition] for condition in conditions], dtype=np.intp)

    def start(self, columns: int) -> Positions:
        """Every variable at its first position, shape (V, S)."""
        return np.zeros((len(self.positions), columns), dtype=np.int8)

    def holds(self, condition: Condition, state: Positions) -> Mask:
        """In which columns a condition holds, shape (S,)."""
        answer = np.zeros(state.shape[1], dtype=bool)
        for alternative in condition:
            both = np.ones(state.shape[1], dtype=bool)
            for variable, allowed in alternative:
                table = np.array([position in allowed for position in self.positions[variable]])
                both &= table[state[self.variable_index[variable]]]
            answer |= both
        return answer

    def conducts(self, state: Positions) -> Mask:
        """Which branches conduct by their own condition, faults apart, shape (B, S)."""
        answers = np.stack([self.holds(condition, state) for condition in self._conditions])
        return np.asarray(answers[self._condition_of])

    def admittance(self, branch_scale: Real, added_ohm: Real) -> Complex:
        """Admittance of every branch at the working frequency, siemens, shape (B, S)."""
        ohm, henry, farad = (column[:, None] for column in self._series.T)
        omega = 2.0 * np.pi * self.network.hertz
        series = (ohm + 1j * omega * henry) * branch_scale + added_ohm
        return np.asarray(1.0 / series + 1j * omega * farad / branch_scale)

    def conductance(self, branch_scale: Real, added_ohm: Real, *, cold: bool = True) -> Real:
        """Conductance of every branch for direct current, dead and cold or at work, siemens, shape (B, S)."""
        ohm = self._dc if cold else self._series[:, 0]
        return np.asarray(1.0 / (ohm[:, None] * branch_scale + added_ohm))


@dataclass(frozen=True, slots=True)
class Columns:
    """Variants of one network as arrays, made by `columns`; nothing here is written to afterwards."""

    layout: Layout
    forced_open: Mask
    forced_closed: Mask
    added_ohm: Real
    branch_scale: Real
    pinned: Positions
    pole_scale: Real
    source_scale: Real

    @property
    def count(self) -> int:
        """How many columns there are."""
        return int(self.forced_open.shape[1])

    def take(self, which: Indices) -> Columns:
        """Only the columns with these numbers, in this order."""
        return Columns(
            self.layout,
            self.forced_open[:, which],
            self.forced_closed[:, which],
            self.added_ohm[:, which],
            self.branch_scale[:, which],
            self.pinned[:, which],
            self.pole_scale[:, which],
            self.source_scale[:, which],
        )

    def repeat(self, scales: Sequence[tuple[Real, Real]]) -> Columns:
        """The same columns once for each (branch scale (B,), pole scale (P,)), side by side."""
        times = len(scales)
        branch = np.concatenate([self.branch_scale * scale[:, None] for scale, _ in scales], axis=1)
        pole = np.concatenate([self.pole_scale * scale[:, None] for _, scale in scales], axis=1)
        return Columns(
            self.layout,
            np.tile(self.forced_open, (1, times)),
            np.tile(self.forced_closed, (1, times)),
            np.tile(self.added_ohm, (1, times)),
            branch,
            np.tile(self.pinned, (1, times)),
            pole,
            np.tile(self.source_scale, (1, times)),
        )


def columns(layout: Layout, variants: Sequence[Sequence[Patch]]) -> Columns:
    """Lay variants side by side.

    Raises:
        CircuitError: A patch names a branch, variable, position, pole or source that the network does not have.
    """
    branches, count = len(layout.network.branches), len(variants)
    made = Columns(
        layout,
        np.zeros((branches, count), dtype=bool),
        np.zeros((branches, count), dtype=bool),
        np.zeros((branches, count)),
        np.ones((branches, count)),
        np.full((len(layout.positions), count), UNPINNED, dtype=np.int8),
        np.ones((len(layout.pole_volts), count)),
        np.ones((len(layout.source_volts), count)),
    )
    for column, patches in enumerate(variants):
        for patch in patches:
            _apply(made, patch, column)
    return made


def _apply(made: Columns, patch: Patch, column: int) -> None:
    layout = made.layout
    try:
        if patch.action == "pin":
            position = layout.positions[patch.target].index(patch.position)
            made.pinned[layout.variable_index[patch.target], column] = position
        elif patch.action == "scale":
            _scale(made, patch, column)
        else:
            _apply_to_branch(made, patch, layout.branch_index[patch.target], column)
    except (KeyError, ValueError):
        named = f"{patch.target!r} at {patch.position!r}" if patch.action == "pin" else repr(patch.target)
        raise CircuitError(f"A fault names {named}, which this network does not have.") from None


def _scale(made: Columns, patch: Patch, column: int) -> None:
    network = made.layout.network
    poles, sources = [pole.point for pole in network.poles], [source.name for source in network.sources]
    if patch.target in sources:
        made.source_scale[sources.index(patch.target), column] *= patch.value
    else:
        made.pole_scale[poles.index(patch.target), column] *= patch.value


def _apply_to_branch(made: Columns, patch: Patch, branch: int, column: int) -> None:
    if patch.action == "open":
        made.forced_open[branch, column] = True
    elif patch.action == "closed":
        made.forced_closed[branch, column] = True
    else:
        made.added_ohm[branch, column] += patch.value

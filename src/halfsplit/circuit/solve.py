"""Solve every column as it stands: phasors, direct current, and both halves of the cycle where something is one-way.

What may live here: which networks are solved for one state. Shapes as in `columns`; D one-way branches.

Which diodes conduct is found for each half by turning over the first one that is wrong (blocks with a forward voltage,
conducts backwards) until none is: Murty's least-index rule, which ends for every network of resistances (K. G. Murty,
"Note on a Bard-type scheme for solving the complementarity problem", Opsearch 11, 1974; from memory).
"""

from __future__ import annotations

import numpy as np

from halfsplit.circuit.columns import Columns, Mask, Positions, Real
from halfsplit.circuit.ports import hold
from halfsplit.circuit.solution import Half, Solution
from halfsplit.circuit.starmesh import Complex, Numbers, Reduced, point_volts, reduce
from halfsplit.errors import CircuitError

_LEAST_FORWARD_VOLTS = 1e-6


def conducting(made: Columns, state: Positions) -> Mask:
    """Which branches conduct in a state, faults included, one-way ones as if both ways, shape (B, S)."""
    return np.asarray((made.layout.conducts(state) | made.forced_closed) & ~made.forced_open)


def solve(made: Columns, state: Positions) -> Solution:
    """Solve every column in the given state, live.

    Args:
        made: The columns.
        state: Position of every variable, shape (V, S).

    Raises:
        CircuitError: A point, source or winding floats.
    """
    conducts = conducting(made, state)
    if not len(made.layout.one_way):
        return Solution(made.layout, (_half(made, conducts, 0),), np.ones(made.count, dtype=np.complex128))
    turn = _turn(made, conducts)
    halves = tuple(_settled_half(made, conducts, sign, turn) for sign in (1, -1))
    return Solution(made.layout, halves, turn)


def reduce_dead(made: Columns, state: Positions, on: Mask | None = None) -> Reduced:
    """The ohmmeter's network eliminated: direct current, cold resistances, nothing held but at 0 V.

    Args:
        made: The columns.
        state: Position of every variable, shape (V, S).
        on: Which one-way branches conduct, shape (D, S); None when there is none.
    """
    conducts = conducting(made, state)
    if on is not None:
        conducts[made.layout.one_way] &= on
    siemens = np.where(conducts, made.layout.conductance(made.branch_scale, made.added_ohm), 0.0)
    return reduce(made.layout.plan, made.layout.points, siemens)


def _half(made: Columns, conducts: Mask, sign: int) -> Half:
    layout = made.layout
    admittance = np.where(conducts, layout.admittance(made.branch_scale, made.added_ohm), 0.0)
    sources = made.source_scale * layout.source_volts[:, None]
    volts = _held_and_solved(made, admittance, made.pole_scale * layout.pole_volts[:, None], sources)
    if not layout.source_direct.any():
        return Half(sign, volts, admittance)
    conductance = np.where(conducts, layout.conductance(made.branch_scale, made.added_ohm, cold=False), 0.0)
    direct = made.source_scale * layout.source_direct[:, None]
    steady = _held_and_solved(made, conductance, np.zeros_like(made.pole_scale), direct)
    return Half(sign, volts, admittance, np.asarray(steady, dtype=np.float64), conductance)


def _held_and_solved(made: Columns, siemens: Numbers, poles: Numbers, sources: Numbers) -> Numbers:
    """Volts of every point, shape (N, S), from those of the poles and of the sources."""
    layout = made.layout
    reduced = reduce(layout.plan, layout.points, siemens)
    basis = layout.direct_basis if siemens.dtype == np.float64 else layout.basis
    known = np.zeros((len(basis.body), made.count), dtype=siemens.dtype)
    known[: len(poles)] = poles
    known[len(poles) : len(poles) + 2 * len(sources) : 2] = sources
    return point_volts(reduced, hold(basis, reduced, known))


def _turn(made: Columns, conducts: Mask) -> Complex:
    """What brings the largest voltage that waits across a one-way branch to phase 0, shape (S,)."""
    layout, blocked = made.layout, conducts.copy()
    blocked[layout.one_way] = False
    volts = _half(made, blocked, 0).volts
    waiting = volts[layout.a[layout.one_way]] - volts[layout.b[layout.one_way]]
    largest = np.take_along_axis(waiting, np.abs(waiting).argmax(axis=0)[None], axis=0)[0]
    size = np.abs(largest)
    return np.where(size > 0, largest.conj() / np.where(size > 0, size, 1.0), 1.0)


def _settled_half(made: Columns, conducts: Mask, sign: int, turn: Complex) -> Half:
    layout = made.layout
    able = conducts[layout.one_way]
    on: Mask = np.zeros_like(able)
    for _ in range(2 ** len(layout.one_way) + 1):
        standing = conducts.copy()
        standing[layout.one_way] = able & on
        half = _half(made, standing, sign)
        forward = _forward(made, half, turn)
        wrong = able & np.where(on, forward < 0, forward > _LEAST_FORWARD_VOLTS)
        if not wrong.any():
            return half
        first = wrong.argmax(axis=0)
        columns = np.flatnonzero(wrong.any(axis=0))
        on = on.copy()
        on[first[columns], columns] ^= True
    names = ", ".join(layout.network.branches[row].name for row in layout.one_way)
    raise CircuitError(
        f"What conducts one way only ({names}) comes to no rest.", "Leave out coils and capacitors beside it."
    )


def _forward(made: Columns, half: Half, turn: Complex) -> Real:
    """Volts a against b across each one-way branch at the top of this half, shape (D, S)."""
    layout = made.layout
    a, b = layout.a[layout.one_way], layout.b[layout.one_way]
    top = half.sign * np.sqrt(2.0) * (turn * (half.volts[a] - half.volts[b])).real
    return np.asarray(top if half.steady is None else top + half.steady[a] - half.steady[b])

"""Single faults against the states a machine may stand in: what each changes, as arrays.

What may live here: admittances of faults alone and two at once. Shapes: S single faults, C base columns (a state of all
contacts each), B branches, V variables.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from halfsplit.circuit.columns import UNPINNED, Columns, Layout, Mask, Positions, Real, columns
from halfsplit.circuit.cuts import Cut, make_cuts
from halfsplit.circuit.neighbours import Group, Index, grouped
from halfsplit.circuit.starmesh import Complex, Numbers
from halfsplit.errors import CircuitError


@dataclass(frozen=True, slots=True, eq=False)
class Suspects:
    """Single faults against base columns.

    Attributes:
        singles: The faults, one column each.
        states: The base columns: position of every variable, shape (V, C).
        base: Admittance of every branch with nothing wrong, shape (B, C).
        changed: Under each fault, shape (B, S, C).
        touches: Which branches each fault changes in any base column, shape (B, S).
        groups: All faults but the wide ones.
        cuts: How the network is taken apart for every two groups.
        wide: Numbers of the wide ones.
        direct: Whether this is the dead network of an ohmmeter.
    """

    singles: Columns
    states: Positions
    base: Numbers
    changed: Numbers
    touches: Mask
    groups: tuple[Group, ...]
    cuts: tuple[Cut, ...]
    wide: Index
    direct: bool

    @property
    def layout(self) -> Layout:
        """The network's shape."""
        return self.singles.layout


def admittances(made: Columns, states: Positions, direct: bool = False) -> Numbers:
    """Admittance of every branch in every state, shape (B, S, C); `direct` as an ohmmeter finds them."""
    layout, columns = made.layout, states.shape[1]
    pinned = made.pinned[:, :, None]
    stands = np.where(pinned == UNPINNED, states[:, None, :], pinned).reshape(len(states), made.count * columns)
    conducts = layout.conducts(stands).reshape(-1, made.count, columns)
    conducts = (conducts | made.forced_closed[:, :, None]) & ~made.forced_open[:, :, None]
    siemens: Real | Complex = (layout.conductance if direct else layout.admittance)(made.branch_scale, made.added_ohm)
    return np.asarray(np.where(conducts, siemens[:, :, None], 0.0))


def together(singles: Columns, first: Index, second: Index) -> Columns:
    """Both of two single faults in each column."""
    one, other = singles.take(first), singles.take(second)
    return Columns(
        singles.layout,
        one.forced_open | other.forced_open,
        one.forced_closed | other.forced_closed,
        one.added_ohm + other.added_ohm,
        one.branch_scale * other.branch_scale,
        np.where(other.pinned == UNPINNED, one.pinned, other.pinned),
        one.pole_scale * other.pole_scale,
        one.source_scale * other.source_scale,
    )


def suspects(singles: Columns, states: Positions, *, direct: bool = False, like: Suspects | None = None) -> Suspects:
    """Work out what every single fault changes in every base column, and group the faults.

    Args:
        singles: The faults, one column each.
        states: Position of every variable in each base column, shape (V, C).
        direct: For the dead network of an ohmmeter.
        like: The same faults worked out for other base columns; how they are grouped is taken from there.

    Raises:
        CircuitError: The network has floating sources, transformers or one-way branches, which need another path.
    """
    layout = singles.layout
    if not layout.network.plain:
        raise CircuitError(
            "Pairs of faults are shared out only where nothing floats on a source and all conducts both ways.",
            "Solve such a network column by column.",
        )
    sound = admittances(columns(layout, [()]), states, direct)[:, 0]
    touches = _touches(singles) if like is None else like.touches
    changed = _changed(singles, states, sound, touches, direct)
    if like is not None:
        return replace(like, states=states, base=sound, changed=changed, direct=direct)
    groups, wide = grouped(singles, touches)
    return Suspects(singles, states, sound, changed, touches, groups, make_cuts(layout, groups), wide, direct)


def _changed(made: Columns, states: Positions, sound: Numbers, touches: Mask, direct: bool) -> Numbers:
    """As `admittances`, worked out only where a fault touches a branch."""
    layout = made.layout
    changed = np.repeat(sound[:, None], made.count, axis=1)
    branch, fault = np.nonzero(touches)
    conducts = layout.conducts(states)[branch]
    for one in np.flatnonzero((made.pinned != UNPINNED).any(axis=0)):
        pins = made.pinned[:, [one]]
        mine = fault == one
        conducts[mine] = layout.conducts(np.where(pins == UNPINNED, states, pins))[branch[mine]]
    conducts = (conducts | made.forced_closed[branch, fault, None]) & ~made.forced_open[branch, fault, None]
    siemens: Real | Complex = (layout.conductance if direct else layout.admittance)(made.branch_scale, made.added_ohm)
    changed[branch, fault] = np.where(conducts, siemens[branch, fault, None], 0.0)
    return changed


def _touches(made: Columns) -> Mask:
    """What a fault could change, even if only together with another one, shape (B, S)."""
    touches = made.forced_open | made.forced_closed | (made.added_ohm != 0) | (made.branch_scale != 1)
    variables = list(made.layout.positions)
    for row, branch in enumerate(made.layout.network.branches):
        named = {variable for alternative in branch.condition for variable, _ in alternative}
        rows = [variables.index(variable) for variable in named]
        touches[row] |= (made.pinned[rows] != UNPINNED).any(axis=0)
    return np.asarray(touches)

"""One variant of a network, read in the plainest way: no arrays, no plan, no sharing with the engine's own reading.

What may live here: patches, conditions and positions turned into a list of numbers, for the references that the engine
is compared with. Two spellings of one meaning are wanted: a slip in the engine's must not slip into the reference.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from halfsplit.circuit import Branch, Network, Patch, Settled


@dataclass(frozen=True, slots=True)
class Conductor:
    """A branch that conducts in one variant: ohm, henry and farad as they stand there."""

    name: str
    a: str
    b: str
    ohm: float
    henry: float
    farad: float


def positions_of(settled: Settled, column: int) -> dict[str, str]:
    """Position of every variable in one settled column, by name."""
    layout = settled.columns.layout
    return {name: layout.positions[name][settled.state[row, column]] for name, row in layout.variable_index.items()}


def conductors(
    network: Network, patches: Sequence[Patch], positions: Mapping[str, str], *, dead: bool = False
) -> list[Conductor]:
    """Every branch that conducts, with a fault's patches applied; `dead` means direct current, cold."""
    found = []
    for branch in network.branches:
        done = [patch for patch in patches if patch.target == branch.name]
        if _conducts(branch, done, positions):
            added = sum(patch.value for patch in done if patch.action == "series")
            if dead:
                cold = branch.ohm if branch.dc_ohm is None else branch.dc_ohm
                found.append(Conductor(branch.name, branch.a, branch.b, cold + added, 0.0, 0.0))
            else:
                ohm = branch.ohm + added
                found.append(Conductor(branch.name, branch.a, branch.b, ohm, branch.henry, branch.farad))
    return found


def pole_volts(network: Network, patches: Sequence[Patch]) -> dict[str, complex]:
    """Volts of every pole, with a fault's patches applied."""
    volts = {pole.point: pole.volts for pole in network.poles}
    for patch in patches:
        if patch.action == "scale":
            volts[patch.target] *= patch.value
    return volts


def _conducts(branch: Branch, done: Sequence[Patch], positions: Mapping[str, str]) -> bool:
    actions = {patch.action for patch in done}
    if "open" in actions:
        return False
    if "closed" in actions:
        return True
    return any(all(positions[name] in allowed for name, allowed in both) for both in branch.condition)

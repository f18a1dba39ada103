"""Small networks for the unit tests of the circuit room: 120 V between the points L and N, and what is put between."""

from __future__ import annotations

from collections.abc import Sequence

from halfsplit.circuit import Branch, Drive, Layout, Network, Patch, Pole, Settled, Step, Threshold, columns, replay

LINE, NEUTRAL = "L", "N"
COIL_OHM = 1200.0


def network(
    branches: Sequence[Branch], drives: Sequence[Drive] = (), variables: dict[str, tuple[str, ...]] | None = None
) -> Network:
    """A network on 120 V; every free point gets a stray to N, as a sheet would give it."""
    held = {LINE, NEUTRAL}
    free = dict.fromkeys(end for branch in branches for end in (branch.a, branch.b) if end not in held)
    strays = [Branch(f"stray {point}", point, NEUTRAL, 1e10, farad=30e-12) for point in free]
    poles = (Pole(LINE, 120.0), Pole(NEUTRAL, 0.0))
    return Network(60.0, (*branches, *strays), poles, tuple(drives), variables or {})


def settle(made_of: Network, steps: tuple[Step, ...] = (), *variants: Sequence[Patch]) -> Settled:
    """Replay the steps on one column for each variant; on the sound network alone when there is none."""
    return replay(columns(Layout(made_of), variants or ((),)), steps)


def stands(settled: Settled, column: int = 0) -> dict[str, str]:
    """Position of every variable in a column."""
    layout = settled.columns.layout
    rows = layout.variable_index.items()
    return {name: layout.positions[name][settled.state[row, column]] for name, row in rows}


def relay(name: str, coil: str, delay_s: float = 0.01, pull_in: float = 80.0, drop_out: float = 40.0) -> Drive:
    """A relay that pulls in and drops out by the volts of its coil."""
    return Drive(name, ((Threshold(coil, "volts", pull_in),),), (Threshold(coil, "volts", drop_out),), delay_s)

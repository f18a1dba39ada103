"""A sheet laid out for comparison: sound and under every single fault side by side, and what ngspice makes of each.

What may live here: what the comparisons of the built-in sheets and of the tiny ones share.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit import (
    Columns,
    Layout,
    Patch,
    Settled,
    columns,
    replay,
    spice,
)
from halfsplit.circuit.meter import pair_impedances
from halfsplit.circuit.starmesh import reduce
from halfsplit.predict import lifted_wires, switch_steps
from halfsplit.techsheet import Machine
from tests.oracle.ngspice import Vectors, run_decks

Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Bench:
    """A machine laid out once: column 0 is sound, column k has the k-th fault."""

    machine: Machine
    variants: tuple[tuple[Patch, ...], ...]
    made: Columns
    names: tuple[str, ...]

    def settled(self, setup: str) -> Settled:
        """All columns in a setup; wires that it lifts are off throughout."""
        off = self.lifted(setup)
        made = columns(self.made.layout, [(*off, *patches) for patches in self.variants]) if off else self.made
        return replay(made, switch_steps(self.machine.setups[setup]))

    def lifted(self, setup: str) -> tuple[Patch, ...]:
        """What the wires that a setup lifts come to."""
        return tuple(Patch("open", wire) for wire in sorted(lifted_wires(self.machine.setups[setup])))

    def where(self, off: Flags) -> list[str]:
        """Points and faults of a table of shape (N, S), in words."""
        points = self.made.layout.points
        return [f"{points[row]} with {self.names[column]}" for row, column in np.argwhere(off)]


def lay_out(machine: Machine) -> Bench:
    """The bench of a machine."""
    variants = ((), *(fault.patches for fault in machine.faults.values()))
    return Bench(machine, variants, columns(Layout(machine.network), variants), ("sound", *machine.faults))


_STRAY_OHM = 100e3
ASKED, PHASORS = 1e-3, 1e-4
"""0.1 % or 1 mV is asked. Phasors are kept ten times closer where no supply floats: what remains is ngspice's own
cancellation between a wire's 100 S and the 1e-8 S of a stray, or for direct current the 1e-10 S of an insulation."""


def differs(ours: NDArray[np.complex128], theirs: NDArray[np.complex128], limit: float = PHASORS) -> Flags:
    """Whether two tables of volts are apart by more than a share of theirs, or by as many volts."""
    return np.asarray(np.abs(ours - theirs) > np.maximum(limit * np.abs(theirs), limit))


def where_it_differs(bench: Bench, ngspice: Path, folder: Path) -> list[str]:
    """Every point of every setup and fault with another phasor, or other direct volts where something feeds them.

    All setups go to ngspice at once: many faults stand in many of them as the same network, which is solved once.
    """
    settled = {setup: bench.settled(setup) for setup in bench.machine.setups}
    fed = any(source.direct for source in bench.machine.network.sources)
    kinds: tuple[Literal["ac", "direct"], ...] = ("ac", "direct") if fed else ("ac",)
    asked = [(setup, kind) for setup in settled for kind in kinds]
    every = range(bench.made.count)
    decks = [spice(settled[setup], column, analysis=kind) for setup, kind in asked for column in every]
    answers = run_decks(ngspice, decks, folder)
    limit = PHASORS if bench.machine.network.plain else ASKED
    wrong = []
    for number, (setup, kind) in enumerate(asked):
        half = settled[setup].solution.halves[0]
        theirs = _nodes(settled[setup], answers[number * len(every) : (number + 1) * len(every)])
        ours = half.volts if kind == "ac" or half.steady is None else half.steady.astype(np.complex128)
        off = differs(ours, theirs, limit)
        wrong += [f"{setup}, {kind}: {place}" for place in bench.where(off)]
    return wrong


def _nodes(settled: Settled, answers: list[Vectors]) -> NDArray[np.complex128]:
    points = range(len(settled.columns.layout.points))
    return np.array([[answer[f"v(n{number})"][0] for answer in answers] for number in points])


def over_a_cycle(settled: Settled, column: int = 0) -> NDArray[np.float64]:
    """Mean, RMS and AC-coupled RMS of every point against the reference in one column, shape (3, N)."""
    layout = settled.columns.layout
    every = np.arange(len(layout.points))
    earth = next(row for row, pole in enumerate(layout.network.poles) if pole.volts == 0)
    wave = settled.solution.volts_between(every, np.full_like(every, earth))
    return np.stack([wave.mean[:, column], wave.rms[:, column], wave.ac[:, column]])


def over_a_cycle_in(vectors: Vectors, points: int) -> NDArray[np.float64]:
    """The same from ngspice's transient."""
    time = vectors["time"].real
    volts = np.stack([vectors[f"v(n{row})"] for row in range(points)]).real
    cycle = time[-1] - time[0]
    mean = np.trapezoid(volts, time, axis=1) / cycle
    rms = np.sqrt(np.trapezoid(volts**2, time, axis=1) / cycle)
    return np.stack([mean, rms, np.sqrt(np.maximum(rms**2 - mean**2, 0.0))])


def on_strays(settled: Settled, column: int) -> Flags:
    """Which points have nothing but strays (over 100 kΩ) behind them in a half of the cycle, shape (N,)."""
    layout = settled.columns.layout
    earth = next(row for row, pole in enumerate(layout.network.poles) if pole.volts == 0)
    pairs = np.array([(row, earth) for row in range(len(layout.points))])
    found = np.zeros(len(layout.points), dtype=bool)
    for half in settled.solution.halves:
        reduced = reduce(layout.plan, layout.points, half.admittance[:, [column]])
        found |= np.abs(pair_impedances(layout.basis, reduced, pairs)[:, 0]) > _STRAY_OHM
    return found

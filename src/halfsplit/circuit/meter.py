"""The meter: what it shows between two points, or around one branch.

A pair of points is a Thévenin source: open-circuit volts V and impedance Z. A voltmeter of impedance M shows
|V · M / (M + Z)|; an ohmmeter sees the resistance of the dead network. Meters (common practice, no source): 10 MΩ
across 100 pF is left out, as the trade's meters quote 10 MΩ; a low-impedance input is 3 kΩ; ohms read OL above 40 MΩ.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.columns import Solution, solve
from halfsplit.circuit.settle import Settled
from halfsplit.circuit.starmesh import pair_impedances

Real = NDArray[np.float64]
HIGH_IMPEDANCE_OHM = 10e6
LOW_IMPEDANCE_OHM = 3e3
OHM_RANGE = 40e6

Pairs = tuple[tuple[str, str], ...]


def read_volts(settled: Settled, pairs: Pairs, meter_ohm: float) -> Real:
    """Volts a meter of `meter_ohm` shows between each pair, shape (pairs, S)."""
    solution = settled.solution
    index = _indices(solution, pairs)
    volts = np.stack([solution.volts[a] - solution.volts[b] for a, b in index])
    source = pair_impedances(solution.reduced, index)
    return np.asarray(np.abs(volts * meter_ohm / (meter_ohm + source)))


def read_ohms(settled: Settled, pairs: Pairs) -> Real:
    """Ohms of the dead network between each pair, shape (pairs, S); infinity where the meter shows OL."""
    dead = solve(settled.columns, settled.state, dead=True)
    ohms = pair_impedances(dead.reduced, _indices(dead, pairs)).real
    return np.where(ohms > OHM_RANGE, np.inf, np.maximum(ohms, 0.0))


def read_amps(settled: Settled, branches: tuple[str, ...]) -> Real:
    """Amps a clamp around each branch shows, shape (branches, S)."""
    return np.stack([np.abs(settled.solution.through(name)) for name in branches])


def _indices(solution: Solution, pairs: Pairs) -> list[tuple[int, int]]:
    index = solution.layout.point_index
    return [(index[a], index[b]) for a, b in pairs]

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
    return read_volts_loaded(settled, (settled.solution,), pairs, meter_ohm)[0]


def read_volts_loaded(settled: Settled, solutions: tuple[Solution, ...], pairs: Pairs, meter_ohm: float) -> Real:
    """Volts in each of several slightly moved `solutions` of one settled state, shape (solutions, pairs, S).

    The source impedance is that of the settled state throughout: it moves too little to matter for a spread.
    """
    index = _indices(settled.solution, pairs)
    loading = meter_ohm / (meter_ohm + pair_impedances(settled.solution.reduced, index))
    first, second = (np.array(ends, dtype=np.intp) for ends in zip(*index, strict=True))
    return np.stack([np.abs((moved.volts[first] - moved.volts[second]) * loading) for moved in solutions])


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

"""The meter: what it shows between two points, or around one branch.

A pair of points is a Thévenin source: open-circuit volts V and impedance Z. A voltmeter of impedance M shows
|V · M / (M + Z)|; an ohmmeter sees the resistance of the dead network. Meters (common practice, no source): 10 MΩ
across 100 pF is left out, as the trade's meters quote 10 MΩ; a low-impedance input is 3 kΩ; ohms read OL above 40 MΩ.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.columns import Indices, Solution, solve
from halfsplit.circuit.settle import Settled
from halfsplit.circuit.starmesh import pair_impedances
from halfsplit.errors import CircuitError

Real = NDArray[np.float64]
HIGH_IMPEDANCE_OHM = 10e6
LOW_IMPEDANCE_OHM = 3e3
OHM_RANGE = 40e6

Pairs = tuple[tuple[str, str], ...]


def read_volts(settled: Settled, pairs: Pairs, meter_ohm: float) -> Real:
    """Volts a meter of `meter_ohm` shows between each pair, shape (pairs, S).

    Raises:
        CircuitError: The network has no such point.
    """
    return np.asarray(read_volts_loaded(settled, (settled.solution,), pairs, meter_ohm)[0])


def read_volts_loaded(settled: Settled, solutions: tuple[Solution, ...], pairs: Pairs, meter_ohm: float) -> Real:
    """Volts in each of several slightly moved `solutions` of one settled state, shape (solutions, pairs, S).

    The source impedance is that of the settled state throughout: it moves too little to matter for a spread.

    Raises:
        CircuitError: The network has no such point.
    """
    ends = _ends(settled.solution, pairs)
    loading = meter_ohm / (meter_ohm + pair_impedances(settled.solution.reduced, ends))
    first, second = ends.T
    return np.stack([np.abs((moved.volts[first] - moved.volts[second]) * loading) for moved in solutions])


def read_ohms(settled: Settled, pairs: Pairs) -> Real:
    """Ohms of the dead network between each pair, shape (pairs, S); infinity where the meter shows OL.

    Raises:
        CircuitError: The network has no such point.
    """
    dead = solve(settled.columns, settled.state, dead=True)
    ohms = pair_impedances(dead.reduced, _ends(dead, pairs)).real
    return np.where(ohms > OHM_RANGE, np.inf, ohms)


def read_amps(settled: Settled, branches: tuple[str, ...]) -> Real:
    """Amps a clamp around each branch shows, shape (branches, S).

    Raises:
        CircuitError: The network has no such branch.
    """
    index = settled.columns.layout.branch_index
    unknown = [name for name in branches if name not in index]
    if unknown:
        raise CircuitError(f"There is nothing called {unknown[0]!r} to put a clamp around.")
    rows = np.array([index[name] for name in branches], dtype=np.intp)
    layout, volts = settled.columns.layout, settled.solution.volts
    across = volts[layout.a[rows]] - volts[layout.b[rows]]
    return np.asarray(np.abs(across * settled.solution.admittance[rows]))


def _ends(solution: Solution, pairs: Pairs) -> Indices:
    """Numbers of the two points of each pair, shape (pairs, 2)."""
    index = solution.layout.point_index
    unknown = [point for pair in pairs for point in pair if point not in index]
    if unknown:
        raise CircuitError(f"There is no point {unknown[0]!r} to put a probe on.")
    return np.array([(index[a], index[b]) for a, b in pairs], dtype=np.intp).reshape(-1, 2)

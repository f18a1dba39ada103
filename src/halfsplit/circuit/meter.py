"""The meter: what it shows between two points, or around one branch.

A pair of points is a Thévenin source: open-circuit volts V and impedance Z. A voltmeter of impedance M shows
|V · M / (M + Z)|; an ohmmeter sees the resistance of the dead network, a diode conducting only if the current that
comes out of its red probe can pass. Meters (common practice, no source): 10 MΩ
across 100 pF is left out, as the trade's meters quote 10 MΩ; a low-impedance input is 3 kΩ; ohms read OL above 40 MΩ.
"""

from __future__ import annotations

from itertools import product

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.columns import Columns, Indices, Layout, Mask, Positions
from halfsplit.circuit.ports import Basis, fed
from halfsplit.circuit.settle import Settled
from halfsplit.circuit.solution import Part, Solution, Wave
from halfsplit.circuit.solve import reduce_dead
from halfsplit.circuit.starmesh import Numbers, Reduced, batches, pass_dipoles, reduce, volts_of_dipoles
from halfsplit.errors import CircuitError

Real = NDArray[np.float64]
HIGH_IMPEDANCE_OHM = 10e6
LOW_IMPEDANCE_OHM = 3e3
OHM_RANGE = 40e6
_MOST_ONE_WAY = 6
"""Above this the states of all diodes are too many to try each for every pair."""

Pairs = tuple[tuple[str, str], ...]


def read_volts(settled: Settled, pairs: Pairs, meter_ohm: float) -> Real:
    """AC-coupled volts a meter of `meter_ohm` shows between each pair, shape (pairs, S).

    Raises:
        CircuitError: The network has no such point.
    """
    return read_waves(settled, (settled.solution,), pairs, meter_ohm)[0].ac


def read_volts_loaded(settled: Settled, solutions: tuple[Solution, ...], pairs: Pairs, meter_ohm: float) -> Real:
    """AC-coupled volts in each of several slightly moved `solutions`, shape (solutions, pairs, S): see `read_waves`."""
    return np.stack([wave.ac for wave in read_waves(settled, solutions, pairs, meter_ohm)])


def read_waves(settled: Settled, solutions: tuple[Solution, ...], pairs: Pairs, meter_ohm: float) -> tuple[Wave, ...]:
    """Volts, red probe at the first point, in each of several slightly moved `solutions` of one settled state.

    Each wave has parts of shape (pairs, S). The source impedance is that of the settled state throughout: it moves too
    little to matter for a spread.

    Raises:
        CircuitError: The network has no such point.
    """
    layout = settled.columns.layout
    ends = _ends(layout, pairs)
    first, second = ends.T
    loading = []
    for half in settled.solution.halves:
        phasor = _share(layout, half.admittance, ends, meter_ohm)
        steady = None if half.conductance is None else _share(layout, half.conductance, ends, meter_ohm)
        loading.append((phasor, np.ones(phasor.shape) if steady is None else steady.real))
    return tuple(_loaded(moved.volts_between(first, second), loading) for moved in solutions)


def _share(layout: Layout, siemens: Numbers, ends: Indices, meter_ohm: float) -> Numbers:
    """What a meter leaves of the volts between each pair, shape (pairs, S)."""
    reduced = reduce(layout.plan, layout.points, siemens)
    return np.asarray(meter_ohm / (meter_ohm + pair_impedances(_basis(layout, siemens), reduced, ends)))


def _loaded(wave: Wave, loading: list[tuple[Numbers, Real]]) -> Wave:
    parts = zip(wave.parts, loading, strict=True)
    return Wave(tuple(Part(part.sign, part.phasor * swing, part.steady * still) for part, (swing, still) in parts))


def _basis(layout: Layout, siemens: Numbers) -> Basis:
    return layout.direct_basis if siemens.dtype == np.float64 else layout.basis


def pair_impedances(basis: Basis, reduced: Reduced, pairs: Indices) -> Numbers:
    """Impedance seen between each pair of points (pairs, 2) with everything held at 0 V, ohm, shape (pairs, S)."""
    found = []
    for batch in batches(reduced, len(pairs)):
        amps, impedance = pass_dipoles(reduced, pairs[batch])
        found.append(impedance + fed(basis, reduced, amps[: len(basis.body)])[0])
    return np.concatenate(found) if found else np.zeros((0, reduced.totals.shape[1]))


def read_ohms(settled: Settled, pairs: Pairs, most: float = OHM_RANGE) -> Real:
    """Ohms of the dead network, red probe at the first point, shape (pairs, S); infinity above `most`, which is OL.

    Raises:
        CircuitError: The network has no such point, or too many one-way branches.
    """
    made, layout = settled.columns, settled.columns.layout
    ends = _ends(layout, pairs)
    if len(layout.one_way):
        ohms = _one_way_ohms(made, settled.state, ends)
    else:
        ohms = pair_impedances(layout.direct_basis, reduce_dead(made, settled.state), ends).real
    return np.where(ohms > most, np.inf, ohms)


def _one_way_ohms(made: Columns, state: Positions, ends: Indices) -> Real:
    """Every state of the diodes is solved; each pair takes the one its own current allows."""
    layout = made.layout
    many = len(layout.one_way)
    if many > _MOST_ONE_WAY:
        raise CircuitError(f"{many} parts conduct one way only.", f"Ohms are worked out for up to {_MOST_ONE_WAY}.")
    ohms = np.full((len(ends), made.count), np.nan)
    for states in product((False, True), repeat=many):
        on = np.array(states)[:, None]
        reduced = reduce_dead(made, state, np.broadcast_to(on, (many, made.count)))
        for batch in batches(reduced, len(ends)):
            found, allowed = _ohms_and_allowed(layout, reduced, ends[batch], on)
            ohms[batch] = np.where(np.isnan(ohms[batch]) & allowed, found, ohms[batch])
    return ohms


def _ohms_and_allowed(layout: Layout, reduced: Reduced, ends: Indices, on: Mask) -> tuple[Real, Mask]:
    """Ohms of each pair with the diodes as they stand, and whether they may stand so, both of shape (pairs, S)."""
    basis = layout.direct_basis
    amps, ohms = pass_dipoles(reduced, ends)
    more, held = fed(basis, reduced, amps[: len(basis.body)])
    volts = volts_of_dipoles(reduced, amps, held)
    forward = volts[layout.a[layout.one_way]] - volts[layout.b[layout.one_way]]
    allowed = np.where(on[:, :, None], forward >= 0, forward <= 0).all(axis=0)
    return np.asarray((ohms + more).real, dtype=np.float64), np.asarray(allowed)


def read_amps(settled: Settled, branches: tuple[str, ...]) -> Real:
    """Amps a clamp around each branch shows (it does not see direct current), shape (branches, S).

    Raises:
        CircuitError: The network has no such branch.
    """
    index = settled.columns.layout.branch_index
    unknown = [name for name in branches if name not in index]
    if unknown:
        raise CircuitError(f"There is nothing called {unknown[0]!r} to put a clamp around.")
    amps = [settled.solution.amps_through(name).ac for name in branches]
    return np.stack(amps) if amps else np.zeros((0, settled.columns.count))


def _ends(layout: Layout, pairs: Pairs) -> Indices:
    """Numbers of the two points of each pair, shape (pairs, 2)."""
    index = layout.point_index
    unknown = [point for pair in pairs for point in pair if point not in index]
    if unknown:
        raise CircuitError(f"There is no point {unknown[0]!r} to put a probe on.")
    return np.array([(index[a], index[b]) for a, b in pairs], dtype=np.intp).reshape(-1, 2)

"""Meters at scale show what `read_volts` shows in each column by itself."""

from __future__ import annotations

import numpy as np

from bench.networks import Bench, base_states, invented
from halfsplit.circuit import (
    HIGH_IMPEDANCE_OHM,
    LOW_IMPEDANCE_OHM,
    Layout,
    Patch,
    Settled,
    columns,
    pair_sources,
    read_volts,
    solve,
    suspects,
)

METERS = (HIGH_IMPEDANCE_OHM, LOW_IMPEDANCE_OHM)


def _ends(layout: Layout, count: int) -> np.ndarray:
    choose = np.random.default_rng(4)
    return np.array([choose.choice(len(layout.points), 2, replace=False) for _ in range(count)])


def _agree(machine: Bench) -> int:
    layout = Layout(machine.network)
    states = base_states(machine, layout)
    ends = _ends(layout, 25)
    names = tuple((layout.points[a], layout.points[b]) for a, b in ends)
    compared = 0
    for found in pair_sources(suspects(columns(layout, machine.faults), states), ends):
        variants = [
            machine.faults[one] if one == other else (*machine.faults[one], *machine.faults[other])
            for one, other in zip(found.first, found.second, strict=True)
        ]
        made = columns(layout, variants)
        state = states[:, found.base]
        settled = Settled(made, state, solve(made, state), {})
        shown = found.shown(METERS)
        for meter, row in zip(METERS, shown, strict=True):
            np.testing.assert_allclose(row.T, read_volts(settled, names, meter), rtol=1e-9, atol=1e-9)
        compared += len(variants)
    return compared


def test_both_meters_show_the_same_at_every_pair_of_points_under_every_pair_of_faults() -> None:
    assert _agree(invented(16, 20, seed=4)) == 20 * 21 // 2 * 8


def test_low_legs_are_told_as_one_by_one() -> None:
    machine = invented(14, 12, seed=8)
    low = tuple((Patch("scale", leg, value),) for leg in ("L1", "L2") for value in (0.0, 0.8))
    assert _agree(Bench(machine.network, (*machine.faults, *low), machine.setups)) == 16 * 17 // 2 * 8

"""What the bench measures are answers to one question: every peer gives the volts that the engine gives."""

from __future__ import annotations

import numpy as np
import pytest

from bench.peers import batched, loaded, loop
from bench.scale import METERS, Case, every_pair, in_turn, make_case, sample, volts
from bench.settling import settle_all, settle_loop
from bench.spice import InProcess, by_program, deck
from halfsplit.circuit import columns, conducting, replay
from halfsplit.circuit.meter import pair_impedances
from halfsplit.circuit.starmesh import point_volts, reduce
from tests.conftest import missing

COUNT = 6


@pytest.fixture(scope="module")
def tiny() -> Case:
    return make_case(14, 24)


@pytest.fixture(scope="module")
def ours(tiny: Case) -> np.ndarray:
    task, _ = sample(tiny, COUNT)
    return point_volts(reduce(tiny.layout.plan, tiny.layout.points, task.siemens), task.held).T


def test_dense_numpy_one_by_one_and_batched_gives_the_same_volts(tiny: Case, ours: np.ndarray) -> None:
    task, _ = sample(tiny, COUNT)
    # Dense doubles lose digits to the strays; a wrong stamp would show as volts.
    np.testing.assert_allclose(loop(task), ours, rtol=0, atol=0.05)
    np.testing.assert_allclose(batched(task), loop(task), rtol=0, atol=0.05)


def test_an_inverse_for_each_column_gives_the_same_readings(tiny: Case) -> None:
    task, _ = sample(tiny, COUNT)
    ends = np.array([(0, 5), (4, 9), (3, 2)])
    shown = loaded(task, ends, METERS)
    reduced = reduce(tiny.layout.plan, tiny.layout.points, task.siemens)
    volts = point_volts(reduced, task.held)
    ohms = pair_impedances(tiny.layout.basis, reduced, ends)
    for number, meter in enumerate(METERS):
        expected = np.abs((volts[ends[:, 0]] - volts[ends[:, 1]]) * (meter / (meter + ohms)))
        np.testing.assert_allclose(shown[:, number], expected.T, rtol=0, atol=0.05)


def test_ngspice_told_to_alter_gives_the_same_volts(tiny: Case, ours: np.ndarray) -> None:
    _, changes = sample(tiny, COUNT)
    lines = deck(tiny.layout, conducting(columns(tiny.layout, [()]), tiny.states[:, -1:])[:, 0])
    live = int(np.abs(ours[-1, 3:]).argmax()) + 3
    seconds, shown = by_program(tiny.layout, lines, changes, live)
    assert seconds > 0
    assert shown == pytest.approx(abs(ours[-1, live]), abs=0.05)


def test_ngspice_in_this_process_gives_the_same_volts_variant_after_variant(tiny: Case, ours: np.ndarray) -> None:
    _, changes = sample(tiny, COUNT)
    lines = deck(tiny.layout, conducting(columns(tiny.layout, [()]), tiny.states[:, -1:])[:, 0])
    try:
        inside = InProcess(tiny.layout, lines)
    except OSError:
        missing("libngspice is not installed; comparing with ngspice in this process needs it")
    for change, expected in zip(changes, ours, strict=True):
        inside.solve(change)
        found = [inside.volts(point) for point in range(3, len(expected))]
        np.testing.assert_allclose(found, expected[3:], rtol=0, atol=0.05)
    inside.forget()
    assert inside.sweep(10) > 0


def test_a_run_of_the_bench_covers_every_pair_and_every_peer(tiny: Case) -> None:
    assert every_pair(tiny) == tiny.count == 24 * 25 // 2 * 8
    spreads = volts(tiny, runs=2)
    assert {"ours", "writing the answer into fresh memory", "numpy, one by one", "numpy, batched"} <= set(spreads)
    assert all(0 < spread.least <= spread.median <= spread.greatest for spread in spreads.values())
    assert set(in_turn({"nothing": (lambda: None, 1)}, runs=1)) == {"nothing"}


def test_the_settling_loop_comes_to_rest_where_replay_does() -> None:
    case = make_case(14, 20, seed=2, drives=3)
    variants = [(faults, steps) for faults in case.machine.faults[::3] for steps in case.machine.setups]
    for found, (patches, steps) in zip(settle_loop(case.layout, variants), variants, strict=True):
        settled = replay(columns(case.layout, [patches]), steps)
        if not settled.chatters:
            np.testing.assert_array_equal(found, settled.state[:, 0])
    assert settle_all(case.singles, case.machine.setups) == case.count

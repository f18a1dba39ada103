"""What the meter shows."""

from __future__ import annotations

import numpy as np
import pytest

from halfsplit.circuit import (
    Branch,
    Layout,
    Network,
    Patch,
    Pole,
    at_rest,
    columns,
    read_amps,
    read_ohms,
    read_volts,
    read_volts_loaded,
    solve,
)
from halfsplit.errors import CircuitError
from tests.unit.circuit.small import LINE, NEUTRAL, network, settle

DIVIDER = network((Branch("upper", LINE, "middle", 3e3), Branch("lower", "middle", NEUTRAL, 3e3)))


def test_a_voltmeter_loads_what_it_reads() -> None:
    settled = settle(DIVIDER)
    shown = [read_volts(settled, (("middle", NEUTRAL),), ohm)[0, 0] for ohm in (1e12, 3e3)]
    assert shown == pytest.approx([60.0, 40.0], rel=1e-5)


def test_readings_come_pair_by_pair_and_column_by_column() -> None:
    settled = settle(DIVIDER, (), (), (Patch("open", "lower"),))
    shown = read_volts(settled, ((LINE, NEUTRAL), (LINE, "middle")), 3e3)
    assert shown == pytest.approx(np.array([[120.0, 120.0], [40.0, 0.0]]), abs=0.01)


def test_ohms_are_those_of_the_dead_network_with_the_supply_at_rest() -> None:
    # Both poles stand at 0 V, so a supply that is still joined is a short in parallel: 3 kΩ on each side.
    assert read_ohms(settle(DIVIDER), (("middle", NEUTRAL),)) == pytest.approx(np.array([[1500.0]]), rel=1e-6)


def test_ohms_above_40_megohm_are_shown_as_open() -> None:
    made_of = network((Branch("a", "p", "q", 39e6), Branch("b", "r", "s", 41e6)))
    assert read_ohms(settle(made_of), (("p", "q"), ("r", "s")))[:, 0] == pytest.approx([39e6, np.inf], rel=1e-2)


def test_both_probes_on_one_point_read_nothing() -> None:
    settled = settle(DIVIDER)
    assert read_volts(settled, (("middle", "middle"),), 3e3)[0, 0] == 0.0
    assert read_ohms(settled, (("middle", "middle"),))[0, 0] == 0.0


def test_two_poles_alone_can_be_read() -> None:
    bare = Network(60.0, (Branch("load", LINE, NEUTRAL, 10.0),), (Pole(LINE, 120.0), Pole(NEUTRAL, 0.0)))
    settled = settle(bare, (), (), (Patch("scale", LINE, 0.5),))
    assert read_volts(settled, ((LINE, NEUTRAL),), 3e3).tolist() == [[120.0, 60.0]]
    assert read_ohms(settled, ((LINE, NEUTRAL),)).tolist() == [[0.0, 0.0]]
    assert read_amps(settled, ("load",)).tolist() == [[12.0, 6.0]]


def test_no_pairs_are_no_readings() -> None:
    settled = settle(DIVIDER, (), (), ())
    assert read_volts(settled, (), 3e3).shape == (0, 2)
    assert read_ohms(settled, ()).shape == (0, 2)
    assert read_amps(settled, ()).shape == (0, 2)


def test_many_pairs_read_as_they_do_alone() -> None:
    rungs = [Branch(f"rung {row}", f"p{row}", f"p{row + 1}", 1.0 + row) for row in range(40)]
    settled = settle(network(rungs), (), *[()] * 3000)
    pairs = tuple((f"p{row}", f"p{row + 1}") for row in range(40))
    together = read_ohms(settled, pairs)
    assert together.shape == (40, 3000)
    assert together[:, 0].tolist() == [read_ohms(settled, (pair,))[0, 0] for pair in pairs]


def test_a_clamp_shows_amps_without_a_sign() -> None:
    assert read_amps(settle(DIVIDER), ("upper", "lower"))[:, 0] == pytest.approx([0.02, 0.02], rel=1e-6)


def test_moved_solutions_are_read_through_the_settled_source() -> None:
    settled = at_rest(columns(Layout(DIVIDER), [()]))
    raised = settled.columns.repeat([(np.ones(len(DIVIDER.branches)), np.array([1.1, 1.0]))])
    shown = read_volts_loaded(settled, (settled.solution, solve(raised, settled.state)), (("middle", NEUTRAL),), 3e3)
    assert shown == pytest.approx(np.array([[[40.0]], [[44.0]]]), rel=1e-5)


def test_a_probe_on_an_unknown_point_is_named() -> None:
    settled = settle(DIVIDER)
    with pytest.raises(CircuitError) as on_volts:
        read_volts(settled, ((LINE, "moon"),), 3e3)
    with pytest.raises(CircuitError) as on_ohms:
        read_ohms(settled, ((LINE, NEUTRAL), ("moon", LINE)))
    assert str(on_volts.value) == str(on_ohms.value) == "There is no point 'moon' to put a probe on."


def test_a_clamp_around_an_unknown_branch_is_named() -> None:
    with pytest.raises(CircuitError) as caught:
        read_amps(settle(DIVIDER), ("upper", "moon"))
    assert str(caught.value) == "There is nothing called 'moon' to put a clamp around."

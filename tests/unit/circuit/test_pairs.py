"""All pairs of faults by shared eliminations: the same volts as solving them one by one, each pair once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import pytest

from bench.networks import Bench, base_states, invented
from halfsplit.circuit import (
    Block,
    Columns,
    Layout,
    Patch,
    Source,
    columns,
    pair_volts,
    solve,
    suspects,
)
from halfsplit.circuit.columns import UNPINNED
from halfsplit.errors import CircuitError

SMALL = invented(18, 24, seed=3)


def _singles(machine: Bench, faults: Iterable[tuple[Patch, ...]]) -> Columns:
    return columns(Layout(machine.network), tuple(faults))


def _one_by_one(machine: Bench, faults: tuple[tuple[Patch, ...], ...], block: Block) -> np.ndarray:
    variants = [
        faults[one] if one == other else (*faults[one], *faults[other])
        for one, other in zip(block.first, block.second, strict=True)
    ]
    layout = Layout(machine.network)
    made = columns(layout, variants)
    states = base_states(machine, layout)[:, block.base]
    return solve(made, np.where(made.pinned == UNPINNED, states, made.pinned)).volts.T


def _blocks(machine: Bench, faults: tuple[tuple[Patch, ...], ...]) -> list[Block]:
    singles = _singles(machine, faults)
    return list(pair_volts(suspects(singles, base_states(machine, singles.layout))))


def _agree(machine: Bench, faults: tuple[tuple[Patch, ...], ...]) -> None:
    blocks = _blocks(machine, faults)
    for block in blocks:
        np.testing.assert_allclose(block.volts, _one_by_one(machine, faults, block), rtol=0, atol=1e-11)
    met = [
        (int(base), *sorted((int(one), int(other))))
        for block in blocks
        for base, one, other in zip(block.base, block.first, block.second, strict=True)
    ]
    every = [(base, one, other) for base in range(8) for other in range(len(faults)) for one in range(other + 1)]
    assert sorted(met) == sorted(every)


def test_every_pair_and_every_single_fault_has_the_volts_that_solving_it_alone_gives() -> None:
    _agree(SMALL, SMALL.faults)


def test_larger_machines_agree_too() -> None:
    machine = invented(40, 60, seed=5)
    _agree(machine, machine.faults)


def test_faults_that_pin_one_switch_stand_together_and_the_second_wins_as_it_does_elsewhere() -> None:
    pins = tuple((Patch("pin", "door", position=at),) for at in ("on", "off"))
    both = ((Patch("pin", "knob", position="on"),), (Patch("pin", "start", position="on"),))
    _agree(SMALL, (*pins, *both, *SMALL.faults[:6]))


def test_a_fault_that_touches_many_points_goes_the_plain_way() -> None:
    names = [branch.name for branch in SMALL.network.branches if branch.name.startswith("wire")]
    burnt = tuple(Patch("open", name) for name in names[:7])
    flooded = tuple(Patch("series", name, 3.0) for name in names[2:12])
    faults = (burnt, *SMALL.faults[:8], flooded)
    assert len(suspects(_singles(SMALL, faults), base_states(SMALL, Layout(SMALL.network))).wide) == 2
    _agree(SMALL, faults)


def test_faults_that_move_a_leg_combine_with_all_others() -> None:
    legs = tuple((Patch("scale", leg, value),) for leg in ("L1", "L2") for value in (0.0, 0.9))
    also_opens = ((Patch("scale", "L1", 0.5), Patch("open", "wire 3")),)
    _agree(SMALL, (*SMALL.faults[:7], *legs, *also_opens))


def test_a_single_fault_that_moves_a_leg_moves_it_in_all_its_pairs() -> None:
    wires = tuple(fault for fault in SMALL.faults if fault[0].action != "scale")
    _agree(SMALL, ((Patch("scale", "L1", 0.5),), *wires))


def test_a_fault_without_effect_is_no_trouble() -> None:
    _agree(SMALL, ((), *SMALL.faults[:5], (Patch("scale", "L1", 1.0),)))


def test_only_the_points_asked_for_are_worked_out() -> None:
    singles = _singles(SMALL, SMALL.faults)
    made = suspects(singles, base_states(SMALL, singles.layout))
    rows = np.array([9, 4])
    for few, all_of_them in zip(pair_volts(made, rows), pair_volts(made), strict=True):
        np.testing.assert_allclose(few.volts, all_of_them.volts[:, rows], rtol=0, atol=1e-11)


def test_a_point_that_floats_under_some_pair_is_an_error() -> None:
    bare = replace(SMALL.network, branches=tuple(b for b in SMALL.network.branches if not b.name.startswith("stray")))
    machine = replace(SMALL, network=bare)
    with pytest.raises(CircuitError, match="floats"):
        _blocks(machine, SMALL.faults)


def test_a_network_that_floats_on_a_source_is_refused_with_a_word_on_what_to_do() -> None:
    floating = replace(SMALL.network, sources=(Source("battery", "p0", "p1", direct=9.0),))
    with pytest.raises(CircuitError, match="column by column"):
        suspects(columns(Layout(floating), [()]), np.zeros((3, 1), dtype=np.int8))

"""All pairs settled abreast come to rest where `replay` brings each of them, and chatter where it says they chatter."""

from __future__ import annotations

import numpy as np
import pytest

from bench.networks import Bench, invented
from halfsplit.circuit import Branch, Layout, Patch, Threshold, columns, replay, settle_pairs, when
from halfsplit.circuit.network import NO, YES, Drive
from halfsplit.errors import CircuitError
from tests.unit.circuit.small import network, relay


def _same_as_replay(machine: Bench) -> int:
    """Compare every pair in every setup; how many columns moved some contact."""
    layout = Layout(machine.network)
    made = settle_pairs(columns(layout, machine.faults), machine.setups)
    variants = [
        machine.faults[one] if one == other else (*machine.faults[one], *machine.faults[other])
        for one, other in zip(made.first, made.second, strict=True)
    ]
    drives = [layout.variable_index[drive.name] for drive in machine.network.drives]
    points = np.arange(len(layout.points))
    moved = 0
    for setup, steps in enumerate(machine.setups):
        settled = replay(columns(layout, variants), steps)
        np.testing.assert_array_equal(made.state[:, setup], settled.state)
        mine = {pair: names for (at, pair), names in made.chatters.items() if at == setup}
        assert mine == settled.chatters
        volts = made.volts(points, [setup])[0]
        np.testing.assert_allclose(volts.T, settled.solution.volts, rtol=0, atol=1e-10)
        moved += int((settled.state[drives] == 1).any(axis=0).sum())
    return moved


@pytest.mark.parametrize("seed", [2, 7])
def test_contacts_that_follow_loads_come_to_rest_as_one_by_one(seed: int) -> None:
    assert _same_as_replay(invented(16, 20, seed, drives=4)) > 20


def test_pins_and_low_legs_and_a_bell_that_rings_are_told_alike() -> None:
    bell = network(
        [
            Branch("coil", "b", "N", 1200.0),
            Branch("contact", "a", "b", 0.05, condition=when("bell", NO)),
            Branch("button", "L", "a", 0.05, condition=when("button", "pressed")),
            Branch("lamp", "a", "c", 240.0, condition=when("lamp", "on")),
            Branch("return", "c", "N", 0.1),
        ],
        [relay("bell", "coil"), Drive("lamp lit", ((Threshold("lamp", "volts", 60.0),),), None, 0.5)],
        {"button": ("free", "pressed"), "lamp": ("off", "on")},
    )
    faults = (
        (),
        (Patch("open", "coil"),),
        (Patch("pin", "bell", position=NO),),
        (Patch("pin", "bell", position=YES),),
        (Patch("pin", "lamp", position="on"),),
        (Patch("scale", "L", 0.5),),
        (Patch("closed", "contact"),),
        (Patch("series", "return", 240.0),),
    )
    press = (("button", "pressed"),)
    setups = ((), press, (("lamp", "on"), ("button", "pressed"), ("button", "free")))
    machine = Bench(bell, faults, setups)
    assert _same_as_replay(machine) > 0
    made = settle_pairs(columns(Layout(bell), faults), setups)
    assert made.chatters[1, 0] == ("bell",)


def test_without_faults_or_contacts_nothing_is_amiss() -> None:
    machine = invented(12, 6, 1)
    assert _same_as_replay(machine) == 0


def test_a_setting_that_is_not_there_is_named() -> None:
    machine = invented(12, 6, 1)
    with pytest.raises(CircuitError, match="'lid'"):
        settle_pairs(columns(Layout(machine.network), machine.faults), ((("lid", "open"),),))

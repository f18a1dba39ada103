"""Star-mesh elimination against nodal analysis: all of the dryer with numpy, samples and hard cases with 50 digits.

The dense solve in doubles is itself off by up to a millivolt on the dryer (measured against the decimals), so it can
only catch gross mistakes; the decimals hold the engine to a ten-millionth of a microvolt.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Mapping
from decimal import Decimal
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.circuit import (
    Branch,
    Layout,
    Network,
    Patch,
    Pole,
    at_rest,
    columns,
    read_ohms,
    read_volts,
    replay,
)
from halfsplit.techsheet import load_machine
from tests.oracle.dense import Big, dense_volts, exact_ohms, exact_volts
from tests.oracle.plain import conductors, pole_volts, positions_of

DRYER = load_machine("dryer")
VARIANTS: tuple[tuple[Patch, ...], ...] = ((), *(fault.patches for fault in DRYER.faults.values()))
MADE = columns(Layout(DRYER.network), VARIANTS)
SEED = 20260102


@pytest.mark.parametrize("setup", DRYER.setups)
def test_the_whole_dryer_agrees_with_a_dense_solve_to_ten_millivolts(setup: str) -> None:
    settled = replay(MADE, DRYER.setups[setup].steps)
    alive = [
        conductors(DRYER.network, patches, positions_of(settled, column)) for column, patches in enumerate(VARIANTS)
    ]
    poles = [pole_volts(DRYER.network, patches) for patches in VARIANTS]
    dense = dense_volts(MADE.layout.points, alive, poles, DRYER.network.hertz)
    assert np.abs(settled.solution.volts - dense).max() < 1e-2


@pytest.mark.parametrize("setup", DRYER.setups)
def test_the_dryer_under_two_faults_at_once_is_right_to_fifty_digits(setup: str) -> None:
    choose = random.Random(f"{SEED} {setup}")
    pairs = [choose.sample(sorted(DRYER.faults), 2) for _ in range(6)]
    variants = [tuple(patch for name in pair for patch in DRYER.faults[name].patches) for pair in pairs]
    settled = replay(columns(MADE.layout, variants), DRYER.setups[setup].steps)
    for column, patches in enumerate(variants):
        alive = conductors(DRYER.network, patches, positions_of(settled, column))
        exact = exact_volts(MADE.layout.points, alive, pole_volts(DRYER.network, patches), DRYER.network.hertz)
        assert _worst(MADE.layout.points, settled.solution.volts[:, column], exact) < 1e-11


def test_dead_ohms_of_the_dryer_are_right_to_fifty_digits() -> None:
    choose = random.Random(SEED)
    settled = replay(MADE, DRYER.setups["dead"].steps)
    chosen = choose.sample(range(len(VARIANTS)), 5)
    ends = [(one.a, one.b) for one in DRYER.elements] + [(wire.a, wire.b) for wire in DRYER.wires.values()]
    pairs = tuple(choose.sample(ends, 20))
    ours = read_ohms(settled, pairs)
    poles = [pole.point for pole in DRYER.network.poles]
    for column in chosen:
        alive = conductors(DRYER.network, VARIANTS[column], positions_of(settled, column), dead=True)
        for row, pair in enumerate(pairs):
            exact = float(exact_ohms(MADE.layout.points, alive, poles, pair))
            assert ours[row, column] == (pytest.approx(exact, rel=1e-12) if exact <= 40e6 else np.inf)


@pytest.mark.parametrize("number", range(30))
def test_a_string_with_two_opens_microohm_wires_and_femtofarad_strays_is_right_to_fifty_digits(number: int) -> None:
    choose = random.Random(SEED + number)
    network = _hard_string(choose)
    opens = choose.sample([branch.name for branch in network.branches if branch.name.startswith("wire")], 2)
    patches = tuple(Patch("open", name) for name in opens)
    settled = at_rest(columns(Layout(network), [patches]))
    points = settled.columns.layout.points
    exact = exact_volts(points, conductors(network, patches, {}), pole_volts(network, patches), network.hertz)
    assert _worst(points, settled.solution.volts[:, 0], exact) < 1e-11


def test_a_microohm_in_a_string_that_floats_on_femtofarads_is_read_to_twelve_digits() -> None:
    choose = random.Random(SEED)
    network = _hard_string(choose)
    patches = (Patch("open", "wire 0"), Patch("open", "wire 19"))
    settled = at_rest(columns(Layout(network), [patches]))
    wires = [branch for branch in network.branches if branch.name.startswith("wire")][1:19]
    ours = read_ohms(settled, tuple((wire.a, wire.b) for wire in wires))
    alive = conductors(network, patches, {}, dead=True)
    exact = [float(exact_ohms(settled.columns.layout.points, alive, ["hot", "earth"], (w.a, w.b))) for w in wires]
    assert list(ours[:, 0]) == pytest.approx(exact, rel=1e-12)


@pytest.mark.parametrize("quality", [10.0, 1e3, 1e5])
def test_a_resonant_circuit_loses_no_more_digits_than_its_quality_explains(quality: float) -> None:
    omega, henry = 2 * np.pi * 60.0, 1.0
    network = Network(
        60.0,
        (
            Branch("feed", "hot", "coil", 0.1 * omega * henry / quality),
            Branch("coil", "coil", "capacitor", omega * henry / quality, henry),
            Branch("capacitor", "capacitor", "earth", 1e9, farad=1 / (omega**2 * henry)),
        ),
        (Pole("hot", 120.0), Pole("earth", 0.0)),
    )
    settled = at_rest(columns(Layout(network), [()]))
    points = settled.columns.layout.points
    exact = exact_volts(points, conductors(network, (), {}), pole_volts(network, ()), network.hertz)
    # Near resonance the reactances cancel to 1/quality of themselves, and the volts grow by as much.
    assert _worst(points, settled.solution.volts[:, 0], exact) < 1e-13 * quality**2
    shown = read_volts(settled, (("capacitor", "earth"),), 1e9)[0, 0]
    alive = [*conductors(network, (), {}), *conductors(_meter_alone(1e9), (), {})]
    loaded = exact_volts(points, alive, pole_volts(network, ()), network.hertz)["capacitor"]
    assert shown == pytest.approx(float((loaded[0] ** 2 + loaded[1] ** 2).sqrt()), rel=1e-14 * quality**2)


def _hard_string(choose: random.Random) -> Network:
    """Twenty wires from 120 V to earth, a load across three, every point on a stray to a cabinet on its own stray.

    On these the dense solve in doubles is off by up to 16 V.
    """
    names = ["hot", *(f"p{row}" for row in range(19)), "earth"]
    wires = [Branch(f"wire {row}", a, b, 10.0 ** choose.uniform(-6, 0)) for row, (a, b) in enumerate(pairwise(names))]
    hanging = [(point, "cabinet") for point in names[1:-1]] + [("cabinet", "earth")]
    strays = [Branch(f"stray {a}", a, b, 1e15, farad=10.0 ** choose.uniform(-15, -10)) for a, b in hanging]
    load = Branch("load", "p8", "p11", 10.0)
    return Network(60.0, (*wires, load, *strays), (Pole("hot", 120.0), Pole("earth", 0.0)))


def _meter_alone(ohm: float) -> Network:
    return Network(60.0, (Branch("meter", "capacitor", "earth", ohm),), (Pole("earth", 0.0),))


def _worst(points: Iterable[str], ours: NDArray[np.inexact[Any]], exact: Mapping[str, Big]) -> float:
    """Largest difference, volts, taken in decimals so that the comparison itself loses nothing."""
    worst = Decimal(0)
    for point, volts in zip(points, ours.tolist(), strict=True):
        real, imaginary = exact[point]
        worst = max(worst, abs(Decimal(volts.real) - real), abs(Decimal(volts.imag) - imaginary))
    return float(worst)

"""Circuits whose answers are printed elsewhere, or follow from Ohm's law with a pencil.

Source words: **S** seen in the source named (often in a secondary print of it), **M** from memory, **C** computed
apart from this project. Tolerance: half a unit of the last digit given. A battery becomes a pole at a real phasor: with
resistances alone, direct and alternating current have the same answers.

Kuphaldt: Tony R. Kuphaldt, "Lessons in Electric Circuits", Design Science License; edition not recorded. His answers
were also computed with lcapy.

Not here: the same book's charging of 100 µF through 10 kΩ. It is a transient, and this engine knows the steady state
only; the same exponential is held in `test_heat`.
"""

from __future__ import annotations

import cmath
import math

import pytest

from halfsplit.circuit import (
    HIGH_IMPEDANCE_OHM,
    LOW_IMPEDANCE_OHM,
    Branch,
    Layout,
    Network,
    Patch,
    Pole,
    Settled,
    at_rest,
    columns,
    read_amps,
    read_volts,
)


def _settled(branches: tuple[Branch, ...], poles: dict[str, complex], patches: tuple[Patch, ...] = ()) -> Settled:
    network = Network(60.0, branches, tuple(Pole(point, volts) for point, volts in poles.items()))
    return at_rest(columns(Layout(network), [patches]))


def _volts(settled: Settled, point: str) -> complex:
    layout = settled.columns.layout
    return complex(settled.solution.volts[layout.point_index[point], 0])


def _bridge(volts: float, ohms: tuple[float, float, float, float, float]) -> Settled:
    """Corners 1 (top), 2, 3 and 0; R1 1-2, R2 1-3, R3 2-3, R4 2-0, R5 3-0."""
    ends = (("1", "2"), ("1", "3"), ("2", "3"), ("2", "0"), ("3", "0"))
    branches = tuple(Branch(f"R{row + 1}", a, b, ohm) for row, ((a, b), ohm) in enumerate(zip(ends, ohms, strict=True)))
    return _settled(branches, {"1": volts, "0": 0.0})


def test_an_unbalanced_bridge_on_24_volts() -> None:
    # Kuphaldt, S and C: 17.655 V, 19.310 V, battery 0.136092 A.
    settled = _bridge(24.0, (150.0, 50.0, 100.0, 300.0, 250.0))
    assert _volts(settled, "2") == pytest.approx(17.655, abs=0.0005)
    assert _volts(settled, "3") == pytest.approx(19.310, abs=0.0005)
    battery = settled.solution.through("R1") + settled.solution.through("R2")
    assert abs(battery[0]) == pytest.approx(0.136092, abs=0.0000005)


def test_a_bridge_on_10_volts() -> None:
    # Kuphaldt, S and C: 5.294 V and 4.706 V.
    settled = _bridge(10.0, (12.0, 18.0, 6.0, 18.0, 12.0))
    assert _volts(settled, "2") == pytest.approx(5.294, abs=0.0005)
    assert _volts(settled, "3") == pytest.approx(4.706, abs=0.0005)


def test_two_parallel_pairs_in_series() -> None:
    # Kuphaldt, S and C: 8.627 V, 15.373 V, 120.78 mA.
    settled = _settled(
        (
            Branch("R1", "top", "middle", 100.0),
            Branch("R2", "top", "middle", 250.0),
            Branch("R3", "middle", "0", 350.0),
            Branch("R4", "middle", "0", 200.0),
        ),
        {"top": 24.0, "0": 0.0},
    )
    assert settled.solution.across("R1")[0] == pytest.approx(8.627, abs=0.0005)
    assert settled.solution.across("R3")[0] == pytest.approx(15.373, abs=0.0005)
    total = settled.solution.through("R3") + settled.solution.through("R4")
    assert abs(total[0]) * 1e3 == pytest.approx(120.78, abs=0.005)


def test_a_meter_of_10_megohm_pulls_down_a_divider_of_250_megohm() -> None:
    # Kuphaldt, S and C: 0.8889 V, not 12 V.
    settled = _settled(
        (Branch("upper", "top", "middle", 250e6), Branch("lower", "middle", "0", 250e6)), {"top": 24.0, "0": 0.0}
    )
    assert _volts(settled, "middle") == pytest.approx(12.0)
    assert read_volts(settled, (("middle", "0"),), 10e6)[0, 0] == pytest.approx(0.8889, abs=0.00005)


def _two_loads(second_leg: complex) -> Settled:
    """Two loads of 10 kW at 120 V, each on its own leg, with a neutral of a nano-ohm to read the current of."""
    ohm = 120.0**2 / 10e3
    branches = (
        Branch("first", "A", "star", ohm),
        Branch("second", "B", "star", ohm),
        Branch("neutral", "star", "N", 1e-9),
    )
    return _settled(branches, {"A": 120.0, "B": second_leg, "N": 0.0})


def test_two_equal_loads_on_120_and_240_leave_nothing_in_the_neutral() -> None:
    # Kuphaldt, S and C: 83.33 A each, neutral 0.
    settled = _two_loads(-120.0)
    amps = read_amps(settled, ("first", "second", "neutral"))[:, 0]
    assert amps == pytest.approx([83.33, 83.33, 0.0], abs=0.005)
    assert read_volts(settled, (("A", "B"),), HIGH_IMPEDANCE_OHM)[0, 0] == pytest.approx(240.0, abs=0.5)


def test_two_equal_loads_on_two_legs_of_a_wye_load_the_neutral_as_much_as_a_leg() -> None:
    # Kuphaldt, S and C: 208 V between the legs, 83.33 A in the neutral.
    settled = _two_loads(cmath.rect(120.0, math.radians(-120.0)))
    amps = read_amps(settled, ("first", "second", "neutral"))[:, 0]
    assert amps == pytest.approx([83.33, 83.33, 83.33], abs=0.005)
    assert read_volts(settled, (("A", "B"),), HIGH_IMPEDANCE_OHM)[0, 0] == pytest.approx(208.0, abs=0.5)


@pytest.mark.parametrize(
    ("ohms", "volts", "amps", "digits"),
    [
        ((144.0, 72.0), (160.0, 80.0), 1.111, 0.0005),  # C
        ((12.0, 48.0), (48.0, 192.0), 4.0, 0.0005),  # C; the current by Ohm's law from the same numbers
    ],
)
def test_an_open_neutral_shares_240_volts_by_resistance(
    ohms: tuple[float, float], volts: tuple[float, float], amps: float, digits: float
) -> None:
    branches = (
        Branch("first", "L1", "star", ohms[0]),
        Branch("second", "star", "L2", ohms[1]),
        Branch("neutral", "star", "N", 0.05),
    )
    settled = _settled(branches, {"L1": 120.0, "L2": -120.0, "N": 0.0}, (Patch("open", "neutral"),))
    shown = read_volts(settled, (("L1", "star"), ("star", "L2")), 1e12)[:, 0]
    assert shown == pytest.approx(volts, abs=0.05)
    assert read_amps(settled, ("first", "second", "neutral"))[:, 0] == pytest.approx([amps, amps, 0.0], abs=digits)


@pytest.mark.parametrize(
    ("farad", "high", "low"),
    [(100e-12, 42.33, 0.014), (500e-12, 106.01, 0.068), (1e-9, 115.99, 0.136)],  # C
)
def test_a_ghost_voltage_stands_on_10_megohm_and_falls_on_3_kilohm(farad: float, high: float, low: float) -> None:
    """120 V, 60 Hz, through the capacitance of a cable to a wire that is joined to nothing."""
    settled = _settled((Branch("cable", "hot", "loose wire", 1e15, farad=farad),), {"hot": 120.0, "0": 0.0})
    pair = (("loose wire", "0"),)
    assert read_volts(settled, pair, HIGH_IMPEDANCE_OHM)[0, 0] == pytest.approx(high, abs=0.005)
    assert read_volts(settled, pair, LOW_IMPEDANCE_OHM)[0, 0] == pytest.approx(low, abs=0.0005)


def test_the_meters_are_those_of_the_ghost_table() -> None:
    assert (HIGH_IMPEDANCE_OHM, LOW_IMPEDANCE_OHM) == (10e6, 3e3)

"""What meters of different kinds show of one voltage, as printed elsewhere.

Source words: **S** seen in the source named, **M** from memory, **C** computed apart from this project. Ghost voltages
and the divider of 250 MΩ are in `test_circuits.py`.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from halfsplit.circuit import Branch, Layout, Network, Pole, Wave, at_rest, columns, read_ohms, read_waves
from halfsplit.units import BEEP_OHM, BEEP_SPREAD_OHM

LOAD = (("k", "N"),)


def _half_waves(volts: float) -> Wave:
    diode = Branch("diode", "L", "k", 1e-3, one_way=True)
    load = Branch("load", "k", "N", 100.0)
    settled = at_rest(columns(Layout(Network(60.0, (diode, load), (Pole("L", volts), Pole("N", 0.0)))), [()]))
    return read_waves(settled, (settled.solution,), LOAD, 10e6)[0]


def test_half_waves_of_120_volts_on_three_settings_of_a_meter() -> None:
    # Kuphaldt, "Lessons in Electric Circuits" III, half-wave rectifier: average 0.318 of the peak (M); true RMS is half
    # the peak, and AC-coupled what the mean leaves of it: 54.02 V, 84.85 V, 65.44 V for 120 V (C).
    wave = _half_waves(120.0)
    peak = 120.0 * math.sqrt(2.0)
    assert wave.mean[0, 0] / peak == pytest.approx(0.318, abs=0.0005)
    assert wave.rms[0, 0] / peak == pytest.approx(0.5, abs=0.0001)
    assert [round(float(value[0, 0]), 2) for value in (wave.mean, wave.rms, wave.ac)] == [54.02, 84.85, 65.44]


def test_two_wattmeters_read_what_three_wires_deliver() -> None:
    # Blondel, "Measurements of the energy of polyphase currents", Chicago 1893 (M): against any one conductor the sum
    # of volts times amps is the whole power. 48 Ω and 24 Ω at 120 V, 57.6 Ω at 240 V: 300 + 600 + 1000 W (C).
    poles = (Pole("A", 120.0), Pole("B", -120.0), Pole("N", 0.0))
    leads = tuple(Branch(f"lead {end}", end, end.lower(), 1e-6) for end in "ABN")
    loads = (Branch("a", "a", "n", 48.0), Branch("b", "b", "n", 24.0), Branch("c", "a", "b", 57.6))
    settled = at_rest(columns(Layout(Network(60.0, (*leads, *loads), poles)), [()]))
    solution, index = settled.solution, settled.columns.layout.point_index

    def power(against: str) -> float:
        total = 0.0
        for end in "ABN":
            first, second = (np.array([index[point]]) for point in (end.lower(), against))
            volts = solution.volts_between(first, second, row=0)
            total += float(volts.mean_product(solution.amps_through(f"lead {end}"))[0])
        return total

    assert [power(against) for against in "abn"] == pytest.approx([1900.0] * 3, abs=0.01)


def test_a_continuity_tester_beeps_for_a_winding_and_not_for_a_relay_coil() -> None:
    # Common practice, no source: testers beep below 25 to 50 Ω.
    assert 25.0 <= BEEP_OHM <= 50.0
    assert BEEP_OHM - 2 * BEEP_SPREAD_OHM > 10.67  # 5.4 kW at 240 V beeps on any of them
    coil = Network(60.0, (Branch("coil", "a", "b", 900.0), Branch("stray", "a", "e", 1e10)), (Pole("e", 0.0),))
    assert read_ohms(at_rest(columns(Layout(coil), [()])), (("a", "b"),))[0, 0] > BEEP_OHM + 2 * BEEP_SPREAD_OHM

"""Floating supplies, transformers and direct current against ngspice, and diodes against its transients."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.circuit import Branch, Layout, Network, Patch, Pole, Settled, at_rest, columns, spice
from tests.oracle.floating import EARTH, LINE, NEUTRAL, control_transformer, diode, rail, with_strays
from tests.oracle.ngspice import Vectors, run_decks


def _settled(network: Network, *patches: Patch) -> Settled:
    return at_rest(columns(Layout(network), [patches]))


def _nodes(settled: Settled, vectors: Vectors) -> NDArray[np.complex128]:
    return np.stack([vectors[f"v(n{index})"] for index in range(len(settled.columns.layout.points))])


FLOATING = {
    "a rail that floats": rail(),
    "a rail with its back on neutral": rail(Branch("tie", "0V", NEUTRAL, 0.01)),
    "a rail with its plus on a live leg": rail(Branch("tie", "12V", LINE, 0.01)),
    "a rail with a ground fault on its plus": rail(
        Branch("tie", "0V", EARTH, 0.01), Branch("fault", "12V", EARTH, 3.0)
    ),
    "a secondary that floats": control_transformer(),
    "a secondary on earth": control_transformer(Branch("tie", "COM", EARTH, 0.01)),
    "a secondary with its hot side on earth": control_transformer(
        Branch("tie", "COM", EARTH, 0.01), Branch("fault", "24V", EARTH, 0.2)
    ),
    "two secondaries in a row": control_transformer(Branch("tie", "COM", "T1", 0.001)),
    "a secondary on the primary's line": control_transformer(Branch("tie", "COM", LINE, 0.001)),
}


@pytest.mark.parametrize("name", FLOATING)
def test_phasors_of_what_floats_are_those_of_ngspice(name: str, ngspice_path: Path, tmp_path: Path) -> None:
    settled = _settled(FLOATING[name])
    theirs = _nodes(settled, run_decks(ngspice_path, [spice(settled)], tmp_path)[0])[:, 0]
    ours = settled.solution.volts[:, 0]
    assert (np.abs(ours - theirs) <= np.maximum(1e-3 * np.abs(theirs), 1e-3)).all()


@pytest.mark.parametrize("name", [name for name in FLOATING if "rail" in name])
def test_direct_volts_are_those_of_ngspice(name: str, ngspice_path: Path, tmp_path: Path) -> None:
    settled = _settled(FLOATING[name])
    theirs = _nodes(settled, run_decks(ngspice_path, [spice(settled, analysis="direct")], tmp_path)[0])[:, 0].real
    steady = settled.solution.halves[0].steady
    assert steady is not None
    assert (np.abs(steady[:, 0] - theirs) <= np.maximum(1e-3 * np.abs(theirs), 1e-3)).all()


LEGS = (Pole(LINE, 120.0), Pole("L2", -120.0), Pole(NEUTRAL, 0.0), Pole(EARTH, 0.0))
HALF_WAVES = {
    "half a heater's power": with_strays((diode("valve", LINE, "top"), Branch("heater", "top", NEUTRAL, 14.4))),
    "the other way round": with_strays((diode("valve", "top", LINE), Branch("heater", "top", NEUTRAL, 14.4))),
    "a bridge": with_strays(
        (
            diode("D1", LINE, "plus"),
            diode("D2", NEUTRAL, "plus"),
            diode("D3", "minus", LINE),
            diode("D4", "minus", NEUTRAL),
            Branch("load", "plus", "minus", 200.0),
        )
    ),
    "two heaters that share a diode": with_strays(
        (
            Branch("bake", LINE, "middle", 16.0),
            Branch("broil", "middle", "L2", 19.0),
            diode("valve", "middle", NEUTRAL),
        ),
        poles=LEGS,
    ),
    "a lamp beside a diode": with_strays(
        (Branch("series", LINE, "top", 100.0), diode("valve", "top", NEUTRAL), Branch("lamp", "top", NEUTRAL, 220.0))
    ),
    "two diodes back to back": with_strays(
        (
            Branch("series", LINE, "top", 100.0),
            diode("one", "top", "low"),
            diode("other", "low", "top"),
            Branch("load", "low", NEUTRAL, 50.0),
        )
    ),
    "two legs to one load": with_strays(
        (diode("D1", LINE, "plus"), diode("D2", "L2", "plus"), Branch("load", "plus", NEUTRAL, 75.0)), poles=LEGS
    ),
    "a rail behind a diode on a live heater": rail(
        Branch("tie", "0V", NEUTRAL, 0.01), Branch("feed", LINE, "sensor", 47e3), diode("clamp", "sensor", "5V")
    ),
}


@pytest.mark.parametrize("name", HALF_WAVES)
def test_half_waves_are_those_of_ngspice_over_a_cycle(name: str, ngspice_path: Path, tmp_path: Path) -> None:
    """Within 3 % of the transient, or 0.2 V of what a diode's own formula leaves: mean, RMS and AC-coupled RMS."""
    settled = _settled(HALF_WAVES[name])
    vectors = run_decks(ngspice_path, [spice(settled, analysis="cycles")], tmp_path)[0]
    time, volts = vectors["time"].real, _nodes(settled, vectors).real
    cycle = time[-1] - time[0]
    mean = np.trapezoid(volts, time, axis=1) / cycle
    rms = np.sqrt(np.trapezoid(volts**2, time, axis=1) / cycle)
    layout = settled.columns.layout
    every = np.arange(len(layout.points))
    wave = settled.solution.volts_between(every, np.full_like(every, layout.point_index[EARTH]))
    for ours, theirs in ((wave.mean, mean), (wave.rms, rms), (wave.ac, np.sqrt(rms**2 - mean**2))):
        assert ours[:, 0] == pytest.approx(theirs, rel=0.03, abs=0.2)

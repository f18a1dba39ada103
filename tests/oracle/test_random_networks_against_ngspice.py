"""Two hundred random networks, each sound and under two faults, against ngspice; sixty with diodes against transients.

Asked: phasors and direct volts within 0.1 % or 1 mV; half waves within 3 %. What ngspice itself rounds away is said
where it counts.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.circuit import Branch, Network, Pole, spice
from tests.oracle.networks import EARTH, Case, cases, drawn, half_wave_cases
from tests.oracle.ngspice import run_decks

SEED, HALF_WAVE_SEED = 20260401, 20260411
NETWORKS, A_BATCH = 200, 50
HALF_WAVES = 60


@cache
def _networks() -> list[Case]:
    return drawn(cases(), SEED, NETWORKS)


@cache
def _half_waves() -> list[Case]:
    return drawn(half_wave_cases(), HALF_WAVE_SEED, HALF_WAVES)


def _off(ours: NDArray[np.complex128], theirs: NDArray[np.complex128]) -> NDArray[np.bool_]:
    return np.asarray(np.abs(ours - theirs) > np.maximum(1e-3 * np.abs(theirs), 1e-3))


@pytest.mark.parametrize("first", range(0, NETWORKS, A_BATCH))
def test_every_node_of_every_network_has_the_phasor_and_the_direct_volts_that_ngspice_finds(
    first: int, ngspice_path: Path, tmp_path: Path
) -> None:
    found = _networks()[first : first + A_BATCH]
    assert len(found) == A_BATCH
    settled = [case.settled() for case in found]
    swing = [spice(one, column) for one in settled for column in range(one.columns.count)]
    still = [spice(one, column, analysis="direct") for one in settled for column in range(one.columns.count)]
    answers = iter(run_decks(ngspice_path, [*swing, *still], tmp_path))
    wrong = []
    for analysis in ("ac", "direct"):
        for number, one in enumerate(settled):
            half, points = one.solution.halves[0], one.columns.layout.points
            ours = half.volts if analysis == "ac" else half.steady
            for column in range(one.columns.count):
                answer = next(answers)
                theirs = np.array([answer[f"v(n{row})"][0] for row in range(len(points))])
                mine = np.zeros(len(points)) if ours is None else ours[:, column]
                wrong += [(number, analysis, column, points[row]) for row in np.flatnonzero(_off(mine, theirs))]
    assert wrong == [], [found[number] for number in {item[0] for item in wrong}]


def test_half_waves_of_every_network_are_those_of_ngspice_over_a_cycle(ngspice_path: Path, tmp_path: Path) -> None:
    """Mean, RMS and AC-coupled RMS of every node within 3 % of the transient, or the 0.2 V of a diode's own formula."""
    found = _half_waves()
    assert len(found) == HALF_WAVES
    decks = [spice(case.settled(), analysis="cycles") for case in found]
    wrong = []
    for number, (case, vectors) in enumerate(zip(found, run_decks(ngspice_path, decks, tmp_path), strict=True)):
        ours, theirs = _ours(case), _theirs(case, vectors)
        off = np.abs(ours - theirs) > np.maximum(0.03 * np.abs(theirs), 0.2)
        wrong += [(number, row) for row in np.argwhere(off).tolist()]
    assert wrong == [], [found[number] for number in {item[0] for item in wrong}]


def _ours(case: Case) -> NDArray[np.float64]:
    settled = case.settled()
    layout = settled.columns.layout
    every = np.arange(len(layout.points))
    wave = settled.solution.volts_between(every, np.full_like(every, layout.point_index[EARTH]))
    return np.stack([wave.mean[:, 0], wave.rms[:, 0], wave.ac[:, 0]])


def _theirs(case: Case, vectors: dict[str, NDArray[np.complex128]]) -> NDArray[np.float64]:
    time = vectors["time"].real
    volts = np.stack([vectors[f"v(n{row})"] for row in range(len(case.network.points()))]).real
    cycle = time[-1] - time[0]
    mean = np.trapezoid(volts, time, axis=1) / cycle
    rms = np.sqrt(np.trapezoid(volts**2, time, axis=1) / cycle)
    return np.stack([mean, rms, np.sqrt(np.maximum(rms**2 - mean**2, 0.0))])


def test_one_percent_in_one_branch_would_be_found(ngspice_path: Path, tmp_path: Path) -> None:
    right = Network(
        60.0,
        (Branch("upper", "live", "middle", 100.0, 0.2), Branch("lower", "middle", EARTH, 150.0, farad=1e-5)),
        (Pole("live", 120.0), Pole(EARTH, 0.0)),
    )
    wrong = replace(right, branches=(replace(right.branches[0], henry=0.202), right.branches[1]))
    (answer,) = run_decks(ngspice_path, [spice(Case(right).settled())], tmp_path)
    theirs = np.array([answer[f"v(n{row})"][0] for row in range(len(right.points()))])
    assert not _off(Case(right).settled().solution.volts[:, 0], theirs).any()
    assert _off(Case(wrong).settled().solution.volts[:, 0], theirs).any()


def test_the_networks_drawn_have_everything_that_is_to_be_compared() -> None:
    found = _networks()
    branches = [branch for case in found for branch in case.network.branches]
    assert {case.network.hertz for case in found} == {50.0, 60.0}
    assert sum(bool(case.network.sources) for case in found) >= 60
    assert sum(bool(case.network.transformers) for case in found) >= 60
    assert sum(bool(np.abs(_ours(case)[0]).max() > 1.0) for case in _half_waves()) >= 30  # a diode that rectifies
    assert sum(branch.henry > 0 for branch in branches) >= 200
    assert sum(branch.farad > 1e-10 for branch in branches) >= 200
    assert {step[1] for case in found for step in case.steps} == {"off", "on"}
    assert {patch.action for case in found for faults in case.variants for patch in faults} == {
        "open",
        "closed",
        "series",
        "scale",
    }

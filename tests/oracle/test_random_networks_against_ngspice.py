"""Two hundred random networks, each sound and under two faults, against ngspice; sixty with diodes against transients.

Asked: phasors and direct volts within 0.1 % or 1 mV; half waves within 3 %.
"""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from halfsplit.circuit import Branch, Network, Pole, Settled, read_ohms, spice
from tests.oracle.networks import EARTH, LIVE, Case, cases, drawn, half_wave_cases
from tests.oracle.ngspice import run_decks
from tests.oracle.sheets import ASKED, differs, over_a_cycle, over_a_cycle_in

SEED, HALF_WAVE_SEED = 20260401, 20260411
NETWORKS, A_BATCH = 200, 50
HALF_WAVES = 60


@cache
def _networks() -> list[Case]:
    return drawn(cases(), SEED, NETWORKS)


@cache
def _half_waves() -> list[Case]:
    return drawn(half_wave_cases(), HALF_WAVE_SEED, HALF_WAVES)


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
                wrong += [
                    (number, analysis, column, points[row]) for row in np.flatnonzero(differs(mine, theirs, ASKED))
                ]
    assert wrong == [], [found[number] for number in {item[0] for item in wrong}]


def test_half_waves_of_every_network_are_those_of_ngspice_over_a_cycle(ngspice_path: Path, tmp_path: Path) -> None:
    """Mean, RMS and AC-coupled RMS of every node within 3 % of the transient, or the 0.2 V of a diode's own formula."""
    found = _half_waves()
    assert len(found) == HALF_WAVES
    decks = [spice(case.settled(), analysis="cycles") for case in found]
    wrong = []
    for number, (case, vectors) in enumerate(zip(found, run_decks(ngspice_path, decks, tmp_path), strict=True)):
        ours, theirs = over_a_cycle(case.settled()), over_a_cycle_in(vectors, len(case.network.points()))
        off = np.abs(ours - theirs) > np.maximum(0.03 * np.abs(theirs), 0.2)
        wrong += [(number, row) for row in np.argwhere(off).tolist()]
    assert wrong == [], [found[number] for number in {item[0] for item in wrong}]


def test_ohms_through_diodes_are_those_of_ngspice_in_both_polarities(ngspice_path: Path, tmp_path: Path) -> None:
    """A tenth of an ampere through a few pairs of every network, red probe first: within 3 % or 0.2 Ω.

    What remains is the drop of ngspice's diode, a twentieth of an ohm at that current.
    """
    choose, asked, ours, decks = random.Random(HALF_WAVE_SEED), [], [], []
    for case in _half_waves():
        settled = case.settled()
        number = settled.columns.layout.point_index
        free = [point for point in case.network.points() if point.startswith("p")]
        for red, black in (choose.sample([*free, LIVE, EARTH], 2) for _ in range(3)):
            asked += [(case, red, black), (case, black, red)]
            ours += read_ohms(settled, ((red, black), (black, red)))[:, 0].tolist()
            decks += [_ohms_deck(settled, number[a], number[b]) for a, b in ((red, black), (black, red))]
    answers = run_decks(ngspice_path, decks, tmp_path)
    theirs = [answer["v(red)"][0].real / _PROBE_AMPS for answer in answers]
    assert ours == pytest.approx(theirs, rel=0.03, abs=0.2)
    assert sum(ours[row] > 1.5 * ours[row + 1] for row in range(0, len(ours), 2)) >= 10  # polarity matters


_PROBE_AMPS = 0.1


def _ohms_deck(settled: Settled, red: int, black: int) -> str:
    """The deck for cycles with everything held at 0 V, and a current through the probes."""
    lines = spice(settled, analysis="cycles").split("\n.tran")[0].splitlines()
    still = [" ".join([*line.split()[:2], "0 DC 0"]) if line.startswith("V") else line for line in lines]
    probes = [f"IPROBE n{black} n{red} DC {_PROBE_AMPS}", f"EREAD red 0 n{red} n{black} 1", "RREAD red 0 1"]
    return "\n".join([*still, *probes, ".op", ".print op all", ".end", ""])


def test_one_percent_in_one_branch_would_be_found(ngspice_path: Path, tmp_path: Path) -> None:
    right = Network(
        60.0,
        (Branch("upper", "live", "middle", 100.0, 0.2), Branch("lower", "middle", EARTH, 150.0, farad=1e-5)),
        (Pole("live", 120.0), Pole(EARTH, 0.0)),
    )
    wrong = replace(right, branches=(replace(right.branches[0], henry=0.202), right.branches[1]))
    (answer,) = run_decks(ngspice_path, [spice(Case(right).settled())], tmp_path)
    theirs = np.array([answer[f"v(n{row})"][0] for row in range(len(right.points()))])
    assert not differs(Case(right).settled().solution.volts[:, 0], theirs).any()
    assert differs(Case(wrong).settled().solution.volts[:, 0], theirs, ASKED).any()


def test_the_networks_drawn_have_everything_that_is_to_be_compared() -> None:
    found = _networks()
    branches = [branch for case in found for branch in case.network.branches]
    assert {case.network.hertz for case in found} == {50.0, 60.0}
    assert sum(bool(case.network.sources) for case in found) >= 60
    assert sum(bool(case.network.transformers) for case in found) >= 60
    rectified = [np.abs(over_a_cycle(case.settled())[0]).max() for case in _half_waves()]
    assert sum(mean > 1.0 for mean in rectified) >= 30
    assert sum(branch.henry > 0 for branch in branches) >= 200
    assert sum(branch.farad > 1e-10 for branch in branches) >= 200
    assert {step[1] for case in found for step in case.steps} == {"off", "on"}
    assert {patch.action for case in found for faults in case.variants for patch in faults} == {
        "open",
        "closed",
        "series",
        "scale",
    }

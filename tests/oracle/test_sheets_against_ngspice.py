"""Every built-in sheet, sound and under every single fault, in every setup, against ngspice.

Live: every node's phasor, and its direct volts where something feeds them, from the decks that `spice` writes for the
user. Meter: the meter's resistor really in that deck. Dead: ohms from decks written here from the network itself, one
ampere passed through each pair in turn.
"""

from __future__ import annotations

import random
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from halfsplit.circuit import HIGH_IMPEDANCE_OHM, LOW_IMPEDANCE_OHM, OHM_RANGE, read_ohms, read_volts, spice
from halfsplit.predict import Predictor, is_dead
from halfsplit.techsheet import Machine, library_names, load_machine
from halfsplit.trade import NOTHING_WRONG
from tests.oracle.ngspice import run_decks
from tests.oracle.plain import Conductor, conductors, positions_of
from tests.oracle.sheets import Bench, differs, lay_out, nodes_that_differ

SEED = 20260101
METERED_A_SETUP = 20
STRANGE_PAIRS = 40
MACHINES = {name: load_machine(name) for name in library_names()}
SETUPS = [(sheet, setup) for sheet, machine in MACHINES.items() for setup in machine.setups]
PLAIN = [sheet for sheet, machine in MACHINES.items() if machine.network.plain]
"""What a meter makes of direct current and of half waves is held in tests/unit/circuit."""
BOTH_WAYS = [
    sheet for sheet, machine in MACHINES.items() if not any(branch.one_way for branch in machine.network.branches)
]
"""An ohmmeter's reading through a diode is held there too: one ampere is not what it passes."""


def _dead(sheet: str) -> list[str]:
    predictor = Predictor(MACHINES[sheet], (NOTHING_WRONG,))
    return [name for name, setup in MACHINES[sheet].setups.items() if is_dead(predictor, setup)]


DEAD = [(sheet, setup) for sheet in BOTH_WAYS for setup in _dead(sheet)]


@cache
def bench(sheet: str) -> Bench:
    """The bench of a sheet."""
    return lay_out(MACHINES[sheet])


@pytest.mark.parametrize(("sheet", "setup"), SETUPS)
def test_every_node_has_the_volts_that_ngspice_finds_under_every_fault(
    sheet: str, setup: str, ngspice_path: Path, tmp_path: Path
) -> None:
    off = nodes_that_differ(bench(sheet).settled(setup), ngspice_path, tmp_path)
    assert bench(sheet).where(off) == []


@pytest.mark.parametrize(("sheet", "setup"), [pair for pair in SETUPS if pair[0] in PLAIN])
def test_a_meter_shows_what_ngspice_finds_across_the_meters_own_resistance(
    sheet: str, setup: str, ngspice_path: Path, tmp_path: Path
) -> None:
    here, settled = bench(sheet), bench(sheet).settled(setup)
    number = settled.columns.layout.point_index
    choose = random.Random(f"{SEED} {setup}")
    cases, ours, decks = [], [], []
    for _ in range(METERED_A_SETUP):
        column = choose.randrange(here.made.count)
        red, black = choose.sample(here.machine.points, 2)
        meter = choose.choice((HIGH_IMPEDANCE_OHM, LOW_IMPEDANCE_OHM))
        ours.append(read_volts(settled, ((red, black),), meter)[0, column])
        resistor = f"RMETER n{number[red]} n{number[black]} {meter:.12g}"
        decks.append(spice(settled, column).replace(".ac ", f"{resistor}\n.ac ", 1))
        cases.append((red, black, meter, here.names[column]))
    answers = run_decks(ngspice_path, decks, tmp_path)
    ends = [(f"v(n{number[red]})", f"v(n{number[black]})") for red, black, _, _ in cases]
    theirs = [abs(answer[a][0] - answer[b][0]) for answer, (a, b) in zip(answers, ends, strict=True)]
    assert [cases[row] for row in np.flatnonzero(differs(np.array(ours), np.array(theirs)))] == []


@pytest.mark.parametrize(("sheet", "setup"), DEAD)
def test_dead_ohms_are_those_that_ngspice_finds_for_every_part_and_wire_under_every_fault(
    sheet: str, setup: str, ngspice_path: Path, tmp_path: Path
) -> None:
    here, settled = bench(sheet), bench(sheet).settled(setup)
    pairs = _pairs(here.machine)
    states = [positions_of(settled, column) for column in range(here.made.count)]
    alive = [
        conductors(here.machine.network, (*here.lifted(setup), *patches), state, dead=True)
        for patches, state in zip(here.variants, states, strict=True)
    ]
    number = settled.columns.layout.point_index
    answers = run_decks(ngspice_path, [_ohms_deck(here.machine, number, one, pairs) for one in alive], tmp_path)
    drops = [[answer[f"v(n{number[a]})"] - answer[f"v(n{number[b]})"] for a, b in pairs] for answer in answers]
    theirs = np.array(drops).diagonal(axis1=1, axis2=2).real.T  # the n-th point of the sweep feeds the n-th pair
    ours = read_ohms(settled, pairs)
    assert np.array_equal(np.isinf(ours), theirs > OHM_RANGE)
    shown, expected = np.where(np.isinf(ours), 0.0, ours), np.where(np.isinf(ours), 0.0, theirs)
    off = np.abs(shown - expected) > np.maximum(1e-3 * expected, 1e-3)
    assert [(pairs[row], here.names[column]) for row, column in np.argwhere(off)] == []


def test_every_sheet_is_compared_dead_and_the_dryer_in_every_way() -> None:
    assert {sheet for sheet, _ in DEAD} == {*BOTH_WAYS}
    assert "dryer" in PLAIN
    assert {setup for sheet, setup in DEAD if sheet == "dryer"} == {
        setup for setup in MACHINES["dryer"].setups if setup.startswith("dead")
    }


def _pairs(machine: Machine) -> tuple[tuple[str, str], ...]:
    """Both terminals of every element, both ends of every wire, and some pairs that no sheet names."""
    choose = random.Random(SEED)
    elements = [(element.a, element.b) for element in machine.elements]
    wires = [(wire.a, wire.b) for wire in machine.wires.values()]
    strange = [tuple(choose.sample(machine.points, 2)) for _ in range(STRANGE_PAIRS)]
    return tuple(dict.fromkeys((*elements, *wires, *((a, b) for a, b in strange))))


def _ohms_deck(
    machine: Machine, number: dict[str, int], alive: list[Conductor], pairs: tuple[tuple[str, str], ...]
) -> str:
    """One ampere into each pair in turn, picked by a voltage that the analysis sweeps; what is held stands at 0 V."""
    lines = ["* dead ohms"]
    lines += [f"V{row} n{number[pole.point]} 0 DC 0" for row, pole in enumerate(machine.network.poles)]
    held = zip(machine.network.held_pairs()[::2], machine.network.held_pairs()[1::2], strict=True)
    lines += [f"VH{row} n{number[high]} n{number[low]} DC 0" for row, (high, low) in enumerate(held)]
    lines += [f"R{row} n{number[one.a]} n{number[one.b]} {one.ohm:.15g}" for row, one in enumerate(alive)]
    lines.append("VPICK pick 0 DC 0")
    for row, (a, b) in enumerate(pairs):
        lines.append(f"B{row} n{number[b]} n{number[a]} I = abs(V(pick) - {row}) < 0.5 ? 1 : 0")
    return "\n".join([*lines, f".dc VPICK 0 {len(pairs) - 1} 1", ".end", ""])

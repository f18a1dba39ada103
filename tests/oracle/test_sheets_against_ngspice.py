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
from tests.oracle.sheets import Bench, differs, lay_out, where_it_differs

SEED = 20260101
METERED_A_SETUP = 10
STRANGE_PAIRS = 40
_A_SHARE = 8
MACHINES = {name: load_machine(name) for name in library_names()}
PLAIN = [sheet for sheet, machine in MACHINES.items() if machine.network.plain]
"""What a meter makes of direct current and of half waves is held in tests/unit/circuit."""
BOTH_WAYS = [
    sheet for sheet, machine in MACHINES.items() if not any(branch.one_way for branch in machine.network.branches)
]
"""An ohmmeter's reading through a diode is held there too: one ampere is not what it passes."""


def _dead(sheet: str) -> list[str]:
    predictor = Predictor(MACHINES[sheet], (NOTHING_WRONG,))
    return [name for name, setup in MACHINES[sheet].setups.items() if is_dead(predictor, setup)]


@cache
def bench(sheet: str) -> Bench:
    """The bench of a sheet."""
    return lay_out(MACHINES[sheet])


@pytest.mark.parametrize("sheet", MACHINES)
def test_every_node_has_the_volts_that_ngspice_finds_under_every_fault_in_every_setup(
    sheet: str, ngspice_path: Path, tmp_path: Path
) -> None:
    assert where_it_differs(bench(sheet), ngspice_path, tmp_path) == []


@pytest.mark.parametrize("sheet", PLAIN)
def test_a_meter_shows_what_ngspice_finds_across_the_meters_own_resistance(
    sheet: str, ngspice_path: Path, tmp_path: Path
) -> None:
    here, choose = bench(sheet), random.Random(f"{SEED} {sheet}")
    cases, ours, decks = [], [], []
    for setup in here.machine.setups:
        settled = here.settled(setup)
        number = settled.columns.layout.point_index
        for _ in range(METERED_A_SETUP):
            column = choose.randrange(here.made.count)
            red, black = choose.sample(here.machine.points, 2)
            meter = choose.choice((HIGH_IMPEDANCE_OHM, LOW_IMPEDANCE_OHM))
            ours.append(read_volts(settled, ((red, black),), meter)[0, column])
            resistor = f"RMETER n{number[red]} n{number[black]} {meter:.12g}"
            decks.append(spice(settled, column).replace(".ac ", f"{resistor}\n.ac ", 1))
            cases.append((setup, red, black, meter, here.names[column]))
    answers = run_decks(ngspice_path, decks, tmp_path)
    ends = [(f"v(n{number[red]})", f"v(n{number[black]})") for _, red, black, _, _ in cases]
    theirs = [abs(answer[a][0] - answer[b][0]) for answer, (a, b) in zip(answers, ends, strict=True)]
    assert [cases[row] for row in np.flatnonzero(differs(np.array(ours), np.array(theirs)))] == []


@pytest.mark.parametrize("sheet", BOTH_WAYS)
def test_dead_ohms_are_those_that_ngspice_finds_for_every_part_and_wire_under_every_fault(
    sheet: str, ngspice_path: Path, tmp_path: Path
) -> None:
    """Every fault in one dead setup, and in each of the others a share of them, other ones each time."""
    here, pairs = bench(sheet), _pairs(MACHINES[sheet])
    number = here.made.layout.point_index
    chosen, ours, decks = [], [], []
    for turn, setup in enumerate(_dead(sheet)):
        settled = here.settled(setup)
        columns = range(here.made.count) if turn == 0 else range(turn % _A_SHARE, here.made.count, _A_SHARE)
        read = read_ohms(settled, pairs)
        for column in columns:
            patches = (*here.lifted(setup), *here.variants[column])
            alive = conductors(here.machine.network, patches, positions_of(settled, column), dead=True)
            decks.append(_ohms_deck(here.machine, number, alive, pairs))
            chosen.append((setup, here.names[column]))
            ours.append(read[:, column])
    answers = run_decks(ngspice_path, decks, tmp_path)
    # The n-th point of the sweep feeds the n-th pair.
    ends = [(f"v(n{number[a]})", f"v(n{number[b]})") for a, b in pairs]
    theirs = np.array([[(answer[a] - answer[b])[row].real for row, (a, b) in enumerate(ends)] for answer in answers])
    shown = np.array(ours)
    assert np.array_equal(np.isinf(shown), theirs > OHM_RANGE)
    off = np.abs(np.where(np.isinf(shown), theirs, shown) - theirs) > np.maximum(1e-3 * theirs, 1e-3)
    assert [(chosen[row], pairs[column]) for row, column in np.argwhere(off)] == []


def test_every_sheet_is_compared_dead_and_the_dryer_in_every_way() -> None:
    assert all(_dead(sheet) for sheet in BOTH_WAYS)
    assert "dryer" in PLAIN
    assert _dead("dryer") == [setup for setup in MACHINES["dryer"].setups if setup.startswith("dead")]


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

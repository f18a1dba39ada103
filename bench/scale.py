"""All pairs of many faults in many setups: how long a column takes, against peers on columns of the same task.

Microseconds of processor time a column (one pair of faults in one setup); every figure is the median of several runs
with the least and the greatest; every peer is run in turn with ours, so that what else the machine does falls on all
of them. Peers solve a sample of the columns. One core: BLAS is held to one thread.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from bench.networks import Bench, base_states, invented
from bench.peers import Task, batched, loaded, loop
from bench.settling import Variant, settle_all, settle_loop
from bench.spice import Change, InProcess, by_program, deck
from halfsplit.circuit import (
    HIGH_IMPEDANCE_OHM,
    LOW_IMPEDANCE_OHM,
    Columns,
    Layout,
    Suspects,
    columns,
    conducting,
    pair_sources,
    pair_volts,
    suspects,
)
from halfsplit.circuit.columns import Positions

RUNS = 5
_SAMPLE = 250
_SPICE_SAMPLE = 100
_SWEEP = 5000
_SETTLED_SAMPLE = 60
DRIVES = 6
_PROBED, _INVERSES = 200, 100
METERS = (HIGH_IMPEDANCE_OHM, LOW_IMPEDANCE_OHM)
_OPEN_OHM = 1e12
GROWTH = ((30, 120), (60, 120), (120, 120), (240, 120), (60, 60), (60, 250))


@dataclass(frozen=True, slots=True)
class Spread:
    """Least, median and greatest of several runs."""

    least: float
    median: float
    greatest: float


@dataclass(frozen=True, slots=True)
class Case:
    """A machine with all that is worked out of it once."""

    machine: Bench
    layout: Layout
    singles: Columns
    states: Positions
    plan: Suspects

    @property
    def count(self) -> int:
        """Columns in all: pairs and singles in every setup."""
        faults = self.singles.count
        return faults * (faults + 1) // 2 * self.states.shape[1]


def make_case(points: int, faults: int, seed: int = 1, drives: int = 0) -> Case:
    """An invented machine."""
    machine = invented(points, faults, seed, drives)
    layout = Layout(machine.network)
    singles = columns(layout, machine.faults)
    return Case(machine, layout, singles, base_states(machine, layout), suspects(singles, layout.start(1)))


def every_pair(case: Case) -> int:
    """Ours, from faults laid side by side: every point of every pair in every setup; how many columns there were.

    Groups and the order of elimination are planned before, as they hold for a network's shape and its faults.
    """
    made = suspects(case.singles, case.states, like=case.plan)
    return sum(len(block.base) for block in pair_volts(made, reuse=True))


def write_out(case: Case) -> None:
    """Only write as many numbers as the answer has, into fresh memory."""
    np.empty((case.count, len(case.layout.points)), dtype=np.complex128).fill(1.0)


def write_over(case: Case) -> None:
    """Only write as many numbers as the answer has, over and over into the same room, as ours does."""
    room = np.empty((2000, len(case.layout.points)), dtype=np.complex128)
    for _ in range(-(-case.count // len(room))):
        room.fill(1.0)


def sample(case: Case, count: int) -> tuple[Task, list[tuple[Change, ...]]]:
    """Some pairs that open or add resistance, in the setup with everything on, for the numpy peers and for ngspice."""
    variants = [
        (*one, *other)
        for number, one in enumerate(case.machine.faults)
        for other in case.machine.faults[:number]
        if {patch.action for patch in (*one, *other)} <= {"open", "series"} and one[0].target != other[0].target
    ]
    chosen = [variants[row] for row in np.random.default_rng(2).choice(len(variants), count)]
    made = columns(case.layout, chosen)
    state = np.repeat(case.states[:, -1:], count, axis=1)
    siemens = np.where(conducting(made, state), case.layout.admittance(made.branch_scale, made.added_ohm), 0.0)
    held = case.layout.pole_volts[:, None] * made.pole_scale
    ohm = {branch.name: branch.ohm for branch in case.layout.network.branches}
    changes = [
        tuple(
            (case.layout.branch_index[p.target], _OPEN_OHM if p.action == "open" else ohm[p.target] + p.value)
            for p in patches
        )
        for patches in chosen
    ]
    return Task(case.layout, siemens, held), changes


def seconds(work: Callable[[], object]) -> float:
    """Processor time of a work, once, that of programs it starts included; what else the machine does is left out."""
    started = time.process_time() + _children()
    work()
    return time.process_time() + _children() - started


def _children() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def in_turn(works: dict[str, tuple[Callable[[], object], int]], runs: int = RUNS) -> dict[str, Spread]:
    """Microseconds a column of each work (with its number of columns), all run one after the other, and again."""
    found: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(runs):
        for name, (work, count) in works.items():
            found[name].append(1e6 * seconds(work) / count)
    return {name: Spread(min(it), float(np.median(it)), max(it)) for name, it in found.items()}


def volts(case: Case, runs: int = RUNS) -> dict[str, Spread]:
    """Every node voltage of all pairs: ours and all peers."""
    task, changes = sample(case, _SAMPLE)
    works: dict[str, tuple[Callable[[], object], int]] = {
        "ours": (lambda: every_pair(case), case.count),
        "writing the answer into fresh memory": (lambda: write_out(case), case.count),
        "writing the answer over and over": (lambda: write_over(case), case.count),
        "numpy, one by one": (lambda: loop(task), _SAMPLE),
        "numpy, batched": (lambda: batched(task), _SAMPLE),
        **_spice_works(case, changes[:_SPICE_SAMPLE]),
    }
    return in_turn(works, runs)


def _spice_works(case: Case, changes: Sequence[Sequence[Change]]) -> dict[str, tuple[Callable[[], object], int]]:
    state = case.states[:, -1:]
    lines = deck(case.layout, conducting(columns(case.layout, [()]), state)[:, 0])
    works: dict[str, tuple[Callable[[], object], int]] = {}
    if not np.isnan(by_program(case.layout, lines, changes[:1], len(case.layout.points) - 1)[0]):
        works["ngspice, told to alter and solve"] = (
            lambda: by_program(case.layout, lines, changes, len(case.layout.points) - 1),
            len(changes),
        )
    try:
        inside = InProcess(case.layout, lines)
    except OSError:
        return works

    def solve_all() -> None:
        for change in changes:
            inside.solve(change)
        inside.forget()

    works["ngspice, in process"] = (solve_all, len(changes))
    works["ngspice, its own cost a point"] = (lambda: (inside.sweep(_SWEEP), inside.forget()), _SWEEP)
    return works


def peak_megabytes(points: int = 60, faults: int = 250) -> float:
    """The most memory a fresh process holds that does nothing but load the engine and go through all pairs."""
    # getrusage would tell of the parent too; the high-water mark of Linux begins anew with each program.
    script = (
        "from pathlib import Path\nfrom bench.scale import every_pair, make_case\n"
        f"every_pair(make_case({points}, {faults}))\n"
        "status = Path('/proc/self/status').read_text().split('VmHWM:')\n"
        "print(int(status[1].split()[0]) / 1000 if len(status) > 1 else float('nan'))"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return float(done.stdout)


def readings(runs: int = RUNS) -> dict[str, float]:
    """Two meters at 200 pairs of points under every pair of faults, beside an inverse for each column.

    Ours goes through a part of the base columns only, so that a run takes seconds.
    """
    case = make_case(60, 250)
    choose = np.random.default_rng(5)
    ends = np.array([choose.choice(len(case.layout.points), 2, replace=False) for _ in range(_PROBED)])
    task, _ = sample(case, _INVERSES)
    part = suspects(case.singles, case.states[:, : len(case.machine.setups) // 4])

    def every_reading() -> None:
        for found in pair_sources(part, ends):
            found.shown(METERS)

    columns_read = case.count // len(case.machine.setups) * part.states.shape[1]
    spreads = in_turn(
        {"ours": (every_reading, columns_read), "an inverse": (lambda: loaded(task, ends, METERS), _INVERSES)}, runs
    )
    found = _told(f"{2 * _PROBED} loaded readings", spreads)
    ratio = spreads["an inverse"].median / spreads["ours"].median
    found[f"{2 * _PROBED} loaded readings, inverse against ours, ratio of medians"] = ratio
    return found


def settled(runs: int = RUNS) -> dict[str, float]:
    """All pairs with contacts that follow the solution, beside a loop that settles each and beside no contacts."""
    case = make_case(60, 250, drives=DRIVES)
    choose = np.random.default_rng(3)
    variants: list[Variant] = []
    for _ in range(_SETTLED_SAMPLE):
        one, other = choose.choice(len(case.machine.faults), 2, replace=False)
        steps = case.machine.setups[int(choose.integers(len(case.machine.setups)))]
        variants.append(((*case.machine.faults[one], *case.machine.faults[other]), steps))
    spreads = in_turn(
        {
            "ours": (lambda: settle_all(case.singles, case.machine.setups), case.count),
            "a loop": (lambda: settle_loop(case.layout, variants), len(variants)),
            "ours without contacts": (lambda: every_pair(case), case.count),
        },
        runs,
    )
    found = _told("settled pairs", spreads)
    found["settled pairs, loop against ours, ratio of medians"] = spreads["a loop"].median / spreads["ours"].median
    cost = spreads["ours"].median / spreads["ours without contacts"].median
    found["settled pairs, times the cost without contacts"] = cost
    return found


def _told(what: str, spreads: dict[str, Spread]) -> dict[str, float]:
    """Median, least and greatest of each, by name."""
    return {
        f"{what}, {name}, µs a column, {which}": value
        for name, it in spreads.items()
        for which, value in (("median", it.median), ("least", it.least), ("greatest", it.greatest))
    }


def growth(runs: int = 3) -> dict[str, float]:
    """Microseconds a column, ours and numpy one by one, by points and by faults."""
    found: dict[str, float] = {}
    for points, faults in GROWTH:
        case = make_case(points, faults)
        task, _ = sample(case, _SAMPLE)
        spread = in_turn({"ours": (lambda: every_pair(case), case.count), "loop": (lambda: loop(task), _SAMPLE)}, runs)  # noqa: B023
        name = f"all pairs of {faults} faults, {points} points"
        found[f"{name}, µs a column"] = spread["ours"].median
        found[f"{name}, times quicker than numpy one by one"] = spread["loop"].median / spread["ours"].median
    return found


def measure(runs: int = RUNS) -> dict[str, float]:
    """Every figure by its name, with its unit in the name."""
    case = make_case(60, 250)
    found: dict[str, float] = {"all pairs, 60 points, 250 faults, 8 setups: columns": case.count}
    spreads = volts(case, runs)
    found.update(_told("all pairs", spreads))
    planning = in_turn({"planning": (lambda: suspects(case.singles, case.states[:, :1]), 1)}, runs)["planning"]
    found["all pairs, planning, once for a machine and its faults, ms"] = planning.median / 1e3
    ours = spreads["ours"].median
    for name, spread in spreads.items():
        if name.startswith("writing"):
            found[f"all pairs, ours against {name}, ratio of medians"] = ours / spread.median
        elif name != "ours":
            found[f"all pairs, {name} against ours, ratio of medians"] = spread.median / ours
    found["all pairs, most memory of the whole process, MB"] = peak_megabytes()
    return {**found, **readings(runs), **settled(runs), **growth()}

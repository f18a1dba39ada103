"""The whole wiring in a state: what is live, where current flows, and what a meter would read between two points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfsplit.call.case import Case
from halfsplit.call.engine import engine_for
from halfsplit.circuit import LOW_IMPEDANCE_OHM, Settled, read_waves
from halfsplit.drawing import Standing
from halfsplit.predict import Predictor, expected, is_dead, lifted_wires
from halfsplit.techsheet import Machine, setup_of
from halfsplit.trade import NOTHING_WRONG, Mode, Setup, Suspect
from halfsplit.units import show_reading

_SUSPECTED, _CLEARED = 0.05, 0.001
"""Shares from which on a thing is marked as suspected, and below which as cleared."""
_LIVE_VOLTS, _FLOWING_AMPS = 2.0, 0.005
"""Below these nobody speaks of live, or of current: strays make both everywhere (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class ReadingOf:
    """What a meter would show in one machine; `who` is empty for a sound one, else the suspect."""

    who: Suspect
    shows: str


@dataclass(frozen=True, slots=True)
class PairReading:
    """Two points in a setup: the meter's setting, and what it would show in each machine."""

    points: tuple[str, str]
    mode: Mode
    rows: tuple[ReadingOf, ...]


def standing_of(machine: Machine, setup: str, faults: tuple[str, ...] = ()) -> Standing:
    """How a machine stands in a setup, solved: every contact, what is live against earth, where current flows.

    Raises:
        InputError: An unknown setup.
    """
    where = setup_of(machine, setup)
    settled = Predictor(machine, (Suspect(faults) if faults else NOTHING_WRONG,)).settled(where)
    layout = settled.columns.layout
    positions = {name: layout.positions[name][settled.state[row, 0]] for name, row in layout.variable_index.items()}
    return Standing(
        positions, lifted_wires(where), _live(machine, settled) | _deadly(machine, where), _flowing(settled)
    )


def _deadly(machine: Machine, setup: Setup) -> frozenset[str]:
    """Terminals for a dead machine only count as live until a person has cut it off, whatever is solved there."""
    dead = not machine.dead_only or is_dead(Predictor(machine, (NOTHING_WRONG,)), setup)
    return frozenset() if dead else frozenset(machine.dead_only)


def _live(machine: Machine, settled: Settled) -> frozenset[str]:
    """Terminals that hold their voltage to earth against a low-impedance meter: an isolated rail does not."""
    earth = machine.network.poles[-1].point
    pairs = tuple((point, earth) for point in machine.points)
    (volts,) = read_waves(settled, (settled.solution,), pairs, LOW_IMPEDANCE_OHM)
    return frozenset(point for point, volt in zip(machine.points, volts.rms[:, 0], strict=True) if volt > _LIVE_VOLTS)


def _flowing(settled: Settled) -> frozenset[str]:
    """A winding at rest and turning is two branches and one thing to see: current in one is current in both."""
    branches = settled.columns.layout.network.branches
    amps = (float(settled.solution.amps_through(branch.name).rms[0]) for branch in branches)
    ways = {frozenset((one.a, one.b)) for one, amp in zip(branches, amps, strict=True) if amp > _FLOWING_AMPS}
    return frozenset(branch.name for branch in branches if {branch.a, branch.b} in ways)


def marked(machine: Machine, case: Case) -> tuple[frozenset[str], frozenset[str]]:
    """Parts and wires that are suspected after a case's evidence, and those that are as good as cleared by it.

    Raises:
        InputError: An item that its setup does not allow.
    """
    engine = engine_for(machine, case)
    weighed = engine.weigh(case)
    shares: dict[str, float] = dict.fromkeys((*machine.parts, *machine.wires), 0.0)
    for suspect, share in zip(weighed.suspects, weighed.belief.shares, strict=True):
        for thing in {engine.machine.faults[fault].thing for fault in suspect.faults}:
            shares[thing] += float(share)
    suspected = frozenset(thing for thing, share in shares.items() if share > _SUSPECTED)
    cleared = frozenset(thing for thing, share in shares.items() if share < _CLEARED) if case.evidence else frozenset()
    return suspected, cleared


def between(machine: Machine, setup: str, points: tuple[str, str], suspects: Sequence[Suspect] = ()) -> PairReading:
    """What a meter shows between two points: ohms where the machine is dead, else volts; sound, then under suspects.

    Raises:
        InputError: An unknown setup or point.
    """
    where: Setup = setup_of(machine, setup)
    predictor = Predictor(machine, (NOTHING_WRONG, *suspects))
    mode: Mode = "ohms" if is_dead(predictor, where) else "volts"
    means = expected(predictor, (points,), mode, where).mean[0]
    rows = zip(predictor.suspects, means, strict=True)
    return PairReading(points, mode, tuple(ReadingOf(who, show_reading(float(mean), mode)) for who, mean in rows))


def show_between(read: PairReading) -> str:
    """The reading of a sound machine as one sentence."""
    setting = "Ohms, plug out" if read.mode == "ohms" else "Volts"
    return f"{setting}, red on {read.points[0]}, black on {read.points[1]}: a sound machine reads {read.rows[0].shows}."

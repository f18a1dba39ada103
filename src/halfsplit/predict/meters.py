"""How each mode of the meter is worked out from the solved machine: one table, a new mode is one line.

What may live here: live modes as functions of a solved machine. Dead ones (ohms, a beep, insulation) are read from the
dead network, all of them the same way.

Watts at the plug are those of a power meter between plug and outlet: every conductor's volts against the neutral (or
the last line) times its amps, which is exact for any load (Blondel 1893: one wattmeter fewer than conductors). The
protective conductor does not go through it.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from halfsplit.circuit import HIGH_IMPEDANCE_OHM, LOW_IMPEDANCE_OHM, Settled, Wave, read_amps, read_waves
from halfsplit.errors import InputError
from halfsplit.predict.predictor import Predictor, Real
from halfsplit.techsheet import Element, Machine, wire_of
from halfsplit.trade import Mode

Pairs = tuple[tuple[str, str], ...]
Reader = Callable[[Predictor, tuple[Settled, ...], Pairs], Real]
_EARTH = ("G", "PE")


def _volts(show: Callable[[Wave], Real], meter_ohm: float) -> Reader:
    def read(_: Predictor, blocks: tuple[Settled, ...], pairs: Pairs) -> Real:
        waves = read_waves(blocks[0], tuple(block.solution for block in blocks), pairs, meter_ohm)
        return np.stack([show(wave) for wave in waves])

    return read


def _amps(predictor: Predictor, blocks: tuple[Settled, ...], pairs: Pairs) -> Real:
    branches = tuple(branch_between(predictor.machine, pair) for pair in pairs)
    amps = np.stack([read_amps(block, branches) for block in blocks])
    copies: dict[str, list[str]] = {}
    for branch in predictor.machine.network.branches:
        if (wire := wire_of(branch.name)) != branch.name:
            copies.setdefault(wire, []).append(branch.name)
    for row, wire in enumerate(branches):  # the clamp stays around a lead whose end is on another terminal
        for name in copies.get(wire, ()):
            amps[:, row] += np.stack([read_amps(block, (name,))[0] for block in blocks])
    return amps


def _watts(predictor: Predictor, blocks: tuple[Settled, ...], pairs: Pairs) -> Real:
    conductors = [element for element in _blades(predictor.machine) if element.b.rpartition(".")[2] not in _EARTH]
    neutral = next((element for element in conductors if element.b.endswith(".N")), conductors[-1])
    watts = np.stack([_taken(block, conductors, neutral) for block in blocks])
    return np.repeat(watts[:, None], len(pairs), axis=1)


def _taken(block: Settled, conductors: list[Element], neutral: Element) -> Real:
    solution, index = block.solution, block.columns.layout.point_index
    to, taken = np.array([index[neutral.b]]), np.zeros(block.columns.count)
    for element in conductors:
        volts = solution.volts_between(np.array([index[element.b]]), to, row=0)
        taken += volts.mean_product(solution.amps_through(element.branch))
    return taken


READERS: dict[Mode, Reader] = {
    "volts": _volts(lambda wave: wave.ac, HIGH_IMPEDANCE_OHM),
    "low-z": _volts(lambda wave: wave.ac, LOW_IMPEDANCE_OHM),
    "ac+dc": _volts(lambda wave: wave.rms, HIGH_IMPEDANCE_OHM),
    "dc": _volts(lambda wave: wave.mean, HIGH_IMPEDANCE_OHM),
    "amps": _amps,
    "watts": _watts,
}
"""From a machine and several slightly moved solutions of it to readings, shape (solutions, pairs, S)."""


def plug_points(machine: Machine) -> tuple[str, str]:
    """The two points that stand for a reading at the plug: its first two blades that are not earth.

    Raises:
        InputError: The sheet has no plug.
    """
    ends = [element.b for element in _blades(machine) if element.b.rpartition(".")[2] not in _EARTH]
    if len(ends) < len(("line", "other")):
        raise InputError("This machine has no plug.", "Put a clamp around its wires instead.")
    return ends[0], ends[1]


def _blades(machine: Machine) -> list[Element]:
    return [element for element in machine.elements if element.symbol == "plug"]


def branch_between(machine: Machine, pair: tuple[str, str]) -> str:
    """The one wire or element a clamp can go around between two points.

    Raises:
        InputError: There is none.
    """
    for wire in machine.wires.values():
        if {wire.a, wire.b} == set(pair):
            return wire.name
    for element in machine.elements:
        if {element.a, element.b} == set(pair):
            return element.branch
    raise InputError(
        f"No one wire or part joins {pair[0]} and {pair[1]}.", "Give the two ends of the wire in the clamp."
    )

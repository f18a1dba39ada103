"""The paper's own numbers against the solver's: nameplate current and expected readings of a sound machine."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.predict.predictor import Predictor
from halfsplit.predict.readings import expected
from halfsplit.techsheet import Machine, PaperReading

_NAMEPLATE_SHARE = 0.1
_MEANT_DEVIATIONS = 2.0


@dataclass(frozen=True, slots=True)
class Contradiction:
    """A row of the paper that a sound machine of this wiring would not give.

    `worked_out` is what it would read, in volts, ohms or amps, infinity for OL.
    """

    row: PaperReading
    worked_out: float


def nameplate_amps(predictor: Predictor) -> tuple[float, float] | None:
    """Rated amps and the largest that the sound machine takes in any conductor of the supply; None without a nameplate.

    Args:
        predictor: Of any suspects of the machine.
    """
    machine = predictor.machine
    if machine.nameplate is None:
        return None
    solution = predictor.healthy.settled(machine.setups[machine.nameplate.setup]).solution
    amps = [float(solution.amps_through(wire).rms[0]) for wire in machine.wires if _ends_on_the_outlet(machine, wire)]
    return machine.nameplate.amps, max(amps, default=0.0)


def _ends_on_the_outlet(machine: Machine, wire: str) -> bool:
    """All that the machine takes, and nothing else, passes the wires of its outlet."""
    found = machine.wires[wire]
    return any(machine.parts[end.rpartition(".")[0]].kind == "outlet" for end in (found.a, found.b))


def nameplate_agrees(both: tuple[float, float] | None) -> bool:
    """Whether rated and worked out current, from `nameplate_amps`, lie within a tenth of each other."""
    return both is None or abs(both[1] - both[0]) <= _NAMEPLATE_SHARE * both[0]


def contradictions(predictor: Predictor) -> tuple[Contradiction, ...]:
    """Rows of the paper that lie more than two deviations away from what is expected of the sound machine.

    Args:
        predictor: Of any suspects of the machine.
    """
    machine = predictor.machine
    found = []
    for row in machine.readings:
        value = expected(predictor.healthy, (row.points,), row.mode, machine.setups[row.setup])
        mean, spread = float(value.mean[0, 0]), float(value.spread[0, 0])
        least, most = row.limits
        slack = _MEANT_DEVIATIONS * spread if np.isfinite(mean) else 0.0
        if not least - slack <= mean <= most + slack:
            found.append(Contradiction(row, mean))
    return tuple(found)

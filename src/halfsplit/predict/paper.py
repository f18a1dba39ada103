"""The paper's own numbers against the solver's: nameplate current and expected readings of a sound machine."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from halfsplit.predict.predictor import Predictor
from halfsplit.predict.readings import expected
from halfsplit.techsheet import Machine, PaperReading
from halfsplit.trade import NOTHING_WRONG

_NAMEPLATE_SHARE = 0.1
_MEANT_DEVIATIONS = 2.0


@dataclass(frozen=True, slots=True)
class Contradiction:
    """A row of the paper that a sound machine of this wiring would not give.

    `worked_out` is what it would read, in volts, ohms or amps, infinity for OL.
    """

    row: PaperReading
    worked_out: float


def nameplate_amps(machine: Machine) -> tuple[float, float] | None:
    """Rated amps and the largest that the solver finds in any conductor of the supply; None without a nameplate."""
    if machine.nameplate is None:
        return None
    predictor = Predictor(machine, (NOTHING_WRONG,))
    solution = predictor.settled(machine.setups[machine.nameplate.setup]).solution
    amps = [float(solution.amps_through(wire).rms[0]) for wire in machine.wires if _ends_on_the_outlet(machine, wire)]
    return machine.nameplate.amps, max(amps, default=0.0)


def _ends_on_the_outlet(machine: Machine, wire: str) -> bool:
    """All that the machine takes, and nothing else, passes the wires of its outlet."""
    found = machine.wires[wire]
    return any(machine.parts[end.rpartition(".")[0]].kind == "outlet" for end in (found.a, found.b))


def nameplate_agrees(machine: Machine) -> bool:
    """Whether rated and worked out current lie within a tenth of each other."""
    both = nameplate_amps(machine)
    return both is None or abs(both[1] - both[0]) <= _NAMEPLATE_SHARE * both[0]


def contradictions(machine: Machine) -> tuple[Contradiction, ...]:
    """Rows of the paper that lie more than two deviations away from what the solver expects."""
    predictor = Predictor(machine, (NOTHING_WRONG,))
    found = []
    for row in machine.readings:
        value = expected(predictor, (row.points,), row.mode, machine.setups[row.setup])
        mean, spread = float(value.mean[0, 0]), float(value.spread[0, 0])
        least, most = row.limits
        slack = _MEANT_DEVIATIONS * spread if np.isfinite(mean) else 0.0
        if not least - slack <= mean <= most + slack:
            found.append(Contradiction(row, mean))
    return tuple(found)

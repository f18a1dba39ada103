"""A machine laid out for doubting: sound and under every fault, settled in every setup.

What may live here: the columns that all rules share, worked out once. It says nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit import Settled
from halfsplit.predict import Predictor
from halfsplit.techsheet import Document, Machine
from halfsplit.trade import NOTHING_WRONG, Suspect

Real = NDArray[np.float64]


@dataclass(frozen=True)
class Bench:
    """A checked machine with the text it came from (for lines)."""

    machine: Machine
    document: Document

    @cached_property
    def predictor(self) -> Predictor:
        """The sound machine first, then every single fault in the sheet's order."""
        return Predictor(self.machine, (NOTHING_WRONG, *(Suspect((fault,)) for fault in self.machine.faults)))

    @cached_property
    def settled(self) -> dict[str, Settled]:
        """Every setup by name."""
        return {name: self.predictor.settled(setup) for name, setup in self.machine.setups.items()}

    def column(self, fault: str) -> int:
        """Column of a fault."""
        return 1 + list(self.machine.faults).index(fault)

    @cached_property
    def volts(self) -> dict[str, Real]:
        """True RMS volts of every point in every setup, shape (N, S)."""
        return {name: settled.solution.rms_volts() for name, settled in self.settled.items()}

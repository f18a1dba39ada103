"""A machine with a known fault on the bench: what a technician would see and read on it, worked out by the engine."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import cast

from halfsplit.call import Case, machine_for, meter_reading
from halfsplit.predict import Predictor, levels
from halfsplit.techsheet import Machine, load_machine, read_text_file
from halfsplit.trade import LEVELS, Mode, Suspect
from halfsplit.units import show_reading

LAMPS = Path(__file__).with_name("lamps.yaml")


@dataclass(frozen=True)
class Bench:
    """A machine as it stands on a call, with these faults."""

    machine: Machine
    faults: tuple[str, ...] = ()

    def reads(self, a: str, b: str, mode: str, setup: str) -> str:
        """What the meter shows, as one would type it."""
        reading = meter_reading(self.machine, setup, (a, b), cast(Mode, mode), self.faults)
        return show_reading(reading.value, mode)

    def shows(self, function: str) -> str:
        """The level of a function in its own setup."""
        of = self.machine.functions[function]
        found = levels(Predictor(self.machine, (Suspect(self.faults),)), of, self.machine.setups[of.setup])
        return LEVELS[int(found[:, 0].argmax())]


def dryer(*faults: str, cord: str = "4-wire") -> Bench:
    """The dryer of the library with these faults."""
    return Bench(machine_for(load_machine("dryer"), Case((("cord", cord),))), faults)


def lamps() -> Bench:
    """The three lamps of `lamps.yaml`, sound."""
    return Bench(load_machine(str(LAMPS)))


def lamps_text() -> str:
    """Their sheet."""
    return read_text_file(str(LAMPS))

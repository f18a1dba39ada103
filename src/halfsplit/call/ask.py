"""Single questions to a machine: what would the meter read here, what does the circuit look like as SPICE."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isinf

from halfsplit.circuit import spice
from halfsplit.errors import InputError
from halfsplit.predict import Predictor, expected
from halfsplit.techsheet import Machine, did_you_mean, point_of, setup_of
from halfsplit.trade import Mode, Setup, Suspect

_GHOST_VOLTS, _GHOST_SHARE = 2.0, 0.1


@dataclass(frozen=True, slots=True)
class MeterReading:
    """What a meter would show: value and one standard deviation in the mode's unit; infinity is OL.

    `ghost` says that a low-impedance meter would show less than a tenth of it; `chatters` names what keeps switching.
    """

    points: tuple[str, str]
    mode: Mode
    setup: Setup
    faults: tuple[str, ...]
    value: float
    spread: float
    ghost: bool
    chatters: tuple[str, ...]

    @property
    def open(self) -> bool:
        """Whether the meter shows OL."""
        return isinf(self.value)


def meter_reading(
    machine: Machine, setup: str, points: tuple[str, str], mode: Mode, faults: tuple[str, ...]
) -> MeterReading:
    """What a meter would read.

    Raises:
        InputError: An unknown point, setup or fault; ohms on a live machine; amps where no clamp can go.
    """
    a, b = (point_of(machine, point) for point in points)
    if a == b:
        raise InputError(f"Both probes are on {a}.", "Give two different points.")
    predictor = _predictor(machine, faults)
    where = setup_of(machine, setup)
    value = expected(predictor, ((a, b),), mode, where)
    reading = float(value.mean[0, 0])
    ghost = False
    if mode == "volts" and reading > _GHOST_VOLTS:
        loaded = expected(predictor, ((a, b),), "low-z", where)
        ghost = float(loaded.mean[0, 0]) < _GHOST_SHARE * reading
    chatters: Mapping[int, tuple[str, ...]] = predictor.settled(where).chatters
    return MeterReading((a, b), mode, where, faults, reading, float(value.spread[0, 0]), ghost, chatters.get(0, ()))


def netlist_of(machine: Machine, setup: str, faults: tuple[str, ...]) -> str:
    """The machine in one state as a SPICE deck.

    Raises:
        InputError: An unknown setup or fault.
    """
    where = setup_of(machine, setup)
    settled = _predictor(machine, faults).settled(where)
    title = f"{machine.name}, {where.says}{', ' + ' + '.join(faults) if faults else ''}"
    return spice(settled, 0, title)


def _predictor(machine: Machine, faults: tuple[str, ...]) -> Predictor:
    for fault in faults:
        if fault not in machine.faults:
            raise InputError(f"There is no fault {fault!r}.", did_you_mean(fault, machine.faults))
    return Predictor(machine, (Suspect(faults),))

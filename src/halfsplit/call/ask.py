"""Single questions to a machine: what would the meter read here, what does the circuit look like as SPICE."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isinf

from halfsplit.call.beside import ways_say
from halfsplit.call.casefile import points_for
from halfsplit.circuit import spice
from halfsplit.errors import InputError
from halfsplit.predict import Expected, Lifted, Predictor, Way, expected, ghosts, lifts_worth, ways_between
from halfsplit.techsheet import Machine, did_you_mean, setup_of
from halfsplit.trade import Mode, Setup, Suspect


@dataclass(frozen=True, slots=True)
class OtherState:
    """What the meter would show with a contact the other way, or without a fault that comes and goes.

    Attributes:
        share: How likely the machine stands so.
        moved: What stands otherwise, by name.
        value: In the mode's unit; infinity is OL.
        spread: One standard deviation.
        away: Whether it is a fault that comes and goes which is not there.
    """

    share: float
    moved: tuple[str, ...]
    value: float
    spread: float
    away: bool


@dataclass(frozen=True, slots=True)
class MeterReading:
    """What a meter would show: value and one standard deviation in the mode's unit; infinity is OL.

    `ghost` says that a low-impedance meter would show less than a tenth of it; `chatters` names what keeps switching.
    `ways`, `lifts` and `ways_say` tell, for ohms, through what the measuring current goes and which lead to lift.
    `others` are the ways a machine near a threshold might stand as well. `turned` is the value with the probes the
    other way round.
    """

    points: tuple[str, str]
    mode: Mode
    setup: Setup
    faults: tuple[str, ...]
    value: float
    spread: float
    ghost: bool
    chatters: tuple[str, ...]
    ways: tuple[Way, ...]
    lifts: tuple[Lifted, ...]
    ways_say: tuple[str, ...]
    others: tuple[OtherState, ...]
    turned: float

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
    a, b = points_for(machine, mode, [point for point in points if point])
    predictor = _predictor(machine, faults)
    where = setup_of(machine, setup)
    value = expected(predictor, ((a, b),), mode, where)
    turned = expected(predictor, ((b, a),), mode, where)
    reading = float(value.mean[0, 0])
    ghost = bool(ghosts(predictor, (a, b), mode, where)[0])
    ways = ways_between(predictor, (a, b), where) if mode == "ohms" else ()
    lifts = lifts_worth(predictor, (a, b), where) if mode == "ohms" else ()
    chatters: Mapping[int, tuple[str, ...]] = predictor.settled(where).chatters
    return MeterReading(
        points=(a, b),
        mode=mode,
        setup=where,
        faults=faults,
        value=reading,
        spread=float(value.spread[0, 0]),
        ghost=ghost,
        chatters=chatters.get(0, ()),
        ways=ways,
        lifts=lifts,
        ways_say=ways_say(machine, ways, lifts, reading),
        others=_others(machine, value),
        turned=float(turned.mean[0, 0]),
    )


def _others(machine: Machine, value: Expected) -> tuple[OtherState, ...]:
    carried = value.carried
    if carried is None:
        return ()
    return tuple(
        OtherState(
            float(carried.weight[column]),
            carried.moved(column),
            float(value.mean[0, column]),
            float(value.spread[0, column]),
            any(name in machine.faults for name in carried.moved(column)),
        )
        for column in value.columns_of(0)
        if column != 0
    )


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

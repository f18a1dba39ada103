"""Networks as values: branches between named points, what holds a voltage, and things that switch.

What may live here: the frozen description of a network and of what can be changed in it. It must not know any
appliance, any probability, or how a network is solved.

A branch is a series resistance and inductance with a capacitance across it: y = 1/(R + jωL) + jωC siemens.
A contact is a branch with a condition; a dormant branch (a ground fault waiting to happen) has the condition NEVER.

A pole is held against the reference. A source or a transformer's winding holds two points of its own against each
other, wherever both of them float; what it has inside (resistance, magnetising current, the contact that wakes it) is
branches. Direct current is a second solution of the same network: there sources give their direct volts, poles none,
inductance nothing, and a transformer couples nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Condition = tuple[tuple[tuple[str, frozenset[str]], ...], ...]
"""Alternatives, each a tuple of (variable, allowed positions) that must all hold."""

ALWAYS: Condition = ((),)
NEVER: Condition = ()
YES, NO = "yes", "no"


def when(variable: str, *positions: str) -> Condition:
    """Condition that holds while `variable` stands at one of `positions`."""
    return (((variable, frozenset(positions)),),)


@dataclass(frozen=True, slots=True)
class Branch:
    """One two-ended element.

    Attributes:
        name: Unique name, used by patches and thresholds.
        a: Point at one end.
        b: Point at the other end.
        ohm: Series resistance at working frequency and temperature, ohm (> 0).
        henry: Series inductance, henry.
        farad: Capacitance across the branch, farad.
        dc_ohm: Resistance an ohmmeter finds when cold and dead, ohm; None when it is `ohm`.
        condition: When the branch conducts at all.
        tolerance: Relative standard deviation of its impedance, from manufacture (0.05 = 5 %).
        one_way: It conducts from a to b only: a diode, its forward drop left out.
    """

    name: str
    a: str
    b: str
    ohm: float
    henry: float = 0.0
    farad: float = 0.0
    dc_ohm: float | None = None
    condition: Condition = ALWAYS
    tolerance: float = 0.0
    one_way: bool = False


@dataclass(frozen=True, slots=True)
class Pole:
    """A point held at a voltage against the reference: `volts` is a complex RMS phasor."""

    point: str
    volts: complex


@dataclass(frozen=True, slots=True)
class Source:
    """Two points of its own, `high` held above `low` by `volts` (an RMS phasor) and by `direct` volts."""

    name: str
    high: str
    low: str
    volts: complex = 0j
    direct: float = 0.0


@dataclass(frozen=True, slots=True)
class Winding:
    """Two points of its own, `high` above `low` by `turns` times the transformer's volts a turn."""

    high: str
    low: str
    turns: float


@dataclass(frozen=True, slots=True)
class Transformer:
    """Windings on one core, without loss: their volts go by their turns, their ampere-turns add up to nothing."""

    name: str
    windings: tuple[Winding, ...]


@dataclass(frozen=True, slots=True)
class Threshold:
    """True while the volts across (or amps through) a branch are at least `at_least` (true RMS, direct included).

    Attributes:
        branch: What is watched.
        quantity: Its volts or its amps.
        at_least: The limit, volts or amps.
        above: False turns it round: true while below the limit.
        beside: Branches whose volts or amps are added to its own first, as a ground-fault device adds line and neutral.
    """

    branch: str
    quantity: Literal["volts", "amps"]
    at_least: float
    above: bool = True
    beside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Drive:
    """Something that the solution itself switches: a running rotor, a tripped breaker, a pulled-in relay.

    Attributes:
        name: The variable it moves, with positions "no" and "yes"; it starts at "no".
        on: Alternatives, each a tuple of thresholds that must all hold, for it to go to "yes".
        hold: Thresholds that must all hold for it to stay at "yes"; None means that it latches.
        delay_s: How long it takes, seconds. Among things about to move, the quickest moves first.
        condition: What must hold, besides `on`, for it to go to "yes".
        hold_condition: What must hold, besides `hold`, for it to stay there; of no use to what latches.
    """

    name: str
    on: tuple[tuple[Threshold, ...], ...]
    hold: tuple[Threshold, ...] | None
    delay_s: float
    condition: Condition = ALWAYS
    hold_condition: Condition = ALWAYS


@dataclass(frozen=True, slots=True)
class Patch:
    """One change to an immutable network; a fault is a few of these.

    `open` and `closed` act on a branch's conduction, `series` adds `value` ohm to it, `pin` holds the variable
    `target` at `position`, and `scale` multiplies the pole at the point `target` (or the source of that name) by
    `value`.
    """

    action: Literal["open", "closed", "series", "pin", "scale"]
    target: str
    value: float = 0.0
    position: str = ""


@dataclass(frozen=True, slots=True)
class Network:
    """Everything the solver needs. `variables` maps each settable name to its positions, the start first."""

    hertz: float
    branches: tuple[Branch, ...]
    poles: tuple[Pole, ...]
    drives: tuple[Drive, ...] = ()
    variables: dict[str, tuple[str, ...]] = field(default_factory=dict)
    sources: tuple[Source, ...] = ()
    transformers: tuple[Transformer, ...] = ()

    def points(self) -> tuple[str, ...]:
        """Every point of the network: poles first, then those of sources and windings, then by first mention."""
        ends = [pole.point for pole in self.poles]
        ends += self.held_pairs()
        ends += [end for branch in self.branches for end in (branch.a, branch.b)]
        return tuple(dict.fromkeys(ends))

    def held_pairs(self) -> tuple[str, ...]:
        """The points of sources and windings, high and low of each in turn."""
        pairs = [(source.high, source.low) for source in self.sources]
        pairs += [(winding.high, winding.low) for made in self.transformers for winding in made.windings]
        return tuple(point for pair in pairs for point in pair)

    @property
    def plain(self) -> bool:
        """Whether there are only poles and branches that conduct both ways: one solution tells all."""
        return not (self.sources or self.transformers or any(branch.one_way for branch in self.branches))

    def positions(self) -> dict[str, tuple[str, ...]]:
        """Positions of every variable, drives included."""
        return {**self.variables, **{drive.name: (NO, YES) for drive in self.drives}}


Step = tuple[str, str]
"""One thing a person does: (variable, position)."""

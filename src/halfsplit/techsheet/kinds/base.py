"""What every kind of part is made of.

What may live here: the frozen forms a kind fills in. A kind is one entry in one file of this folder; it brings its
attributes (`attribute`), stamps its part into the network, and names its faults and what it shows a person.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from halfsplit.circuit import NEVER, Branch, Condition, Drive, Patch, Pole, Source, Transformer
from halfsplit.errors import InputError
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.units import show

CONTACT_OHM = 0.005
"""A sound closed contact, ohm (common practice, from memory: 5 to 50 mΩ)."""
JOINT_DEGREES = {"0.2": 0.2, "2": 2.0, "20": 20.0, "1000": 1000.0}
"""A bad joint or contact, ohm: what burns unseen, what weakens, what starves, what is as good as open under load.

Each stands for all around it, within about a factor of three (common practice, from memory).
"""
LEAK_OHM = 20e3
"""Damp or worn insulation, ohm: 6 mA at 120 V trips a ground-fault device (common practice, from memory)."""
MEMORY = "common practice, from memory"
"""Where a rate comes from as long as nobody has counted."""


@dataclass(frozen=True, slots=True)
class FaultForm:
    """One way a part can be wrong.

    Attributes:
        name: Short name, unique in the part.
        says: What is wrong, as the end of the sentence "the drive motor …".
        rate: How often, relative to the other faults (calls in a thousand; common practice, from memory).
        patches: What it changes in the network.
        mend: What to do about it; empty means change the part.
        price: Cost of the mend where it is not the part's price.
        minutes: Time of the mend where it is not the part's minutes.
        whole: `says` is a whole sentence, which needs no "the drive motor" before it.
        degree_of: Short name of the one fault of which this is a degree; empty if it is none.
        degree: The degree in words, as in "about 2 Ω".
        between: Terminals of a contact: the fault counts only where heavy wires, which carry real current, end on all.
        origin: Where the rate comes from.
    """

    name: str
    says: str
    rate: float
    patches: tuple[Patch, ...]
    mend: str = ""
    price: float | None = None
    minutes: float | None = None
    whole: bool = False
    degree_of: str = ""
    degree: str = ""
    between: tuple[str, ...] = ()
    origin: str = MEMORY


@dataclass(frozen=True, slots=True)
class Shown:
    """What a function can show of a part: a share of rated power, or a variable standing at "yes" (or "no")."""

    branches: tuple[str, ...] = ()
    rated_watts: float = 0.0
    variable: str = ""
    position: str = ""


@dataclass(frozen=True, slots=True)
class Cycle:
    """What switches on and off by itself, told by a setting that stands for the moment.

    Attributes:
        setting: The setting, with its positions `heating` and `pausing`.
        heating: Where it stands while it is on.
        pausing: Where it stands in between.
        knob: The setting that makes it longer or shorter.
        shares: By the knob's position, the share of the time that it is on.
    """

    setting: str
    heating: str
    pausing: str
    knob: str
    shares: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Element:
    """How a part looks in a drawing: a symbol between two terminals."""

    symbol: str
    a: str
    b: str
    branch: str


@dataclass(frozen=True, slots=True)
class Stamp:
    """All that a part brings to the machine.

    `asks` are the variables of other parts that its rules name; `dead_only` are terminals at which nothing is ever read
    on a live machine, each with why, and wires carry that on; `beside` are terminals too near to those, which wires do
    not carry on; `caution` is what must be said wherever a probe goes to this part, signal word first; `cycle` is how
    it switches on and off by itself.
    """

    branches: tuple[Branch, ...] = ()
    poles: tuple[Pole, ...] = ()
    drives: tuple[Drive, ...] = ()
    variables: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    faults: tuple[FaultForm, ...] = ()
    shows: Mapping[str, Shown] = field(default_factory=dict)
    elements: tuple[Element, ...] = ()
    terminals: tuple[str, ...] = ()
    hertz: float | None = None
    sources: tuple[Source, ...] = ()
    transformers: tuple[Transformer, ...] = ()
    asks: tuple[str, ...] = ()
    dead_only: Mapping[str, str] = field(default_factory=dict)
    beside: Mapping[str, str] = field(default_factory=dict)
    caution: str = ""
    cycle: Cycle | None = None


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a part can ask of its sheet while it is stamped.

    Attributes:
        read_state: `door shut or open` to a condition.
        temperature: Place to (setting, position to °C).
        terminals_of: Part to the terminals written for it.
        positions: Setting to its positions.
        hertz: Frequency of the supply.
    """

    read_state: Callable[[str], Condition]
    temperature: Callable[[str], tuple[str, Mapping[str, float]]]
    terminals_of: Callable[[str], tuple[str, ...]]
    positions: Callable[[str], tuple[str, ...]]
    hertz: float


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of part. `stamp` may raise `InputError` for values that make no sense together.

    An `early` kind is stamped before the others, because they ask for what it brings.
    """

    name: str
    meaning: str
    attributes: tuple[Attribute, ...]
    stamp: Callable[[PartValues, Surroundings], Stamp]
    early: bool = False


def impedance(ohm: float, total_ohm: float, hertz: float) -> tuple[float, float]:
    """Resistance and inductance (henry) of an impedance of `total_ohm` whose resistance is `ohm`.

    Raises:
        InputError: The resistance is larger than the whole.
    """
    if ohm > total_ohm:
        raise InputError(
            f"A winding of {show(ohm, 'Ω')} cannot pass that much current: the whole is only {show(total_ohm, 'Ω')}.",
            "Check the winding's ohms and its current.",
        )
    reactance = math.sqrt(total_ohm**2 - ohm**2)
    return ohm, reactance / (2.0 * math.pi * hertz)


def open_patch(*branches: str) -> tuple[Patch, ...]:
    """The branches no longer conduct."""
    return tuple(Patch("open", branch) for branch in branches)


def burnt_contact(name: str, says: str, branch: str, ends: tuple[str, ...]) -> tuple[FaultForm, ...]:
    """A contact that has burnt, in the degrees in which a contact is still a contact.

    Args:
        name: Short name of the fault, as in `burnt`; its degrees are `burnt-2`, `burnt-20`.
        says: What is wrong, as the end of the sentence "the timer …".
        branch: The contact.
        ends: Its terminals: it burns only where heavy wires end on all of them.
    """
    return tuple(
        FaultForm(
            f"{name}-{degree}",
            says,
            rate,
            (Patch("series", branch, JOINT_DEGREES[degree]),),
            degree_of=name,
            degree=f"about {show(JOINT_DEGREES[degree], 'Ω')}",
            between=ends,
        )
        for degree, rate in _BURNT_RATES.items()
    )


_BURNT_RATES = {"2": 0.7, "20": 0.3}


def leak_branch(part: PartValues, inside: str, case: str) -> Branch:
    """A dormant leak from inside a part to its case."""
    return Branch(part.branch("leak"), inside, case, LEAK_OHM, condition=NEVER)


def leaky(leak: Branch, rate: float) -> FaultForm:
    """The fault that wakes a leak."""
    says = f"leaks to its case (damp or worn insulation, {show(leak.ohm, 'Ω')} or so)"
    return FaultForm("leaky", says, rate, closed_patch(leak.name))


def closed_patch(*branches: str) -> tuple[Patch, ...]:
    """The branches conduct whatever their condition."""
    return tuple(Patch("closed", branch) for branch in branches)

"""House supplies that end at a panel: two legs of a split phase, or two legs of a wye.

Beyond the panel lie the service conductors; beside the machine, on the same neutral bar, the rest of the house. While
the service neutral is whole that rest changes nothing a machine would notice. Open, the two legs share the voltage
between them by what is on each, and the bar (with every ground wire on it) leaves earth.

Rates, resistances and shares: common practice, from memory.
"""

from __future__ import annotations

import cmath
import math

from halfsplit.circuit import Branch, Patch, Pole
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import CONTACT_OHM, FaultForm, Kind, Stamp, Surroundings, open_patch

LOW_SHARE, HIGH_SHARE = 0.78, 1.15
SERVICE_OHM = 0.03
"""Transformer and service drop, each conductor, ohm."""
REFER = "refer to the electricity supplier or a licensed electrician"
NEUTRAL_RATE, HIGH_RATE = 0.5, 0.5

LOAD_ON_LINE, LOAD_BESIDE = 144.0, 72.0
"""100 W on one leg and 200 W on the other: what a house at rest takes."""
ELECTRODE = Attribute(
    "earth electrode", "ohms", "Its resistance to earth; left out: none that counts, the worst case.", optional=True
)


def _split_phase(part: PartValues, around: Surroundings) -> Stamp:
    """Two legs in opposite phase: twice the volts between them."""
    del around
    volts = part.number("volts")
    return _two_legs(part, complex(volts), complex(-volts))


def _wye(part: PartValues, around: Surroundings) -> Stamp:
    """Two of the three legs of a wye: 120 degrees apart, so the voltage between them is √3 times that of one."""
    del around
    volts = part.number("volts")
    return _two_legs(part, complex(volts), cmath.rect(volts, -2.0 * math.pi / 3.0))


def _two_legs(part: PartValues, first: complex, second: complex) -> Stamp:
    held = {"L1": first, "L2": second, "N": 0j, "G": 0j}
    ohm, bar = part.number("leg resistance"), part.point("~bar")
    legs = tuple(Branch(part.branch(leg), part.point(f"~{leg}"), part.point(leg), ohm) for leg in ("L1", "L2"))
    screws = tuple(Branch(part.branch(end), bar, part.point(end), CONTACT_OHM) for end in ("N", "G"))
    loads = {leg: part.number(f"load on {leg}") for leg in ("L1", "L2")}
    return Stamp(
        (*legs, *screws, *service(part, ohm, loads)),
        tuple(Pole(part.point(f"~{end}"), volts) for end, volts in held.items()),
        faults=_faults(part),
        terminals=tuple(held),
        hertz=part.number("frequency"),
    )


def service(part: PartValues, ohm: float, loads: dict[str, float]) -> tuple[Branch, ...]:
    """What holds the neutral bar: the service neutral, the rest of the house on each leg, and the earth electrode.

    The rest of the house is not named like the part's other branches: a drawing takes those for what the supply
    brings to its terminals.

    Args:
        part: The supply; its poles `~N` and `~G` are the transformer's middle and true earth.
        ohm: Resistance of the service neutral.
        loads: Ohms on each leg, by the name of its pole.
    """
    bar = part.point("~bar")
    made = [Branch(part.branch("service-neutral"), part.point("~N"), bar, ohm)]
    made += [Branch(f"rest of {part.part}:{leg}", part.point(f"~{leg}"), bar, load) for leg, load in loads.items()]
    if part.has("earth electrode"):
        made.append(Branch(part.branch("electrode"), bar, part.point("~G"), part.number("earth electrode")))
    return tuple(made)


def service_faults(part: PartValues, legs: tuple[str, ...]) -> tuple[FaultForm, ...]:
    """What goes wrong before the panel, on every leg alike: too low, too high, and no service neutral."""

    def scaled(share: float) -> tuple[Patch, ...]:
        return tuple(Patch("scale", part.point(f"~{leg}"), share) for leg in legs)

    says = "has lost its service neutral: the voltage of each leg goes by what is on it"
    neutral = open_patch(part.branch("service-neutral"))
    return (
        FaultForm("low-voltage", "delivers about a fifth less than nominal", 2.0, scaled(LOW_SHARE), REFER),
        FaultForm("high-voltage", "delivers about a seventh more than nominal", HIGH_RATE, scaled(HIGH_SHARE), REFER),
        FaultForm("open-service-neutral", says, NEUTRAL_RATE, neutral, f"stop using it and {REFER} at once"),
    )


def _faults(part: PartValues) -> tuple[FaultForm, ...]:
    low, high, neutral = service_faults(part, ("L1", "L2"))
    return (
        FaultForm("lost-L1", "does not deliver L1 to the panel", 2.0, open_patch(part.branch("L1")), REFER),
        FaultForm("lost-L2", "does not deliver L2 to the panel", 3.0, open_patch(part.branch("L2")), REFER),
        FaultForm("open-neutral", "has lost its neutral to the outlet", 1.0, open_patch(part.branch("N")), REFER),
        low,
        FaultForm("open-ground", "has no ground to the outlet", 1.0, open_patch(part.branch("G")), REFER),
        high,
        neutral,
    )


_KEYS = (
    Attribute("volts", "volts", "Each leg to neutral.", 120.0),
    Attribute("frequency", "hertz", "Mains frequency.", 60.0),
    Attribute("leg resistance", "ohms", "Source resistance of each conductor up to the panel.", SERVICE_OHM),
    Attribute("load on L1", "ohms", "The rest of the house on that leg.", LOAD_ON_LINE),
    Attribute("load on L2", "ohms", "The rest of the house on that leg.", LOAD_BESIDE),
    ELECTRODE,
)
KINDS = (
    Kind(
        "split-phase supply",
        "House supply of two legs, neutral and ground; terminals L1 N L2 G.",
        _KEYS,
        _split_phase,
        early=True,
    ),
    Kind(
        "wye supply",
        "Two legs of a 120/208 V wye, neutral and ground; terminals L1 L2 N G.",
        _KEYS,
        _wye,
        early=True,
    ),
)

"""The high-voltage side of a microwave oven: transformer, capacitor, diode; the magnetron has its own file. Dead only.

Nothing is ever read there on a live machine, so no volts of it need be true; what counts is what a person notices and
what an ohmmeter finds. The doubler is therefore one path at the mains' frequency: through the capacitor to the
magnetron, which passes current only with its filament hot and a diode that passes. A shorted diode or capacitor loads
the transformer, which its leakage limits to a few times its current: it hums and heats nothing. Shares and rates:
common practice, from memory.
"""

from __future__ import annotations

import math

from halfsplit.circuit import NEVER, NO, YES, Branch, Drive, Patch, Threshold
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    Element,
    FaultForm,
    Kind,
    Shown,
    Stamp,
    Surroundings,
    closed_patch,
    open_patch,
)
from halfsplit.techsheet.kinds.transformers import Coil, elements, magnetising, wind

_SHORT_TIMES, _HUM_TIMES, _HUM_S = 3.0, 1.6, 0.5
SHORT_OHM, OPEN_OHM = 5.0, 1e9
_STRESS_OHM = 60.0
_FILAMENT_WINDING_OHM = 0.01
_FED_VOLTS, _FED_S, _LEAKS_OHM = 300.0, 0.02, 1e7
WHY = "it carries kilovolts that kill"
CAUTION = (
    "DANGER: the high-voltage capacitor of a microwave oven kills with the plug out. Only if you are qualified for it: "
    "plug out, discharge the capacitor to the case with an insulated tool, twice, before a hand or a probe goes in."
)


def _transformer(part: PartValues, around: Surroundings) -> Stamp:
    """Primary P1-P2, filament winding F1-F2, and S against the core G."""
    amps, hums = part.number("current"), part.branch("hums")
    coils = _coils(part, around.hertz)
    branches, core = wind(part, coils)
    touches = Branch(part.branch("secondary-to-core"), part.point("S"), part.point("G"), SHORT_OHM, condition=NEVER)
    hum = Threshold(part.branch("primary"), "amps", _HUM_TIMES * amps)
    return Stamp(
        (*branches, touches, magnetising(part, core, amps, around.hertz)),
        drives=(Drive(hums, ((hum,),), (hum,), _HUM_S),),
        transformers=(core,),
        faults=(
            FaultForm("primary-open", "has an open primary winding", 3.0, open_patch(part.branch("primary"))),
            FaultForm("secondary-open", "has an open secondary winding", 3.0, open_patch(part.branch("secondary"))),
            FaultForm("secondary-grounded", "has its secondary touching its core", 2.0, closed_patch(touches.name)),
            FaultForm("filament-open", "has an open filament winding", 1.0, open_patch(part.branch("filament"))),
        ),
        shows={"hum": Shown(variable=hums, position=YES)},
        elements=elements(part, coils),
        terminals=("P1", "P2", "F1", "F2", "S", "G"),
        dead_only=dict.fromkeys(("S", "F1", "F2"), WHY),
        beside=dict.fromkeys(("P1", "P2"), "it sits a finger's breadth from kilovolts that kill"),
        caution=CAUTION,
    )


def _coils(part: PartValues, hertz: float) -> tuple[Coil, Coil, Coil]:
    """The secondary's leakage holds its short circuit to a few times what the primary is rated for."""
    volts, amps, high = (part.number(key) for key in ("volts", "current", "secondary volts"))
    leakage = high / (_SHORT_TIMES * amps * volts / high) / (2.0 * math.pi * hertz)
    return (
        Coil("primary", ("P1", "P2"), volts, part.number("primary winding")),
        Coil("secondary", ("S", "G"), high, part.number("secondary winding"), leakage),
        Coil("filament", ("F1", "F2"), part.number("filament volts"), _FILAMENT_WINDING_OHM),
    )


def _capacitor(part: PartValues, around: Surroundings) -> Stamp:
    """An ohmmeter comes to rest at the bleed resistor inside it."""
    del around
    a, b = part.point("1"), part.point("2")
    passes, shorted, stress = (part.branch(name) for name in ("passes", "shorted", "stress"))
    mend = f"discharge the {part.title}, prove it, and change it with the diode"
    return Stamp(
        (
            Branch(passes, a, b, 1.0, dc_ohm=part.number("bleed resistor"), tolerance=0.1),
            Branch(shorted, a, b, SHORT_OHM, condition=NEVER),
            # A shorted one leaves its transformer on the diode alone; an ohmmeter finds nothing of that.
            Branch(stress, b, part.name("case"), _STRESS_OHM, dc_ohm=OPEN_OHM, condition=NEVER),
        ),
        faults=(
            FaultForm("open", "is open", 4.0, open_patch(passes), mend),
            FaultForm("shorted", "is shorted", 5.0, closed_patch(shorted, stress), mend),
        ),
        elements=(Element("capacitor", a, b, passes),),
        terminals=("1", "2"),
        dead_only=dict.fromkeys(("1", "2"), WHY),
        caution=CAUTION,
    )


def _diode(part: PartValues, around: Surroundings) -> Stamp:
    """High-voltage end 1, chassis end 2. An ohmmeter's few volts open none of its many junctions: it reads OL.

    It is `fed` while there is high voltage across it, which there is not with one of its leads off.
    """
    del around
    a, b = part.point("1"), part.point("2")
    blocks, shorted, works, fed = (part.branch(name) for name in ("blocks", "shorted", "works", "fed"))
    high = Threshold(blocks, "volts", _FED_VOLTS)
    return Stamp(
        (Branch(blocks, a, b, _LEAKS_OHM, dc_ohm=OPEN_OHM), Branch(shorted, a, b, SHORT_OHM, condition=NEVER)),
        drives=(Drive(fed, ((high,),), (high,), _FED_S),),
        variables={works: (YES, NO)},
        faults=(
            FaultForm("open", "is open: an ohmmeter cannot tell", 4.0, (Patch("pin", works, position=NO),)),
            FaultForm("shorted", "is shorted", 8.0, closed_patch(shorted)),
        ),
        elements=(Element("diode", a, b, blocks),),
        terminals=("1", "2"),
        dead_only={"1": WHY},
        caution=CAUTION,
    )


KINDS = (
    Kind(
        "high-voltage transformer",
        "Transformer of a microwave oven: primary P1-P2, filament F1-F2, S against its core G. It shows `hum` when it "
        "is overloaded. Dead checks only.",
        (
            Attribute("volts", "volts", "Rated primary voltage.", 120.0),
            Attribute("current", "amps", "Rated primary current."),
            Attribute("primary winding", "ohms", "Resistance an ohmmeter finds, P1 to P2."),
            Attribute("secondary volts", "volts", "Secondary voltage.", 2000.0),
            Attribute("secondary winding", "ohms", "Resistance an ohmmeter finds, S to G."),
            Attribute("filament volts", "volts", "Voltage of the filament winding.", 3.3),
        ),
        _transformer,
    ),
    Kind(
        "high-voltage capacitor",
        "Capacitor 1-2 of a microwave oven with its bleed resistor inside. It kills while charged. Dead checks only.",
        (
            Attribute("bleed resistor", "ohms", "Resistor inside it, which an ohmmeter comes to rest at.", 10e6),
            Attribute("case", "point", "The metal it is strapped to."),
        ),
        _capacitor,
    ),
    Kind(
        "high-voltage diode",
        "Diode of a microwave oven, high-voltage end 1 and chassis end 2: OL both ways on an ohmmeter when sound. Dead "
        "checks only.",
        (),
        _diode,
        early=True,
    ),
)

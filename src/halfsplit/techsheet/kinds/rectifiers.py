"""Diodes: half waves to what is behind them.

An ohmmeter has too few volts to open one: forward it reads anything from some hundred kilohms to OL, backward OL, so
that only a shorted one is plain on ohms. Rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NEVER, Branch
from halfsplit.techsheet.kinds.attribute import PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Stamp, Surroundings, closed_patch, open_patch

_FORWARD_OHM, _OHMMETER_OHM, _SHORT_OHM = 0.05, 2e6, 0.02


def _diode(part: PartValues, around: Surroundings) -> Stamp:
    """Anode 1, cathode 2 (the end with the band)."""
    del around
    a, b = part.point("1"), part.point("2")
    passes, shorted = part.branch("passes"), part.branch("shorted")
    return Stamp(
        (
            Branch(passes, a, b, _FORWARD_OHM, dc_ohm=_OHMMETER_OHM, tolerance=1.0, one_way=True),
            Branch(shorted, a, b, _SHORT_OHM, condition=NEVER),
        ),
        faults=(
            FaultForm("open", "is open", 4.0, open_patch(passes)),
            FaultForm("shorted", "is shorted", 6.0, closed_patch(shorted)),
        ),
        elements=(Element("diode", a, b, passes),),
        terminals=("1", "2"),
    )


KINDS = (
    Kind(
        "diode",
        "Diode, anode 1 and cathode 2 (the end with the band): behind it stand half waves. Up to six in a sheet.",
        (),
        _diode,
    ),
)

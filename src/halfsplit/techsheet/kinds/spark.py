"""Spark modules of ranges: they spark while they are fed and no flame burns.

Nothing is read at the electrode: its pulses of kilovolts are no reading, and a shock. Shares and rates: common
practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Patch, Threshold
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Shown, Stamp, Surroundings, open_patch

_MODULE_OHM, _WAKES_SHARE, _SPARKS_S = 8e3, 0.7, 0.1
_ELECTRODE_OHM = 20e6
_WHY = "it gives sparks of kilovolts, which are no reading and a shock"


def _module(part: PartValues, around: Surroundings) -> Stamp:
    """Mains L-N, electrode S; the frame it sparks to is the burner's own metal."""
    mains, sparks, blind = part.branch("mains"), part.branch("sparks"), part.branch("blind")
    taken = Branch(mains, part.point("L"), part.point("N"), _MODULE_OHM, dc_ohm=1e9, tolerance=0.3)
    enough = Threshold(mains, "amps", _WAKES_SHARE * part.number("volts") / _MODULE_OHM)
    (((setting, burning),),) = around.read_state(part.name("flame"))
    out = (setting, frozenset(around.positions(setting)) - burning)
    without: Condition = ((out,), ((blind, frozenset({YES})),))
    return Stamp(
        (taken, Branch(part.branch("electrode"), part.point("S"), part.point("N"), _ELECTRODE_OHM)),
        drives=(Drive(sparks, ((enough,),), (enough,), _SPARKS_S, without, without),),
        variables={blind: (NO, YES)},
        faults=(
            FaultForm("dead", "does not spark", 8.0, open_patch(mains)),
            FaultForm("sparks-on", "sparks on though the flame burns", 3.0, (Patch("pin", blind, position=YES),)),
            FaultForm("electrode", "has a cracked electrode: no spark", 8.0, (Patch("pin", sparks, position=NO),)),
        ),
        shows={"spark": Shown(variable=sparks, position=YES)},
        elements=(Element("box", part.point("L"), part.point("N"), mains),),
        terminals=("L", "N", "S"),
        dead_only={"S": _WHY},
    )


KINDS = (
    Kind(
        "spark module",
        "Igniter of a range, mains L-N and electrode S: it shows `spark` while it is fed and no flame burns.",
        (
            Attribute("volts", "volts", "Rated voltage.", 120.0),
            Attribute("flame", "state", "State in which the flame burns, as in `burner burning`."),
        ),
        _module,
    ),
)

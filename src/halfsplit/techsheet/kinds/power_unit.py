"""Switch-mode power units: mains in, direct volts out, isolated or with the low side on a mains terminal.

Awake above a threshold it holds its volts up to half more than its rated current; above that it stops until the mains
has been off. Shares, resistances, delays and rates: common practice, from memory.
"""

from __future__ import annotations

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Patch, Source, Threshold
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Shown, Stamp, Surroundings, open_patch

_DROP_SHARE, _LEAD_OHM, _TIE_OHM = 0.01, 1e-3, 0.01
_BLEED_TIMES = 200.0
_STOPS_TIMES, _STOPS_S, _WAKES_S = 1.5, 0.05, 0.3
_STAYS_SHARE, _SAGS_SHARE = 0.8, 0.6
CHARGED = "CAUTION: a power unit's capacitors stay charged for a while with the plug out: wait, and prove it dead."
LIVE_LOW_SIDE = (
    "DANGER: this low-voltage side hangs on the mains and counts as live. Its capacitors stay charged for a while with "
    "the plug out: wait, and prove it dead."
)


def _unit(part: PartValues, around: Surroundings) -> Stamp:
    """Mains L-N, direct volts + and -."""
    del around
    watts, mains = part.power("power")
    awake, stopped, low_side = part.branch("awake"), part.branch("stopped"), part.has("low side on")
    taken = Branch(part.branch("mains"), part.point("L"), part.point("N"), mains**2 / watts, dc_ohm=1e9, tolerance=0.3)
    wakes = _volts(taken, part.number("wakes at"))
    stays = _volts(taken, _STAYS_SHARE * part.number("wakes at"))
    feeds, others = _output(part, (((awake, frozenset({YES})), (stopped, frozenset({NO}))),))
    too_much = Threshold(feeds.name, "amps", _STOPS_TIMES * part.number("current"))
    source = part.branch("output")
    return Stamp(
        (taken, feeds, *others, *_tie(part)),
        drives=(
            Drive(awake, ((wakes,),), (stays,), _WAKES_S),
            Drive(stopped, ((too_much,),), (stays,), _STOPS_S),
        ),
        sources=(Source(source, part.point("~high"), part.point("~low"), direct=part.number("volts")),),
        faults=(
            FaultForm("dead", "gives nothing", 15.0, open_patch(taken.name, feeds.name)),
            FaultForm("sags", "gives too few volts", 5.0, (Patch("scale", source, _SAGS_SHARE),)),
        ),
        shows={"awake": Shown(variable=awake, position=YES), "holding": Shown(variable=stopped, position=NO)},
        elements=(Element("supply", taken.a, taken.b, taken.name),),
        terminals=("L", "N", "+", "-"),
        caution=LIVE_LOW_SIDE if low_side else CHARGED,
    )


def _volts(branch: Branch, volts: float) -> Threshold:
    """That voltage across a branch, by its current: one that a fault opened has voltage too."""
    return Threshold(branch.name, "amps", volts / branch.ohm)


def _output(part: PartValues, on: Condition) -> tuple[Branch, tuple[Branch, Branch]]:
    """What it feeds through, and its lead and bleed resistor."""
    volts, high, low = part.number("volts"), part.point("~high"), part.point("~low")
    rated = volts / part.number("current")
    feeds = Branch(part.branch("feeds"), high, part.point("+"), _DROP_SHARE * rated, dc_ohm=1e9, condition=on)
    return feeds, (
        Branch(part.branch("lead"), low, part.point("-"), _LEAD_OHM),
        Branch(part.branch("bleed"), part.point("+"), part.point("-"), _BLEED_TIMES * rated, tolerance=0.3),
    )


def _tie(part: PartValues) -> tuple[Branch, ...]:
    """What joins the low side to a mains terminal, where it is not isolated."""
    if not part.has("low side on"):
        return ()
    to = part.name("low side on")
    if to not in ("L", "N"):
        raise InputError(f"{quoted(part.part)} has no mains terminal {quoted(to)}.", "Write L or N.")
    return (Branch(part.branch("tie"), part.point(to), part.point("-"), _TIE_OHM),)


KINDS = (
    Kind(
        "switch-mode power unit",
        "Power unit with mains on L and N and direct volts at + and -; isolated unless its low side is on a mains "
        "terminal. It shows `awake`, and `holding` while it is not overloaded.",
        (
            Attribute("power", "power", "What it takes at its mains voltage."),
            Attribute("wakes at", "volts", "Mains voltage at which it wakes.", 80.0),
            Attribute("volts", "volts", "Its direct volts.", 12.0),
            Attribute("current", "amps", "Rated direct current.", 1.0),
            Attribute("low side on", "name", "Mains terminal its - hangs on: isolated if left out.", optional=True),
        ),
        _unit,
    ),
)

"""What opens by current: fuses, overload protectors, a one-pole breaker, and a breaker that trips on ground faults.

Multiples, delays and rates: common practice, from memory. The slow thermal release of breakers is left out: in a
household machine nothing between rating and five times it lasts.
"""

from __future__ import annotations

from dataclasses import replace

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Patch, Threshold, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    CONTACT_OHM,
    Element,
    FaultForm,
    Kind,
    Shown,
    Stamp,
    Surroundings,
    closed_patch,
    open_patch,
)

_FUSE_OHM = 0.02
_FUSE_TIMES, _FUSE_S = 2.0, 0.5
_SHORT_TIMES, _SHORT_S = 10.0, 0.005
_OPEN_FUSE_VOLTS = 25.0
"""No current that a sound fuse lasts for drops this much in it: a fuse with volts across it is open."""
_OVERLOAD_S = 6.0
_MAGNETIC_TIMES, _MAGNETIC_S = 5.0, 0.02
_LEAST_LEAKAGE, _MOST_LEAKAGE = 0.004, 0.5
_RESET = "reset it once; if it trips again, find out why"


def _fuse(part: PartValues, around: Surroundings) -> Stamp:
    """Twice its rating melts it within the second, ten times within a hundredth; it stays open.

    A short circuit melts it before a breaker's magnet has let go, so the quick melting is a drive of its own.
    """
    del around
    blown = part.branch("blown")
    mend = f"find out what drew too much, then change the {part.title} for the same rating"
    fault = FaultForm("blown", "has blown", 15.0, (Patch("pin", blown, position=YES),), mend)
    link, at_once, rating = part.branch("1-2"), part.branch("melted-at-once"), part.number("rating")
    is_open = (Threshold(link, "volts", _OPEN_FUSE_VOLTS),)
    melts = Drive(blown, (*_at(part, _FUSE_TIMES * rating), is_open), None, _FUSE_S)
    stamp = _one_link(part, "cut-off", blown, melts, (fault,), _FUSE_OHM)
    both: Condition = (((blown, frozenset({NO})), (at_once, frozenset({NO}))),)
    return replace(
        stamp,
        branches=tuple(replace(branch, condition=both) for branch in stamp.branches),
        drives=(Drive(at_once, _at(part, _SHORT_TIMES * rating), None, _SHORT_S), *stamp.drives),
    )


def _protector(part: PartValues, around: Surroundings) -> Stamp:
    """A disc that its own current warms; it closes again when it has cooled, which is beyond a setup's time."""
    del around
    tripped, link = part.branch("tripped"), part.branch("1-2")
    faults = (
        FaultForm("open", "does not close when it has cooled down", 6.0, open_patch(link)),
        FaultForm("welded", "does not open", 1.0, closed_patch(link)),
    )
    drive = Drive(tripped, _at(part, part.number("trips at")), None, _OVERLOAD_S)
    return _one_link(part, "thermostat", tripped, drive, faults, CONTACT_OHM)


def _at(part: PartValues, amps: float) -> tuple[tuple[Threshold, ...], ...]:
    return ((Threshold(part.branch("1-2"), "amps", amps),),)


def _one_link(
    part: PartValues, symbol: str, variable: str, drive: Drive, faults: tuple[FaultForm, ...], ohm: float
) -> Stamp:
    link, a, b = part.branch("1-2"), part.point("1"), part.point("2")
    return Stamp(
        (Branch(link, a, b, ohm, condition=when(variable, NO)),),
        drives=(drive,),
        faults=faults,
        shows={"holding": Shown(variable=variable, position=NO)},
        elements=(Element(symbol, a, b, link),),
        terminals=("1", "2"),
    )


def _breaker_faults(part: PartValues, poles: tuple[str, ...]) -> tuple[FaultForm, ...]:
    pinned = (Patch("pin", part.branch("tripped"), position=YES),)
    return (
        FaultForm("tripped", "has tripped and not been reset", 12.0, pinned, _RESET, price=0.0, minutes=2.0),
        FaultForm("open", "does not connect when it is on", 2.0, open_patch(*poles)),
    )


def _switched_on(part: PartValues, around: Surroundings) -> Condition:
    setting = part.name("setting")
    if "on" not in around.positions(setting):
        raise InputError(f"The setting {quoted(setting)} has no position 'on'.", "Add it to that setting.")
    return (((setting, frozenset({"on"})), (part.branch("tripped"), frozenset({NO}))),)


def _one_pole(part: PartValues, around: Surroundings) -> Stamp:
    """Line terminal 1, load terminal 2."""
    pole, tripped, a, b = part.branch("pole"), part.branch("tripped"), part.point("1"), part.point("2")
    short = ((Threshold(pole, "amps", _MAGNETIC_TIMES * part.number("rating")),),)
    return Stamp(
        (Branch(pole, a, b, CONTACT_OHM, condition=_switched_on(part, around)),),
        drives=(Drive(tripped, short, None, _MAGNETIC_S),),
        faults=_breaker_faults(part, (pole,)),
        shows={"holding": Shown(variable=tripped, position=NO)},
        elements=(Element("breaker", a, b, pole),),
        terminals=("1", "2"),
    )


def _ground_fault(part: PartValues, around: Surroundings) -> Stamp:
    """On one leg."""
    return _adds_up(part, around, ("L",))


def _ground_fault_on_two(part: PartValues, around: Surroundings) -> Stamp:
    """On two legs, as a range's or a dryer's."""
    return _adds_up(part, around, ("L1", "L2"))


def _adds_up(part: PartValues, around: Surroundings, legs: tuple[str, ...]) -> Stamp:
    """What does not come back by its legs and neutral has gone to earth some other way, and trips it.

    It adds their currents; the ground wire passes by unwatched, so a stray by a pipe or a person counts too. Class A
    devices do not trip below 4 mA and trip from 6 mA, within (20 mA / I)^1.43 s (UL 943; edition not recorded): 5 mA
    lies between. The ground faults of a sheet are of amperes, where that is 25 ms at most: as quick as a magnetic
    release. A leak of milliamperes would take seconds, but nothing else on a sheet waits for it.
    """
    limit = part.number("trips at")
    if not _LEAST_LEAKAGE <= limit <= _MOST_LEAKAGE:
        right = "From 5 mA to protect people up to 300 mA against fire."
        raise InputError(f"{quoted(part.part)} would trip at {1000 * limit:g} mA.", right)
    tripped, on = part.branch("tripped"), _switched_on(part, around)
    names = {end: part.branch(_THROUGH[end]) for end in (*legs, "N", "G")}
    branches = tuple(
        Branch(
            name,
            part.point(f"{end}-in"),
            part.point(f"{end}-out"),
            CONTACT_OHM,
            condition=((),) if end == "G" else on,
        )
        for end, name in names.items()
    )
    first, *beside = (name for end, name in names.items() if end != "G")
    at_once = _MAGNETIC_TIMES * part.number("rating")
    shorts = tuple((Threshold(names[leg], "amps", at_once),) for leg in legs)
    leak = (Threshold(first, "amps", limit, beside=tuple(beside)),)
    deaf = (Patch("pin", tripped, position=NO),)
    return Stamp(
        branches,
        drives=(Drive(tripped, (*shorts, leak), None, _MAGNETIC_S),),
        faults=(
            *_breaker_faults(part, (first, *beside)),
            FaultForm("deaf", "does not trip (its test button does nothing)", 2.0, deaf),
        ),
        shows={"holding": Shown(variable=tripped, position=NO)},
        elements=tuple(Element("breaker", branch.a, branch.b, branch.name) for branch in branches[:-1]),
        terminals=tuple(f"{end}-{side}" for side in ("in", "out") for end in names),
    )


_THROUGH = {"L": "line", "L1": "line-1", "L2": "line-2", "N": "neutral", "G": "ground"}
_STRAY = Attribute("trips at", "amps", "Stray current that trips it.", 0.005)
_RATING = Attribute("rating", "amps", "Rated current.")
_SETTING = Attribute("setting", "setting", "The setting with a position `on`.", "breaker")
KINDS = (
    Kind("fuse", "Fuse 1-2: twice its rating blows it for good, a short circuit at once.", (_RATING,), _fuse),
    Kind(
        "overload protector",
        "Protector 1-2 outside a motor: too much current for seconds opens it until it has cooled.",
        (Attribute("trips at", "amps", "Current that opens it within seconds."),),
        _protector,
    ),
    Kind(
        "one-pole breaker",
        "Breaker with line terminal 1 and load terminal 2; a short circuit trips it.",
        (_RATING, _SETTING),
        _one_pole,
    ),
    Kind(
        "ground-fault breaker",
        "Breaker that trips on stray current; L-in N-in G-in from the house, L-out N-out G-out to the outlet.",
        (_RATING, _STRAY, _SETTING),
        _ground_fault,
    ),
    Kind(
        "two-pole ground-fault breaker",
        "The same on two legs; L1-in L2-in N-in G-in from the house, L1-out L2-out N-out G-out to the outlet.",
        (_RATING, _STRAY, _SETTING),
        _ground_fault_on_two,
    ),
)

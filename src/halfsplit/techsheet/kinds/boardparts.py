"""What a board is made of, piece by piece: its supply, rails, inputs, outputs and codes, each a stamp of its own.

What may live here: one piece of a board as written to branches, sources, drives and faults. Resistances, delays and
rates: common practice, from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from halfsplit.circuit import NO, YES, Branch, Condition, Drive, Patch, Source, Threshold, when
from halfsplit.techsheet.kinds.attribute import PartValues
from halfsplit.techsheet.kinds.base import CONTACT_OHM, Element, FaultForm, Shown, Stamp, closed_patch, open_patch
from halfsplit.techsheet.kinds.boardwords import Code, Input, Output, Program, input_variable, own_variable

_WAKE_S, _SEES_S, _STARTS_S = 0.3, 0.02, 0.1
_ASLEEP_SHARE = 0.8
RAIL_OHM, _BLEED_OHM, SENDS_OHM, _SOURCE_OHM = 0.1, 47e3, 1e3, 0.3
_TRIAC_OHM, _SNUBBER_OHM, _SNUBBER_FARAD = 0.02, 100.0, 22e-9
_TIE_OHM = 0.01
_BLOCKED_OHM = 1e9


@dataclass(frozen=True, slots=True)
class Written:
    """A board as written, its phrases read: rails and lines by their two ends, with volts."""

    supply: tuple[str, str]
    rails: dict[str, tuple[tuple[str, str], float]]
    sends: dict[str, tuple[tuple[str, str], float]]
    inputs: dict[str, Input]
    outputs: dict[str, Output]
    codes: dict[str, Code]
    programs: dict[str, Program]
    low_side: str


def supplied(part: PartValues, written: Written, awake: str) -> Stamp:
    """It takes its power between two terminals and wakes above a threshold."""
    watts, volts = part.power("power")
    a, b = (part.point(end) for end in written.supply)
    taken = Branch(part.branch("supply"), a, b, volts**2 / watts, tolerance=0.2)
    wakes = Threshold(taken.name, "volts", part.number("wakes at"))
    stays = Threshold(taken.name, "volts", _ASLEEP_SHARE * part.number("wakes at"))
    ties: tuple[Branch, ...] = ()
    if written.low_side:
        lows = dict.fromkeys(ends[1] for ends, _ in written.rails.values())
        ties = tuple(
            Branch(part.branch(f"tie {low}"), part.point(written.low_side), part.point(low), _TIE_OHM) for low in lows
        )
    dead = FaultForm("dead", "does not wake though it has its supply", 10.0, (Patch("pin", awake, position=NO),))
    return Stamp(
        (taken, *ties),
        drives=(Drive(awake, ((wakes,),), (stays,), _WAKE_S),),
        faults=(dead,),
        shows={"awake": Shown(variable=awake, position=YES)},
        elements=(Element("board", a, b, taken.name),),
        terminals=written.supply,
    )


def fed(part: PartValues, name: str, stands: tuple[tuple[str, str], float], how: tuple[str, float]) -> Stamp:
    """A rail or a line whose ends stand at so many volts, behind so many ohms, while the board is awake."""
    awake, ohm = how
    lost = f"{name}-lost", f"has lost its {name}", 2.0
    return _source(part, name, stands, (ohm, when(awake, YES)), lost)


def _source(
    part: PartValues,
    name: str,
    stands: tuple[tuple[str, str], float],
    inside: tuple[float, Condition],
    lost: tuple[str, str, float],
) -> Stamp:
    """Two ends that stand at so many volts, behind so many ohms, while a condition holds; `lost` is how it fails."""
    (ends, volts), (ohm, condition) = stands, inside
    feeds, source = part.branch(name), part.branch(f"{name} source")
    high, low = f"{part.part}.~{name}+", f"{part.part}.~{name}-"
    a, b = (part.point(end) for end in ends)
    branches = (
        Branch(feeds, high, a, ohm, condition=condition),
        Branch(part.branch(f"{name} back"), low, b, CONTACT_OHM),
        Branch(part.branch(f"{name} bleed"), a, b, _BLEED_OHM, tolerance=0.3),
    )
    fault = FaultForm(*lost, open_patch(feeds))
    return Stamp(branches, faults=(fault,), terminals=ends, sources=(Source(source, high, low, direct=volts),))


def sensed(part: PartValues, name: str, found: Input, awake: str) -> Stamp:
    """What it senses between two terminals, with its pull-up."""
    sense, sees = part.branch(f"sense {name}"), input_variable(part.part, name)
    a, b = (part.point(end) for end in found.ends)
    branches = [Branch(sense, a, b, found.ohm, tolerance=0.05)]
    if found.pull_up is not None:
        ohm, rail = found.pull_up
        branches.append(Branch(part.branch(f"pull-up {name}"), part.point(rail), a, ohm, tolerance=0.02))
    limit = Threshold(sense, "volts", found.limit, above=found.above)
    on = when(awake, YES)
    blind = FaultForm(f"blind-{name}", f"does not see its input {name}", 2.0, (Patch("pin", sees, position=NO),))
    return Stamp(
        tuple(branches),
        drives=(Drive(sees, ((limit,),), (limit,), _SEES_S, on, on),),
        faults=(blind,),
        shows={f"sees {name}": Shown(variable=sees, position=YES)},
        terminals=found.ends,
    )


def driven(part: PartValues, name: str, output: Output, rule: Condition) -> Stamp:
    """What it drives while its rule holds."""
    if output.how == "source":
        silent = f"{name}-open", f"gives nothing at its output {name}", 5.0
        return _source(part, name, (output.ends, output.volts), (_SOURCE_OHM, rule), silent)
    a, b = (part.point(end) for end in output.ends)
    ohm = _TRIAC_OHM if output.how == "triac" else CONTACT_OHM
    contact = Branch(part.branch(name), a, b, ohm, condition=rule)
    branches = (contact, *(_snubber(part, name, a, b) if output.how == "triac" else ()))
    faults = (
        FaultForm(f"{name}-open", f"does not close its output {name}", 5.0, open_patch(contact.name)),
        FaultForm(f"{name}-shorted", f"does not open its output {name}", 3.0, closed_patch(contact.name)),
    )
    elements = (Element("contact", a, b, contact.name),)
    return Stamp(branches, faults=faults, elements=elements, terminals=output.ends)


def _snubber(part: PartValues, name: str, a: str, b: str) -> tuple[Branch, ...]:
    """What an off triac leaks through: without a load its output reads nearly all of the line on 10 MΩ."""
    middle = part.point(f"~snubber {name}")
    return (
        Branch(part.branch(f"snubber {name}"), a, middle, _SNUBBER_OHM),
        Branch(part.branch(f"snubber capacitor {name}"), middle, b, _BLOCKED_OHM, farad=_SNUBBER_FARAD, tolerance=0.2),
    )


def shown(part: PartValues, name: str, code: Code, rule: Condition) -> Stamp:
    """It comes when its rule has held so long; a latched one stays when the rule no longer does."""
    variable = own_variable(part.part, "code", name)
    hold = None if code.latched else ()
    drive = Drive(variable, ((),), hold, code.seconds, rule, rule)
    return Stamp(drives=(drive,), shows={f"code {name}": Shown(variable=variable, position=YES)})


def run(part: PartValues, name: str, starts: Condition, goes_on: Condition) -> Stamp:
    """What it remembers between one push of a button and the next."""
    variable = own_variable(part.part, "program", name)
    return Stamp(
        drives=(Drive(variable, ((),), (), _STARTS_S, starts, goes_on),),
        shows={f"program {name}": Shown(variable=variable, position=YES)},
    )

"""Checks as a technician needs them: where the probes go, in which setup, what each outcome would mean, how careful."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import cast

import numpy as np

from halfsplit.call.beside import drop_says, ways_say, wire_between
from halfsplit.call.case import Case
from halfsplit.call.degrees import by_whole, says_in_degrees
from halfsplit.call.engine import Engine, Mask
from halfsplit.nextcheck import (
    LEAST_GAIN,
    Worth,
    bits_of,
    chance_of,
    check_minutes,
    mend_of,
    place_of,
    zones_of,
    zones_opened,
)
from halfsplit.predict import Outcomes, Real, expected, ghosts, is_dead, lifts_worth, ways_between
from halfsplit.techsheet import Machine
from halfsplit.trade import NOT_ON_SHEET, Action, Evidence, Level, Look, Measure, Reading, Seen, Suspect
from halfsplit.units import METER_MODES, show_share

DEAD = (
    "CAUTION: unplug it, and prove it dead with a meter you know is good: known live point, this point, "
    "known live point again. Sharp edges: gloves."
)
PUTS_VOLTS = (
    "An insulation tester puts its voltage on the wiring: unplug electronics from it first, touch nothing while it "
    "tests, and let it discharge what it charged."
)
TESTER = f"{DEAD} {PUTS_VOLTS}"
LIVE = (
    "DANGER: live work at up to 240 V. Only if you are qualified for it: one hand, insulated probes, nothing lifted, "
    "nothing bridged. Local codes and the maker's sheet come first."
)
LOOKING = "CAUTION: covers on, hands clear of everything that turns while it runs."
BY_HAND = "CAUTION: unplug it first. Sharp edges: gloves."
_SIGNALS = ("DANGER", "WARNING", "CAUTION")
_MEANS_SHARE = 0.04
_MANY = 20
"""More degrees than this no fault has: what holds less than this part of a share worth naming adds nothing to it."""
_MOST_MEANT = 4
_LEAST_CHANCE = 0.015


@dataclass(frozen=True, slots=True)
class OutcomeView:
    """One outcome: its label, how likely, what it would mean, likeliest first, and the evidence that it would be."""

    label: str
    chance: float
    means: tuple[str, ...]
    item: Evidence


@dataclass(frozen=True, slots=True)
class NextCheck:
    """A proposed check in words.

    Attributes:
        action: What to do.
        title: The same as a sentence.
        setup_says: The state to bring about first.
        meter: Meter mode in words; empty for a look.
        minutes: Time it takes, covers included.
        beside: For ohms: what shares the measuring current in a sound machine, and which lead to lift. For the drop
            along a wire: what a bad joint would make of it.
        zones: What must come off.
        caution: The caution that belongs to it.
        live: Whether the probes go on a live machine.
        outcomes: What it can turn out to be.
        why: Why this one.
    """

    action: Action
    title: str
    setup_says: str
    meter: str
    beside: tuple[str, ...]
    minutes: float
    zones: tuple[str, ...]
    caution: str
    live: bool
    outcomes: tuple[OutcomeView, ...]
    why: str


def action_of(item: Evidence) -> Action:
    """The check that an item of evidence is the outcome of."""
    return Look(item.function, item.setup) if isinstance(item, Seen) else Measure(item.points, item.mode, item.setup)


def opened_on(machine: Machine, case: Case) -> frozenset[str]:
    """Zones that are open: those that the checks made, and what was changed, have opened."""
    mended = {fault.zone for name, fault in machine.faults.items() if mend_of(machine, name).thing in case.changed}
    return zones_opened(machine, [action_of(item) for item in case.evidence]) | mended


def offered_checks(
    machine: Machine, groups: Sequence[tuple[Action, ...]], case: Case, opened: frozenset[str]
) -> tuple[Action, ...]:
    """From each group of equally telling checks the quickest still open; not the same place again, made or skipped."""
    made = _made(case)
    offered = []
    for group in groups:
        done = {place_of(action) for action in group if action in made or action in case.skipped}
        free = [action for action in group if place_of(action) not in done and not _out_of_reach(action, case)]
        offered += sorted(free, key=lambda a: check_minutes(machine, a, opened))[:1] if len(free) > 1 else free
    return tuple(offered)


def open_proofs(proofs: Mapping[str, tuple[Action, ...]], offered: tuple[Action, ...], case: Case) -> dict[str, Action]:
    """The check to look at each fault with: the quickest still offered; none where it was looked at already."""
    made, free = _made(case), set(offered)
    found = {}
    for fault, actions in proofs.items():
        still = [action for action in actions if action in free]
        if still and not made & set(actions):
            found[fault] = still[0]
    return found


def _made(case: Case) -> frozenset[Action]:
    """Checks that the technician has made on the machine as it stands now."""
    return frozenset(action_of(item) for item in case.latest if not (isinstance(item, Seen) and item.by == "customer"))


def _out_of_reach(action: Action, case: Case) -> bool:
    return isinstance(action, Measure) and bool(case.unreachable & set(action.points))


def describe_check(
    engine: Engine, worth: Worth, shares: Real, suspects: tuple[Suspect, ...], without: float
) -> NextCheck:
    """A ranked check in words."""
    machine = engine.machine
    outcomes = worth.offer.outcomes
    action = outcomes.action
    return NextCheck(
        action=action,
        title=title_of(machine, action),
        setup_says=machine.setups[action.setup].says,
        meter="" if isinstance(action, Look) else METER_MODES[action.mode].dial,
        beside=_beside(engine, action),
        minutes=worth.minutes,
        zones=_zones(machine, action),
        caution=caution_of(engine, action),
        live=worth.offer.live,
        outcomes=_outcome_views(engine, outcomes, shares, suspects),
        why=_why(machine, worth, bits_of(outcomes, shares), without),
    )


def title_of(machine: Machine, action: Action) -> str:
    """A check as a short instruction."""
    if isinstance(action, Look):
        return machine.functions[action.function].ask
    a, b = action.points
    along = ", the drop along this wire" if action.mode == "volts" and wire_between(machine, action.points) else ""
    return f"{METER_MODES[action.mode].ask.format(a=a, b=b)}{along}"


def caution_of(engine: Engine, action: Action) -> str:
    """The caution that belongs to a check."""
    if isinstance(action, Look):
        return BY_HAND if is_dead(engine.singles, engine.machine.setups[action.setup]) else LOOKING
    meter = METER_MODES[action.mode]
    of_the_meter = LIVE if meter.needs == "live" else TESTER if meter.puts_volts else DEAD
    return _under_one_signal((*_of_its_parts(engine.machine, action), of_the_meter))


def _under_one_signal(cautions: tuple[str, ...]) -> str:
    """Several cautions as one, under the gravest of their signal words (ANSI Z535.6), which stands once."""
    words, texts = zip(*(caution.split(": ", 1) for caution in cautions), strict=True)
    first, *others = texts
    return " ".join(
        (f"{min(words, key=_SIGNALS.index)}: {first}", *(f"{text[0].upper()}{text[1:]}" for text in others))
    )


def _of_its_parts(machine: Machine, action: Measure) -> tuple[str, ...]:
    """What the kinds of the parts under the probes have to say, each once."""
    names = (point.rpartition(".")[0] for point in action.points)
    return tuple(dict.fromkeys(caution for name in names if (caution := machine.parts[name].caution)))


def _beside(engine: Engine, action: Action) -> tuple[str, ...]:
    if isinstance(action, Look):
        return ()
    if action.mode != "ohms":
        return drop_says(engine, action)
    machine, sound = engine.machine, engine.singles.healthy
    setup = machine.setups[action.setup]
    ohm = float(expected(sound, (action.points,), "ohms", setup).mean[0, 0])
    return ways_say(machine, ways_between(sound, action.points, setup), lifts_worth(sound, action.points, setup), ohm)


def _zones(machine: Machine, action: Action) -> tuple[str, ...]:
    if isinstance(action, Look):
        return ()
    needed = zones_of(machine, action)
    zones = dict.fromkeys(machine.zone_of_point(point) for point in action.points)
    return tuple(machine.zones[zone].title for zone in zones if zone in needed)


def _outcome_views(
    engine: Engine, outcome: Outcomes, shares: Real, suspects: tuple[Suspect, ...]
) -> tuple[OutcomeView, ...]:
    chances = chance_of(outcome, shares)
    ghostly = _ghostly(engine, outcome.action, len(suspects))
    views = []
    for label, chance, row, value in zip(outcome.labels, chances, outcome.chances, outcome.values, strict=True):
        if chance > _LEAST_CHANCE:
            means = _meaning(engine, ghostly, row * shares / chance, suspects)
            views.append(OutcomeView(label, float(chance), means, entered(outcome.action, value)))
    return tuple(views)


def entered(action: Action, value: Level | float) -> Evidence:
    """An outcome of a check as the evidence that it would be: a level seen, or the middle of a band of readings."""
    if isinstance(action, Look):
        return Seen(action.function, cast("Level", value), "technician", action.setup)
    return Reading(action.points, action.mode, action.setup, cast("float", value))


def _meaning(engine: Engine, ghostly: Mask, after: Real, suspects: tuple[Suspect, ...]) -> tuple[str, ...]:
    """The likeliest suspects after an outcome in words; of one that is here a ghost voltage only, that it is."""
    some = (int(index) for index in np.argsort(-after, kind="stable") if after[index] > _MEANS_SHARE / _MANY)
    listed = [index for index in some if suspects[index] != NOT_ON_SHEET]
    meant = []
    for group in by_whole(engine.machine, suspects, listed):
        ghost = ", as a ghost voltage" if ghostly[group[0]] else ""
        says = f"{says_in_degrees(engine.machine, suspects, group, after)}{ghost}"
        meant.append((float(after[list(group)].sum()), says))
    meant += [(float(after[place]), "not on this sheet") for place, it in enumerate(suspects) if it == NOT_ON_SHEET]
    meant.sort(key=lambda one: -one[0])
    return tuple(f"{says} ({show_share(share)})" for share, says in meant[:_MOST_MEANT] if share > _MEANS_SHARE)


def _ghostly(engine: Engine, action: Action, many: int) -> Mask:
    """Which suspects show here as a ghost voltage only; pairs are not asked."""
    ghostly = np.zeros(many, dtype=bool)
    if isinstance(action, Measure):
        singles, setup = engine.singles, engine.machine.setups[action.setup]
        ghostly[: len(singles.suspects)] = ghosts(singles, action.points, action.mode, setup)
    return ghostly


def _why(machine: Machine, worth: Worth, bits: float, without: float) -> str:
    """The reason for a check, in money and bits."""
    information = f"about {bits:.1f} bits of what is unknown"
    if worth.gain > LEAST_GAIN:
        saves = f"It saves about {worth.gain:.0f} {machine.currency} of {without:.0f} expected to the end of the repair"
    else:
        saves = "Nothing splits what is left better than looking at the likeliest thing before it is changed"
    live = " No dead check is worth its time any more, so this one is live." if worth.offer.live else ""
    return f"{saves} ({information}).{live}"

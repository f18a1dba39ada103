"""The next check, and the other checks worth their time, as the page shows them."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from halfsplit.call import Advice, NextCheck
from halfsplit.desk.pages.words import LEVEL_WORDS, UNIT_WORDS, signal
from halfsplit.drawing import describe_rungs, draw_rungs, standing_in
from halfsplit.techsheet import Machine
from halfsplit.trade import Action, Look, Measure
from halfsplit.units import METER_MODES, show_share


@dataclass(frozen=True, slots=True)
class OutcomeLine:
    """One outcome: label, how likely, and what it would mean."""

    label: str
    chance: str
    means: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OtherCheck:
    """Another check, as a link."""

    key: str
    title: str
    setup: str
    minutes: str
    live: bool


@dataclass(frozen=True, slots=True)
class Drawing:
    """The wiring with the two points marked, and the same in words."""

    svg: SafeString
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CheckShown:
    """The check to make now.

    Attributes:
        fields: What its forms send along: the points, mode and setup, or the function.
        levels: For a look: value and word of each answer; empty for a reading.
        unit: For a reading: what the field takes.
        keypad: For a reading: the keys a telephone offers; those for decimals have no minus.
        has_open: Whether the meter can show OL here.
        points: For a reading: the two points, A and B.
    """

    title: str
    signal_word: str
    caution: str
    live: bool
    setup: str
    zones: tuple[str, ...]
    meter: str
    beside: tuple[str, ...]
    minutes: str
    drawing: Drawing | None
    fields: tuple[tuple[str, str], ...]
    levels: tuple[tuple[str, str], ...]
    unit: str
    keypad: str
    has_open: bool
    points: tuple[str, ...]
    outcomes: tuple[OutcomeLine, ...]
    why: str
    others: tuple[OtherCheck, ...]
    chosen: bool


def check_shown(machine: Machine, advice: Advice, wanted: str) -> CheckShown | None:
    """The check with the key `wanted` if it is among those worth their time, else the one proposed; None at an end."""
    offered = [check for check in (advice.next, *advice.others) if check is not None]
    if not offered:
        return None
    check = next((check for check in offered if key_of(check.action) == wanted), offered[0])
    signal_word, caution = signal(check.caution)
    return CheckShown(
        title=check.title,
        signal_word=signal_word,
        caution=caution,
        live=check.live,
        setup=check.setup_says,
        zones=check.zones,
        meter=check.meter,
        beside=check.beside,
        minutes=_minutes(check),
        drawing=_drawing(machine, check.action),
        fields=_fields(check.action),
        levels=_levels(check.action),
        unit=UNIT_WORDS[check.action.mode] if isinstance(check.action, Measure) else "",
        keypad=_keypad(check.action),
        has_open=isinstance(check.action, Measure) and METER_MODES[check.action.mode].opens,
        points=check.action.points if isinstance(check.action, Measure) else (),
        outcomes=_outcomes(check),
        why=check.why,
        others=tuple(_other(other) for other in offered if other is not check),
        chosen=check is not offered[0],
    )


def key_of(action: Action) -> str:
    """A name for a check that an address can carry."""
    if isinstance(action, Look):
        return "|".join(("look", action.function, action.setup))
    return "|".join((action.mode, *action.points, action.setup))


def _minutes(check: NextCheck) -> str:
    return f"about {check.minutes:.0f} min"


def _drawing(machine: Machine, action: Action) -> Drawing | None:
    if isinstance(action, Look):
        return None
    standing = standing_in(machine.setups[action.setup])
    svg = draw_rungs(machine, action.points, standing=standing)
    return Drawing(mark_safe(svg), describe_rungs(machine, action.points, standing))  # noqa: S308  # `drawing` escapes all text


def _keypad(action: Action) -> str:
    plain = isinstance(action, Measure) and not METER_MODES[action.mode].signed
    return "decimal" if plain else "text"


def _fields(action: Action) -> tuple[tuple[str, str], ...]:
    if isinstance(action, Look):
        return (("function", action.function), ("setup", action.setup))
    a, b = action.points
    return (("a", a), ("b", b), ("mode", action.mode), ("setup", action.setup))


def _levels(action: Action) -> tuple[tuple[str, str], ...]:
    if isinstance(action, Measure):
        return ()
    return tuple((f"{level}/{action.function}", word) for level, word in LEVEL_WORDS.items())


def _outcomes(check: NextCheck) -> tuple[OutcomeLine, ...]:
    words = {str(level): word for level, word in LEVEL_WORDS.items()} if isinstance(check.action, Look) else {}
    return tuple(
        OutcomeLine(words.get(view.label, view.label), show_share(view.chance), view.means) for view in check.outcomes
    )


def _other(check: NextCheck) -> OtherCheck:
    return OtherCheck(key_of(check.action), check.title, check.setup_says, _minutes(check), check.live)

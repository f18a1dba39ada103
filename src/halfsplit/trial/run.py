"""One blind call from complaint to cured, and many of them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from halfsplit.call import Case, Engine, action_of
from halfsplit.nextcheck import Rates, check_minutes, is_live, zone_minutes, zones_opened
from halfsplit.trade import Suspect
from halfsplit.trial.people import Noise, World, answer, complaint, draw_truth, world
from halfsplit.trial.strategies import HAND_BACK, STRATEGIES, Move

MOST_CHECKS, MOST_CHANGES = 30, 5


@dataclass(frozen=True, slots=True)
class Outcome:
    """How one call went.

    Attributes:
        truth: The hidden faults.
        strategy: Which one.
        first_right: Whether the first thing changed (or handing back a sound machine) was right.
        wrong_parts: Things changed in vain.
        cured: Whether it was cured, or rightly handed back.
        share: What the strategy's belief gave the first thing it changed.
        checks: Checks made; `live` of them on a live machine.
        minutes: Time, covers included.
        money: Time, parts and mistakes, in the sheet's currency.
    """

    truth: tuple[str, ...]
    strategy: str
    first_right: bool
    wrong_parts: int
    cured: bool
    share: float
    checks: int
    live: int
    minutes: float
    money: float


def trial(engine: Engine, cases: int, seed: int, noise: Noise, names: tuple[str, ...]) -> tuple[Outcome, ...]:
    """Every strategy on the same `cases` hidden calls; call number i draws from its own generator."""
    outcomes = []
    for number in range(cases):
        hidden = world(engine, draw_truth(engine, np.random.default_rng([seed, number, 0])))
        told = complaint(engine, hidden, noise, np.random.default_rng([seed, number, 1]))
        for name in names:
            rng = np.random.default_rng([seed, number, 2])
            outcomes.append(run_case(engine, hidden, Case(evidence=told), name, noise, rng))
    return tuple(outcomes)


def run_case(engine: Engine, hidden: World, case: Case, name: str, noise: Noise, rng: np.random.Generator) -> Outcome:
    """One call with one strategy."""
    strategy = STRATEGIES[name]
    minutes, live, checks = 0.0, 0, 0
    move = strategy(engine, case, rng)
    while move.check is not None and checks < MOST_CHECKS:
        opened = zones_opened(engine.machine, [action_of(item) for item in case.evidence])
        minutes += check_minutes(engine.machine, move.check, opened)
        live += is_live(move.check)
        checks += 1
        kept = case if move.instead_of is None else case.without(move.instead_of)
        case = kept.plus(answer(hidden, move.check, noise, rng))
        move = strategy(engine, case, rng)
    opened = zones_opened(engine.machine, [action_of(item) for item in case.evidence])
    end = _repair(engine, hidden, move, opened)
    total, money = minutes + end.minutes, end.money + minutes * Rates().minute
    return replace(end, strategy=name, checks=checks, live=live, minutes=total, money=money)


def _repair(engine: Engine, hidden: World, move: Move, opened: frozenset[str]) -> Outcome:
    """Change things in order until it is cured; a sick machine handed back costs a callback, and the next is tried."""
    rates, left = Rates(), set(hidden.things)
    minutes = money = 0.0
    wrong, changes, done = 0, 0, False
    first_right: bool | None = None
    for name in move.change:
        if done or changes >= MOST_CHANGES:
            break
        right = not left if name == HAND_BACK else bool(left & set(name.split(" + ")))
        first_right = right if first_right is None else first_right
        if name == HAND_BACK:
            done = right
            money += 0.0 if right else rates.callback
            continue
        changes += 1
        for thing in name.split(" + "):
            spent, price = _cost(engine, hidden.truth, thing, opened)
            minutes, money = minutes + spent, money + price
            wrong += thing not in left
            money += 0.0 if thing in left else rates.wrong_part
            left.discard(thing)
        minutes += rates.test_run_minutes
        done = not left
    money += minutes * rates.minute + (0.0 if done else rates.refer)
    return Outcome(hidden.truth.faults, "", bool(first_right), wrong, done, move.share, 0, 0, minutes, money)


def _cost(engine: Engine, truth: Suspect, thing: str, opened: frozenset[str]) -> tuple[float, float]:
    """Minutes and price of mending a thing: as its hidden fault asks, or as its dearest does when it was sound."""
    faults = [fault for fault in engine.machine.faults.values() if fault.thing == thing]
    own = [fault for fault in faults if fault.name in truth.faults]
    fault = own[0] if own else max(faults, key=lambda it: it.price)
    return fault.minutes + zone_minutes(engine.machine, {fault.zone} - opened), fault.price

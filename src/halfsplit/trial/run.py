"""One blind call from complaint to cured, and many of them.

A strategy checks, changes things, hands the machine back or hands the case on, one move at a time. After a change the
machine is run, and what the customer complained of is looked at; what is seen is evidence on the machine as it stands
then, for every strategy alike.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from halfsplit.call import Case, Engine, opened_on
from halfsplit.nextcheck import Rates, check_minutes, is_live, mend_of, zone_minutes
from halfsplit.trade import Action, Look, Seen
from halfsplit.trial.people import (
    Noise,
    World,
    answer,
    complaint,
    draw_truth,
    mistaken_sheet,
    shows,
    what_is_off,
    world,
)
from halfsplit.trial.strategies import HAND_BACK, STRATEGIES

Hidden = Literal["rates", "two", "mistake"]
"""What is hidden: faults drawn from the rates, two faults always, or the sheet has a mistake besides."""
MOST_CHECKS, MOST_CHANGES, MOST_CALLBACKS = 30, 5, 1


@dataclass(frozen=True, slots=True)
class Outcome:
    """How one call went.

    Attributes:
        truth: The hidden faults.
        strategy: Which one.
        first_right: Whether the first thing changed (or handing back a sound machine) was right.
        wrong_parts: Things changed in vain.
        cured: Whether it was handed back with nothing that a person could complain of.
        left: Hidden faults still there at the end, seen by nobody or not.
        share: What the strategy's belief gave the first thing it changed.
        checks: Checks made; `live` of them on a live machine.
        callbacks: Times it was handed back and was not right.
        minutes: Time, covers included.
        money: Time, parts and mistakes, in the sheet's currency.
    """

    truth: tuple[str, ...]
    strategy: str
    first_right: bool
    wrong_parts: int
    cured: bool
    left: tuple[str, ...]
    share: float
    checks: int
    live: int
    callbacks: int
    minutes: float
    money: float


def trial(
    engine: Engine, cases: int, seed: int, noise: Noise, names: tuple[str, ...], what: Hidden = "rates"
) -> tuple[Outcome, ...]:
    """Every strategy on the same `cases` hidden calls; call number i draws from its own generator.

    Raises:
        InputError: Two faults are wanted of a sheet that has no likely pair.
    """
    outcomes = []
    for number in range(cases):
        truth = draw_truth(engine, np.random.default_rng([seed, number, 0]), two=what == "two")
        real = mistaken_sheet(engine, np.random.default_rng([seed, number, 3])) if what == "mistake" else None
        hidden = world(engine, truth, real)
        told = complaint(engine, hidden, noise, np.random.default_rng([seed, number, 1]))
        for name in names:
            rng = np.random.default_rng([seed, number, 2])
            outcomes.append(run_case(engine, hidden, Case(evidence=told), name, noise, rng))
    return tuple(outcomes)


def run_case(engine: Engine, hidden: World, case: Case, name: str, noise: Noise, rng: np.random.Generator) -> Outcome:
    """One call with one strategy."""
    visit = _Visit(engine, noise, rng, Rates(), hidden, case)
    visit.go(name)
    return visit.outcome(hidden, name)


@dataclass
class _Visit:
    """A visit as it goes: the machine as it is by now, what is known, and what was spent."""

    engine: Engine
    noise: Noise
    rng: np.random.Generator
    rates: Rates
    hidden: World
    case: Case
    minutes: float = 0.0
    money: float = 0.0
    checks: int = 0
    live: int = 0
    callbacks: int = 0
    wrong: int = 0
    cured: bool = False
    first: tuple[bool, float] | None = None
    asked: tuple[Look, ...] = field(init=False)

    def __post_init__(self) -> None:
        """What the customer complains of is looked at after every change."""
        told = [item for item in self.case.evidence if isinstance(item, Seen)]
        self.asked = tuple(Look(item.function, item.setup) for item in told)

    def go(self, name: str) -> None:
        """Move after move until it is handed back for good, or handed on."""
        strategy = STRATEGIES[name]
        while True:
            move = strategy(self.engine, self.case, self.rng)
            if move.check is not None and self.checks < MOST_CHECKS:
                self._check(move.check, move.instead_of)
            elif move.check is not None or move.change is None or self._hopeless():
                self.money += self.rates.refer
                return
            elif move.change != HAND_BACK:
                self._change(move.change, move.share)
            elif self._hand_back(move.share):
                return

    def outcome(self, began: World, name: str) -> Outcome:
        """What came of it."""
        right, share = self.first or (False, 0.0)
        money = self.money + self.minutes * self.rates.minute
        left = self.hidden.truth.faults
        counts = (self.checks, self.live, self.callbacks, self.minutes, money)
        return Outcome(began.truth.faults, name, right, self.wrong, self.cured, left, share, *counts)

    def _hopeless(self) -> bool:
        return len(self.case.changed) >= MOST_CHANGES or self.callbacks > MOST_CALLBACKS

    def _check(self, check: Action, instead_of: int | None) -> None:
        self.minutes += check_minutes(self.engine.machine, check, opened_on(self.engine.machine, self.case))
        self.live += is_live(check)
        self.checks += 1
        kept = self.case if instead_of is None else self.case.without(instead_of)
        self.case = kept.plus(answer(self.hidden, check, self.noise, self.rng))

    def _change(self, name: str, share: float) -> None:
        """Change or mend what is named, run the machine, and look at what was complained of."""
        wanted = self.hidden.things
        things = [thing for thing in name.split(" + ") if thing not in self.case.changed]
        self.first = self.first or (bool(wanted & set(things)), share)
        for thing in things:
            spent, price = self._cost(thing)
            self.minutes, self.money = self.minutes + spent, self.money + price
            self.wrong += thing not in wanted
            self.money += 0.0 if thing in wanted else self.rates.wrong_part
            self.case = self.case.change(thing)
        left = [fault for fault in self.hidden.truth.faults if mend_of(self.engine.machine, fault).thing not in things]
        self.hidden = world(self.engine, replace(self.hidden.truth, faults=tuple(left)), self.hidden.predictor.machine)
        self.minutes += self.rates.test_run_minutes
        seen = (answer(self.hidden, look, self.noise, self.rng) for look in self.asked)
        self.case = self.case.plus(*seen)

    def _hand_back(self, share: float) -> bool:
        """Whether that was the end. A machine that is not right is called back for, with what is off seen then."""
        self.cured = not shows(self.engine, self.hidden.truth)
        self.first = self.first or (self.cured, share)
        if self.cured:
            return True
        self.callbacks += 1
        self.money += self.rates.callback
        off = what_is_off(self.engine, self.hidden, self.rng)
        setups = {name: self.engine.machine.functions[name].setup for name in off}
        self.asked = tuple(dict.fromkeys((*self.asked, *(Look(name, setup) for name, setup in setups.items()))))
        self.case = self.case.plus(*(Seen(name, off[name], "technician", setups[name]) for name in off))
        return False

    def _cost(self, thing: str) -> tuple[float, float]:
        """Minutes and price of mending a thing: as its hidden fault asks, or as its dearest does when it was sound."""
        machine = self.engine.machine
        mends = {name: mend for name in machine.faults if (mend := mend_of(machine, name)).thing == thing}
        own = [name for name in mends if name in self.hidden.truth.faults]
        name = own[0] if own else max(mends, key=lambda name: mends[name].price)
        zones = {machine.faults[name].zone} - opened_on(machine, self.case)
        return mends[name].minutes + zone_minutes(machine, zones), mends[name].price

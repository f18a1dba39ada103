"""Ways to go about a call, on the same belief: what to check next, or what to change.

Ours asks `advise`. The peers: a fixed part-by-part order by how often parts fail; the same by share over cost; the
check with most information; checks drawn at random. All change a thing once it holds `SURE` of the belief, and when
nothing is left to check they change what is likeliest.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from halfsplit.call import Advice, Case, Engine, action_of, advise, conflicting, offered_checks, opened_on, things_of
from halfsplit.nextcheck import Rates, bits_of, check_minutes, mend_of
from halfsplit.trade import Action

SURE = 0.8
_LEAST_BITS = 0.02
HAND_BACK = ""


@dataclass(frozen=True, slots=True)
class Move:
    """A check to make, or a thing to change (`HAND_BACK` for nothing) with the share it holds; neither: hand it on.

    `instead_of` is the number of an item that the check is to replace: it is read again.
    """

    check: Action | None = None
    instead_of: int | None = None
    change: str | None = None
    share: float = 0.0


Strategy = Callable[[Engine, Case, np.random.Generator], Move]


def ours(engine: Engine, case: Case, rng: np.random.Generator) -> Move:
    """What `advise` says."""
    del rng
    advice: Advice = advise(engine.machine, case)
    if advice.next is not None:
        return Move(advice.next.action)
    if advice.ending == "nothing fits":
        return _read_again(engine, case)
    return _change(engine, case, advice.blamed[0] if advice.blamed else HAND_BACK)


def _read_again(engine: Engine, case: Case) -> Move:
    """The item that conflicts most is read again; when none does, the case is handed on with what was found."""
    for number in conflicting(engine.weigh(case)):
        return Move(action_of(case.evidence[number]), number)
    return Move()


def fixed_order(engine: Engine, case: Case, rng: np.random.Generator) -> Move:
    """Part by part, the one that fails oftenest first, among those that go with the complaint."""
    del rng
    return _one_by_one(engine, case, lambda thing, opened: -_rate(engine, thing))


def share_over_cost(engine: Engine, case: Case, rng: np.random.Generator) -> Move:
    """Part by part in descending share over cost of looking (the p/c order)."""
    del rng
    totals = things_of(engine, engine.weigh(case))

    def order(thing: str, opened: frozenset[str]) -> float:
        looks = _looks(engine, thing)
        minutes = min((check_minutes(engine.machine, look, opened) for look in looks), default=60.0)
        return -totals.get(thing, 0.0) / (minutes * Rates().minute)

    return _one_by_one(engine, case, order)


def most_information(engine: Engine, case: Case, rng: np.random.Generator) -> Move:
    """The check with most bits, whatever it costs and however dangerous it is."""
    del rng
    return _decide(engine, case, lambda actions, shares: _best_bits(engine, actions, shares))


def at_random(engine: Engine, case: Case, rng: np.random.Generator) -> Move:
    """Any check."""
    return _decide(engine, case, lambda actions, shares: actions[int(rng.integers(len(actions)))] if actions else None)


STRATEGIES: dict[str, Strategy] = {
    "halfsplit": ours,
    "fixed order": fixed_order,
    "share over cost": share_over_cost,
    "most information": most_information,
    "random": at_random,
}


def _rate(engine: Engine, thing: str) -> float:
    return sum(
        fault.rate for name, fault in engine.machine.faults.items() if mend_of(engine.machine, name).thing == thing
    )


def _looks(engine: Engine, thing: str) -> list[Action]:
    faults = [name for name in engine.machine.faults if mend_of(engine.machine, name).thing == thing]
    return [look for name in faults for look in engine.proofs.get(name, ())[:1]]


def _change(engine: Engine, case: Case, thing: str) -> Move:
    return Move(change=thing, share=things_of(engine, engine.weigh(case)).get(thing, 0.0))


def _likeliest(engine: Engine, case: Case) -> Move:
    totals = things_of(engine, engine.weigh(case))
    thing = max(totals, key=lambda thing: totals[thing])
    return Move(change=thing, share=totals[thing])


def _sure(engine: Engine, case: Case) -> Move | None:
    move = _likeliest(engine, case)
    technician = any(getattr(item, "by", "") != "customer" for item in case.latest)
    return move if move.share >= SURE and technician else None


def _one_by_one(engine: Engine, case: Case, order: Callable[[str, frozenset[str]], float]) -> Move:
    if (sure := _sure(engine, case)) is not None:
        return sure
    made = {action_of(item) for item in case.latest}
    opened = opened_on(engine.machine, case)
    told = Case(evidence=tuple(item for item in case.evidence if getattr(item, "by", "") == "customer"))
    fitting = engine.weigh(told)
    possible = {
        fault
        for suspect, fits in zip(fitting.suspects, fitting.consistent(), strict=True)
        if fits and len(suspect.faults) == 1
        for fault in suspect.faults
    }
    things = {mend_of(engine.machine, fault).thing for fault in possible} - set(case.changed)
    for thing in sorted(things, key=lambda thing: (order(thing, opened), thing)):
        for look in _looks(engine, thing):
            if look not in made:
                return Move(look)
    return _likeliest(engine, case)


def _decide(
    engine: Engine,
    case: Case,
    choose: Callable[[tuple[Action, ...], np.ndarray[tuple[int, ...], np.dtype[np.float64]]], Action | None],
) -> Move:
    if (sure := _sure(engine, case)) is not None:
        return sure
    weighed = engine.weigh(case)
    singles, _ = engine.folded(weighed)
    opened = opened_on(engine.machine, case)
    offered = offered_checks(engine.machine, engine.checks, case, opened)
    check = choose(offered, np.append(singles, weighed.belief.not_on_sheet))
    return Move(check) if check is not None else _likeliest(engine, case)


def _best_bits(
    engine: Engine, actions: tuple[Action, ...], shares: np.ndarray[tuple[int, ...], np.dtype[np.float64]]
) -> Action | None:
    offers = engine.offers(actions, (), engine.weigh(Case()).looks_like)
    scaled = shares / shares.sum()
    bits = [bits_of(it.outcomes, scaled) for it in offers]
    best = int(np.argmax(bits)) if bits else -1
    return actions[best] if best >= 0 and bits[best] > _LEAST_BITS else None

"""The engine of one machine: suspects, predictions and belief put together, and kept warm between questions."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from halfsplit.belief import Belief, Item, Prior, make_prior, weigh
from halfsplit.call.case import Case, machine_for
from halfsplit.predict import Outcomes, Predictor, Row, candidates, outcomes, row
from halfsplit.techsheet import Machine
from halfsplit.trade import Action, Evidence, Seen, Suspect

Mask = NDArray[np.bool_]

# Share of items that are plain mistakes, and share seen in another setup than stated (common practice, from memory).
MISTAKEN = {"customer": 0.08, "technician": 0.02, "reading": 0.02}
WRONG_SETUP = {"customer": 0.08, "technician": 0.03, "reading": 0.03}
PAIRS_MATTER = 0.05
"""Pairs take part in choosing the next check when together they hold this share."""
_MOST_PAIRS = 24


@dataclass(frozen=True, slots=True)
class Weighed:
    """Belief of one case, with the rows it came from: likelihoods of every item under every suspect."""

    suspects: tuple[Suspect, ...]
    belief: Belief
    rows: tuple[Row, ...]
    dropped: float

    def consistent(self) -> Mask:
        """Which suspects no item contradicts, shape (S,)."""
        answer = np.ones(len(self.suspects), dtype=bool)
        for item in self.rows:
            answer &= ~item.contradicts
        return answer


@dataclass
class Engine:
    """Everything worked out once for a machine; a question changes nothing but what is remembered."""

    machine: Machine
    _pair_predictors: dict[tuple[Suspect, ...], Predictor] = field(default_factory=dict)

    @cached_property
    def prior(self) -> Prior:
        """Prior over nothing wrong, single faults and pairs."""
        faults = self.machine.faults.values()
        return make_prior({f.name: f.rate for f in faults}, {f.name: f.thing for f in faults})

    @cached_property
    def singles(self) -> Predictor:
        """Predictions for nothing wrong and every single fault."""
        return Predictor(self.machine, self.prior.suspects[: self.prior.singles])

    @cached_property
    def pairs(self) -> Predictor:
        """Predictions for every pair in the prior."""
        return Predictor(self.machine, self.prior.suspects[self.prior.singles :])

    @cached_property
    def checks(self) -> tuple[tuple[Action, ...], ...]:
        """Checks worth considering, those that tell the single faults apart in just the same way put together."""
        groups: dict[tuple[bytes, bool], list[Action]] = {}
        for outcome in outcomes((self.singles,), candidates(self.singles)):
            if len(outcome.labels) > 1:
                live = getattr(outcome.action, "mode", "") == "volts"
                groups.setdefault((outcome.chances.tobytes(), live), []).append(outcome.action)
        return tuple(tuple(group) for group in groups.values())

    def weigh(self, case: Case) -> Weighed:
        """Belief after a case's evidence.

        Raises:
            InputError: An item that its setup does not allow.
        """
        rows = tuple(self._row(item) for item in case.evidence)
        items = [_item(evidence, found) for evidence, found in zip(case.evidence, rows, strict=True)]
        prior = self.prior
        belief = weigh(prior.shares, prior.not_on_sheet, items)
        return Weighed(prior.suspects, belief, rows, prior.dropped)

    def _row(self, item: Evidence) -> Row:
        """One item's likelihoods; for pairs the forgotten step is taken as the mean of their two members."""
        setup = self.machine.setups[item.setup]
        single = self.singles.kept(("row", item), lambda: row(self.singles, item, setup))
        if not self.pairs.suspects:
            return single
        pair = self.pairs.kept(("row", item), lambda: row(self.pairs, item, setup, forgetful=False))
        first, second = self._members
        forgotten = 0.5 * (single.forgotten[first] + single.forgotten[second])
        return Row(
            np.concatenate([single.fits, pair.fits]),
            np.concatenate([single.forgotten, forgotten]),
            single.broad,
            np.concatenate([single.contradicts, pair.contradicts]),
            single.key,
        )

    @cached_property
    def _members(self) -> tuple[list[int], list[int]]:
        index = {suspect.faults[0]: place for place, suspect in enumerate(self.singles.suspects) if suspect.faults}
        members = [tuple(index[fault] for fault in suspect.faults) for suspect in self.pairs.suspects]
        return [first for first, _ in members], [second for _, second in members]

    def idle_pairs(self, consistent: Mask) -> Mask:
        """Pairs of which one fault alone contradicts nothing, shape (S,): the other fault has nothing to explain."""
        first, second = self._members
        idle = np.zeros(len(self.prior.suspects), dtype=bool)
        idle[self.prior.singles :] = consistent[first] | consistent[second]
        return idle

    def leading_pairs(self, weighed: Weighed) -> tuple[Suspect, ...]:
        """Pairs that take part in choosing the next check; none when pairs together hold too little."""
        shares = weighed.belief.shares[self.prior.singles :]
        if shares.sum() < PAIRS_MATTER:
            return ()
        best = np.argsort(-shares, kind="stable")[:_MOST_PAIRS]
        return tuple(self.pairs.suspects[index] for index in best if shares[index] > 1e-4)

    def outcomes(self, actions: tuple[Action, ...], pairs: tuple[Suspect, ...]) -> tuple[Outcomes, ...]:
        """Outcomes of actions under the singles and the given pairs."""
        if not pairs:
            return outcomes((self.singles,), actions)
        if pairs not in self._pair_predictors:
            if len(self._pair_predictors) >= _MOST_PAIRS:
                self._pair_predictors.clear()
            self._pair_predictors[pairs] = Predictor(self.machine, pairs)
        return outcomes((self.singles, self._pair_predictors[pairs]), actions)


def _item(evidence: Evidence, found: Row) -> Item:
    observer = evidence.by if isinstance(evidence, Seen) else "reading"
    return Item(found.fits, found.forgotten, found.broad, MISTAKEN[observer], WRONG_SETUP[observer], found.key)


@lru_cache(maxsize=16)
def _engine(key: tuple[object, ...], box: _Box) -> Engine:
    del key
    return Engine(box.machine)


class _Box:
    """Carries a machine past the cache, which goes by the key alone."""

    def __init__(self, machine: Machine) -> None:
        self.machine = machine

    def __hash__(self) -> int:
        return 0

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Box)


def engine_for(machine: Machine, case: Case) -> Engine:
    """The engine of a machine as it stands on a call; the same one for the same sheet and setups."""
    own = machine_for(machine, case)
    setups = tuple((name, setup.steps) for name, setup in own.setups.items())
    return _engine((machine.digest, setups), _Box(own))


def accept(machine: Machine, case: Case, item: Evidence) -> None:
    """See that an item can be weighed on this call, before it is written down for good.

    Raises:
        InputError: Its setup does not allow it, or there is nothing for a clamp to go around.
    """
    alone = replace(case, evidence=(item,))
    engine_for(machine, alone).weigh(alone)

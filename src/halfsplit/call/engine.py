"""The engine of one machine: suspects, predictions and belief put together, and kept warm between questions."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from halfsplit.belief import Belief, Item, Prior, item_likelihood, make_prior, weigh
from halfsplit.call.case import Case, fixed_machine, machine_for
from halfsplit.errors import InputError
from halfsplit.nextcheck import Offer, is_live, mend_of, offer, proofs
from halfsplit.predict import Outcomes, Predictor, Real, Row, candidates, levels, outcomes, row
from halfsplit.techsheet import Machine, did_you_mean
from halfsplit.trade import Action, Evidence, Look, Seen, Setup, Suspect

Mask = NDArray[np.bool_]

# Share of items that are plain mistakes, and share seen in another setup than stated (common practice, from memory).
MISTAKEN = {"customer": 0.05, "technician": 0.02, "reading": 0.02}
WRONG_SETUP = {"customer": 0.05, "technician": 0.03, "reading": 0.03}
UNLISTED_ODD = 0.15
"""When the truth is not on the sheet, this share of all items may be anything (common practice, from memory)."""
PAIRS_MATTER = 0.05
"""Pairs take part in choosing the next check when together they hold this share."""
_MOST_PAIRS = 24
_LEAST_PAIR = 1e-4
_KEPT_ENGINES, _KEPT_PAIR_SETS = 8, 16


@dataclass(frozen=True, slots=True)
class Weighed:
    """Belief of one case, with the machine as it stands on the call and the likelihoods of every item.

    Belief is about what was wrong when the call began. What is left of each suspect now, with what has been changed
    since, is the suspect at its place in `now`.

    Attributes:
        machine: As it stands on this call.
        suspects: What may have been wrong.
        belief: Shares over them.
        rows: The likelihoods of every item.
        dropped: Share of pairs left out for speed.
        now: Which suspect is left of each, shape (S,); itself as long as nothing has been changed.
    """

    machine: Machine
    suspects: tuple[Suspect, ...]
    belief: Belief
    rows: tuple[Row, ...]
    dropped: float
    now: NDArray[np.intp]

    @property
    def shares(self) -> Real:
        """Share of every suspect as the machine stands now, shape (S,)."""
        return np.bincount(self.now, self.belief.shares, len(self.suspects)).astype(np.float64)

    @property
    def looks_like(self) -> Real:
        """What is not on the sheet looks now like each suspect with these weights, shape (S,)."""
        return np.bincount(self.now, self.belief.looks_like, len(self.suspects)).astype(np.float64)

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
    _offers: dict[tuple[Suspect, ...], dict[Action, Offer]] = field(default_factory=dict)
    _left: dict[tuple[str, ...], NDArray[np.intp]] = field(default_factory=dict)

    @cached_property
    def prior(self) -> Prior:
        """Prior over nothing wrong, single faults and pairs."""
        faults = self.machine.faults.values()
        links = {(link.cause, link.effect): link.share for link in self.machine.linked}
        return make_prior({f.name: f.rate for f in faults}, {f.name: f.thing for f in faults}, links)

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
        """Checks worth considering, those that tell the single faults apart the same way put together."""
        groups: dict[tuple[bytes, bool], list[Action]] = {}
        for outcome in outcomes((self.singles,), candidates(self.singles)):
            if len(outcome.labels) > 1:
                live = is_live(outcome.action)
                groups.setdefault((np.round(outcome.chances, 1).tobytes(), live), []).append(outcome.action)
        return tuple(tuple(group) for group in groups.values())

    @cached_property
    def proofs(self) -> dict[str, tuple[Action, ...]]:
        """All checks that prove a fault, the quickest first, for those that have one."""
        checks = outcomes((self.singles,), tuple(action for group in self.checks for action in group))
        return proofs(self.machine, self.singles.suspects, checks)

    @cached_property
    def unseen(self) -> frozenset[str]:
        """Things of which some fault changes nothing a person sees: the machine works as a sound one does."""
        functions = self.machine.functions.values()
        shown = [levels(self.singles, function, self.machine.setups[function.setup]) for function in functions]
        same = np.all([chances.argmax(axis=0) == chances[:, 0].argmax() for chances in shown], axis=0)
        alike = [suspect for suspect, like in zip(self.singles.suspects, same, strict=True) if like]
        return frozenset(mend_of(self.machine, fault).thing for suspect in alike for fault in suspect.faults)

    def weigh(self, case: Case) -> Weighed:
        """Belief after a case's evidence.

        Raises:
            InputError: An item that its setup does not allow.
        """
        machine = machine_for(self.machine, case)
        rows = tuple(
            self._row(item, machine.setups[item.setup], case.changed[:moment])
            for item, moment in zip(case.evidence, case.moments, strict=True)
        )
        items = [item_of(evidence, found) for evidence, found in zip(case.evidence, rows, strict=True)]
        prior = self.prior
        belief = weigh(prior.shares, prior.not_on_sheet, items, self.looks_like)
        return Weighed(machine, prior.suspects, belief, rows, prior.dropped, self.left_of(case.changed))

    def left_of(self, changed: tuple[str, ...]) -> NDArray[np.intp]:
        """Number of the suspect that is left of each once these things have been changed, shape (S,).

        Raises:
            InputError: No fault of this machine is at one of these things.
        """
        if changed not in self._left:
            things = {mend_of(self.machine, name).thing for name in self.machine.faults}
            for thing in changed:
                if thing not in things:
                    raise InputError(f"There is no {thing!r} to change.", did_you_mean(thing, things))
            self._left[changed] = np.array([self._left_over(suspect, changed) for suspect in self.prior.suspects])
        return self._left[changed]

    def _left_over(self, suspect: Suspect, changed: tuple[str, ...]) -> int:
        faults = tuple(name for name in suspect.faults if mend_of(self.machine, name).thing not in changed)
        return self._numbers[faults]

    @cached_property
    def _numbers(self) -> dict[tuple[str, ...], int]:
        return {suspect.faults: number for number, suspect in enumerate(self.prior.suspects)}

    @cached_property
    def looks_like(self) -> Real:
        """What is not on the sheet has no rates: it looks like nothing wrong or any one fault, all alike."""
        weights = np.zeros(len(self.prior.suspects))
        weights[: self.prior.singles] = 1.0 / self.prior.singles
        return weights

    def _row(self, item: Evidence, setup: Setup, changed: tuple[str, ...]) -> Row:
        """One item's likelihoods, seen with these things changed: each suspect gives what is left of it."""
        found = self._as_begun(item, setup)
        if not changed:
            return found
        left = self.left_of(changed)
        key = (*found.key, *(f"after {thing}" for thing in changed))
        return Row(found.fits[left], found.forgotten[left], found.broad, found.contradicts[left], key)

    def _as_begun(self, item: Evidence, setup: Setup) -> Row:
        """One item's likelihoods; for pairs the forgotten step is taken as the mean of their two members."""
        single = row(self.singles, item, setup)
        if not self.pairs.suspects:
            return single
        pair = row(self.pairs, item, setup, forgetful=False)
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
    def place(self) -> dict[str, int]:
        """Where each fault stands alone among the suspects."""
        return {suspect.faults[0]: index for index, suspect in enumerate(self.singles.suspects) if suspect.faults}

    @cached_property
    def _members(self) -> tuple[list[int], list[int]]:
        members = [tuple(self.place[fault] for fault in suspect.faults) for suspect in self.pairs.suspects]
        return [first for first, _ in members], [second for _, second in members]

    def idle_pairs(self, consistent: Mask) -> Mask:
        """Pairs of which one fault alone contradicts nothing, shape (S,): the other fault has nothing to explain."""
        first, second = self._members
        idle = np.zeros(len(self.prior.suspects), dtype=bool)
        idle[self.prior.singles :] = consistent[first] | consistent[second]
        return idle

    def folded(self, weighed: Weighed) -> tuple[Real, Real]:
        """Shares of the singles, each with the pairs that it explains alone, and of the pairs that are left.

        Mending the one fault comes first in any case, and then the machine is tried again. Shares are of what is left
        now, with what has been changed.
        """
        count, consistent = self.prior.singles, weighed.consistent()
        singles, pairs = weighed.belief.shares[:count].copy(), weighed.belief.shares[count:].copy()
        first, second = (np.array(members, dtype=np.intp) for members in self._members)
        explains = np.stack([np.where(consistent[place], singles[place], -1.0) for place in (first, second)])
        idle = explains.max(axis=0) >= 0.0
        heir = np.where(explains[0] >= explains[1], first, second)
        np.add.at(singles, heir[idle], pairs[idle])
        pairs[idle] = 0.0
        left = np.bincount(weighed.now, np.concatenate([singles, pairs]), len(weighed.suspects)).astype(np.float64)
        return left[:count], left[count:]

    def leading_pairs(self, paired: Real) -> NDArray[np.intp]:
        """Numbers of the pairs that take part in choosing the next check; none when pairs together hold too little."""
        if paired.sum() < PAIRS_MATTER:
            return np.empty(0, dtype=np.intp)
        best = np.argsort(-paired, kind="stable")[:_MOST_PAIRS]
        return np.asarray(best[paired[best] > _LEAST_PAIR])

    def offers(self, actions: tuple[Action, ...], pairs: tuple[Suspect, ...], looks_like: Real) -> tuple[Offer, ...]:
        """Checks with their outcomes under the singles, the given pairs, and "not on this sheet" last.

        What is not on the sheet reads as in a sound machine where it has not been found yet; to a person it looks
        like what it has looked like so far. Either may be anything with the share `UNLISTED_ODD`.
        """
        if pairs not in self._offers:
            if len(self._offers) >= _KEPT_PAIR_SETS:
                self._offers.clear()
            self._offers[pairs] = {}
        kept = self._offers[pairs]
        missing = tuple(action for action in actions if action not in kept)
        if missing:
            predictors = (self.singles, Predictor(self.machine, pairs)) if pairs else (self.singles,)
            kept |= {
                it.action: offer(self.machine, _with_unlisted(it, it.chances[:, 0]))
                for it in outcomes(predictors, missing)
            }
        alike = looks_like[: self.prior.singles]
        return tuple(_as_seen(kept[action], alike) for action in actions)


def _as_seen(made: Offer, alike: Real) -> Offer:
    """A look with what is not on the sheet looking like the singles with weights `alike`; a reading as it is."""
    outcome = made.outcomes
    if not isinstance(outcome.action, Look):
        return made
    listed = replace(outcome, chances=outcome.chances[:, :-1])
    return replace(made, outcomes=_with_unlisted(listed, listed.chances[:, : len(alike)] @ alike))


def _with_unlisted(outcome: Outcomes, expected_here: Real) -> Outcomes:
    """The same with a last column for "not on this sheet": mostly what is expected here, else any outcome."""
    column = (1.0 - UNLISTED_ODD) * expected_here + UNLISTED_ODD / len(outcome.labels)
    return replace(outcome, chances=np.concatenate([outcome.chances, column[:, None]], axis=1))


def item_of(evidence: Evidence, found: Row) -> Item:
    """An item of evidence with its likelihoods and how often such items are wrong, ready to be weighed."""
    observer = evidence.by if isinstance(evidence, Seen) else "reading"
    item = Item(found.fits, found.forgotten, found.broad, MISTAKEN[observer], WRONG_SETUP[observer], found.key)
    return replace(item, off_sheet=_off_sheet(evidence, item))


def _off_sheet(evidence: Evidence, item: Item) -> Real:
    """Likelihood of an item when the truth is not on the sheet.

    To a person it looks like some listed fault; a meter finds it only where it is, and a sound machine elsewhere.
    """
    listed = item_likelihood(item)
    expected_here = listed if isinstance(evidence, Seen) else np.full_like(listed, listed[0])
    return (1.0 - UNLISTED_ODD) * expected_here + UNLISTED_ODD * item.broad


_engines: OrderedDict[object, Engine] = OrderedDict()
"""Engines asked for last, by sheet and what is fixed on the call. They hold nothing of a case, only what is dear."""


def engine_for(machine: Machine, case: Case) -> Engine:
    """The engine of a machine with what is fixed on a call; the same one as long as it is asked for."""
    key = (machine.digest, case.fixed)
    engine = _engines.pop(key, None) or Engine(fixed_machine(machine, case.fixed))
    _engines[key] = engine
    while len(_engines) > _KEPT_ENGINES:
        _engines.popitem(last=False)
    return engine


def accept(machine: Machine, case: Case, item: Evidence) -> None:
    """See that an item can be weighed on this call, before it is written down for good.

    Raises:
        InputError: Its setup does not allow it, or there is nothing for a clamp to go around.
    """
    alone = replace(case, evidence=(), after=()).plus(item)
    engine_for(machine, alone).weigh(alone)

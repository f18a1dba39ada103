"""Clauses to statements: what each states, what it takes over from the one before, and what stays unclear."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import cast

from halfsplit.call.phrases.items import Clause, Item
from halfsplit.call.phrases.lexicon import SURE, Lexicon
from halfsplit.call.phrases.reader import Target, Walker
from halfsplit.call.phrases.values import Hedge, Shares, Statement
from halfsplit.trade import Level

_WORTH_ASKING = ("action", "saying", "subject", "part", "unknown", "how", "stop")
_DOUBT = {"": 0.0, "sometimes": 0.5, "later": 0.5, "unsure": 0.2}
_WHOLE = "works"
_STOPS = "stops midway"


@dataclass(slots=True)
class Statements:
    """Statements of a text so far, and the words not understood.

    Of the clause before: `denied`, "not" was said in it; `lost`, it spoke of something unknown; `past`, what it said of
    the past.
    """

    lexicon: Lexicon
    said: list[Statement] = field(default_factory=list)
    unclear: list[Item] = field(default_factory=list)
    denied: bool = False
    lost: bool = False
    past: list[Statement] = field(default_factory=list)

    def read(self, found: Sequence[Clause]) -> None:
        """Read clauses in order."""
        for clause in found:
            self._clause(clause)

    def _clause(self, clause: Clause) -> None:
        if clause.aside:
            if clause.aside == "condition" or clause.has("action", "saying"):
                self.unclear += _worth_asking(clause.items)
            return
        reading = _Reading(self.lexicon, clause, (self.denied and clause.joint == "or") or clause.joint == "except")
        taken = reading.statements(self.denied)
        if not taken and not reading.walker.at.targets:
            taken = self._carried(clause, reading)
        used = {id(item) for item in reading.used}
        self.unclear += [item for item in _worth_asking(clause.items) if id(item) not in used]
        self.said += taken
        self.past = reading.past
        self.lost = not taken and clause.has("unknown", "part", "subject")
        self.denied = reading.denied or (clause.joint == "or" and self.denied)

    def _carried(self, clause: Clause, reading: _Reading) -> list[Statement]:
        """A clause that says more of what came just before: "but not on delicate", "but slowly", "only sometimes"."""
        last = next((one for one in reversed([*self.said, *self.past]) if not one.implied), None)
        unread = clause.has("unknown", "part", "subject") or reading.walker.stops
        concept = self.lexicon.concepts[last.concept] if last else None
        if last is None or concept is None or unread or not clause.joint or concept.vague or concept.sign:
            return [] if unread or (clause.joint and self.lost) else reading.alone()
        at = reading.walker.at
        level = Target(last.concept, [], at.denied, how=at.how).level()
        if not (at.how or at.denied or clause.has("where", "hedge")):
            return []
        if not (at.how or at.denied or clause.has("where")):
            level = last.level
        reading.used += [item for item, _ in at.how]
        reading.denied = at.denied
        made = reading.made(last.concept, level, _span(clause.items))
        if not clause.has("where"):
            made = [replace(one, where=last.where) for one in made]
            self.said = [one for one in self.said if one is not last or one.hedge]
        return made


class _Reading:
    """One clause being read."""

    def __init__(self, lexicon: Lexicon, clause: Clause, denied: bool) -> None:
        self.lexicon, self.clause = lexicon, clause
        self.walker = Walker(clause, lexicon, denied)
        self.used: list[Item] = []
        self.denied = False
        self.past: list[Statement] = []
        self.where = [item.entry.name for item in clause.items if item.kind == "where"] or [""]
        hedges = [item.entry.name for item in clause.items if item.kind == "hedge"]
        self.hedge = cast(Hedge, hedges[0] if hedges else "")

    def statements(self, denied_before: bool) -> list[Statement]:
        """What the clause states outright."""
        found: list[Statement] = []
        for target in self.walker.at.targets:
            found += self._of(target, denied_before)
        self.used += self.walker.places if found else []
        return found + self._stops() if not self.walker.at.targets else found

    def _of(self, target: Target, denied_before: bool) -> list[Statement]:
        concept = self.lexicon.concepts[target.concept]
        self.denied = self.denied or target.denied
        if target.person and not target.denied and not concept.noticed:
            self.used += target.items
            return []
        if target.saying:
            return self._saying(target)
        level = target.level(concept.sign)
        if level == "normal" and not concept.sign and self.clause.has("past"):
            self.used += target.items
            self.past = self.made(target.concept, level, _span(target.items))
            return []
        if self._doubtful(target, level, denied_before):
            return []
        self.used += target.items
        return self.made(target.concept, level, _span(target.items))

    def _doubtful(self, target: Target, level: Level, denied_before: bool) -> bool:
        """Whether it is better asked about than taken."""
        sign, noticed = self.lexicon.concepts[target.concept].sign, self.lexicon.concepts[target.concept].noticed
        broken = any(item.entry.levels == ("none", "normal") for item, _ in target.how)
        guess = target.subject and target.concept in self.lexicon.hidden and broken
        if (target.blocked and not noticed) or target.purpose or guess:
            return True
        if level == "normal" and (self.clause.question or (not sign and self._done_by_someone(target))):
            return True
        if level == "normal" and not sign:
            bare = self.clause.joint == "and" and denied_before and not target.subject and self._begins(target)
            return bare or self.clause.conditional or self.clause.has("unknown", "part")
        return level == "none" and sign and self.clause.conditional

    def _done_by_someone(self, target: Target) -> bool:
        """Whether it is short for "I did": "opened up, cleaned, started again"."""
        return self._begins(target) and target.items[0].words[0].raw.endswith("ed")

    def _begins(self, target: Target) -> bool:
        return self.clause.items[0] in target.items

    def _saying(self, target: Target) -> list[Statement]:
        if target.denied or target.blocked:
            return []
        self.used += target.items
        item = target.items[0]
        found = []
        for concept, shares in item.entry.means.items():
            level = max(shares.items(), key=lambda pair: pair[1])[0]
            implied = concept != item.entry.name
            found += self.made(concept, level, _span(target.items), shares, implied)
        return found

    def _stops(self) -> list[Statement]:
        """Words for stopping with nothing that stops: "it stops" is midway, "it stopped" is that it does not work."""
        found: list[Statement] = []
        for item in self.walker.stops:
            ended = item.words[-1].raw in ("stopped", "ceased", "up")
            self.used.append(item)
            concept, level = (_WHOLE, "none") if ended and not self.hedge else (_STOPS, "normal")
            found += self.made(concept, cast(Level, level), item.span)
        return found

    def alone(self) -> list[Statement]:
        """A word of how well with nothing it could be said of: it is the whole machine that works, or is dead."""
        at = self.walker.at
        words = [item for item, _ in at.how if item.entry.levels != ("weak", "normal")]
        if not words or self.clause.has("unknown", "part", "subject"):
            return []
        self.used += [item for item, _ in at.how]
        self.denied = any(denied for _, denied in at.how)
        level = Target(_WHOLE, [], how=at.how).level()
        if level == "normal" and (self.clause.has("past") or self.clause.conditional):
            return []
        names = [self.lexicon.alone.get(word.raw, "") for item in words for word in item.words]
        concept = next((name for name in names if name), _WHOLE)
        return self.made(concept, level, _span(words))

    def made(
        self, concept: str, level: Level, span: tuple[int, int], shares: Shares | None = None, implied: bool = False
    ) -> list[Statement]:
        """Statements of a concept, one for each state spoken of, with what the doubt in the clause leaves open."""
        hedge = self.hedge or ("sometimes" if self.clause.conditional and level == "none" else "")
        kept = SURE[level] if shares is None else shares
        doubtful = _doubted(kept, level, "" if hedge == "later" and self.lexicon.concepts[concept].sign else hedge)
        found = [Statement(span, concept, level, doubtful, where, hedge, implied) for where in self.where]
        if not implied:
            follows = self.lexicon.concepts[concept].implies.get(level, {})
            for other, likely in follows.items():
                found += self.made(other, max(likely, key=likely.__getitem__), span, likely, implied=True)
        only = self.clause.has("only") and self.lexicon.only_in.intersection(self.where)
        if only and level == "normal" and not implied:
            found.append(Statement(span, concept, "none", SURE["none"], "", hedge))
        return found


def _doubted(shares: Shares, level: Level, hedge: Hedge) -> Shares:
    """Shares with a part given to the opposite: sometimes no heat is sometimes heat."""
    part = _DOUBT[hedge]
    if not part:
        return shares
    other: Level = "none" if level == "normal" else "normal"
    mixed = {one: share * (1 - part) for one, share in shares.items()}
    return {**mixed, other: mixed.get(other, 0.0) + part}


def _worth_asking(items: Sequence[Item]) -> list[Item]:
    return [item for item in items if item.kind in _WORTH_ASKING]


def _span(items: Sequence[Item]) -> tuple[int, int]:
    return min(item.span[0] for item in items), max(item.span[1] for item in items)

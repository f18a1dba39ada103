"""One clause to what is said in it, and of what.

The rules, each because a guess would be worse than a question:

- "Not" reaches from where it stands to the next thing said; after "or" it goes on. Two of them are asked about.
- What a person does to the machine ("I turned it off") is nothing the machine does.
- What follows "to" ("to start it") is a purpose unless a word before it says how that went ("fails to").
- A condition ("when …") states nothing. What hangs on it is taken only if it is a failing, as one that comes and goes.
- An unknown word where the subject stands, or beside something said to be well, makes the clause unclear.
- What was well in the past says nothing of now.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import zip_longest

from halfsplit.call.phrases.items import Clause, Item
from halfsplit.call.phrases.lexicon import Lexicon
from halfsplit.trade import Level


@dataclass(slots=True)
class Target:
    """What something is said of: an action, a saying or a subject, with what was said beside it."""

    concept: str
    items: list[Item]
    denied: bool = False
    person: bool = False
    purpose: bool = False
    blocked: bool = False
    subject: bool = False
    how: list[tuple[Item, bool]] = field(default_factory=list)

    @property
    def saying(self) -> bool:
        """Whether it is a whole saying, read as it stands."""
        return self.items[0].kind == "saying"

    def level(self, sign: bool = False) -> Level:
        """The level that all of it comes to. The sign of a fault is there or not, however much."""
        level: Level = "none" if self.denied else "normal"
        for item, denied in () if sign else self.how:
            level = _after(level, item, denied)
        return level


def _after(level: Level, item: Item, denied: bool) -> Level:
    levels = item.entry.levels
    if levels is None:
        return level
    yes, no = levels
    if yes == "normal":
        return no if denied else "weak" if level == "none" and no == "weak" else level
    if denied:
        return level
    return "none" if "none" in (yes, level) else yes


def _begins(item: Item, following: Item | None) -> bool:
    """Whether this is only a "starts" before what starts: "started making a noise"."""
    beside = following is not None and following.kind == "action"
    return beside and item.kind == "action" and item.entry.name == "starts"


def _beside(one: Item, other: Item) -> bool:
    return other.span[0] - one.span[1] <= 1


@dataclass(slots=True)
class _Walk:
    """Where a walk along a clause stands."""

    denied: bool
    person: bool = False
    purpose: bool = False
    unknown: bool = False
    prep: bool = False
    joined: bool = False
    nots: list[Item] = field(default_factory=list)
    how: list[tuple[Item, bool]] = field(default_factory=list)
    subjects: list[Item] = field(default_factory=list)
    targets: list[Target] = field(default_factory=list)


class Walker:
    """Finds the targets of a clause.

    `stops` are words for stopping that reach no target (the machine itself stops); `places` only say where or which.
    """

    def __init__(self, clause: Clause, lexicon: Lexicon, denied: bool) -> None:
        self.lexicon = lexicon
        self.items = [item for item in clause.items if item.kind not in ("small", "ignore")]
        self.at = _Walk(denied)
        self.stops: list[Item] = []
        self.places: list[Item] = []
        for item, following in zip_longest(self.items, self.items[1:]):
            if _begins(item, following):
                self.places.append(item)
            else:
                self._take(item, following)
        self._close()

    def _take(self, item: Item, following: Item | None) -> None:
        at = self.at
        match item.kind:
            case "not":
                self._not(item)
            case "stop":
                self._stop(item, following)
            case "person":
                at.person = True
            case "to" | "try":
                at.purpose = True
            case "prep" | "join":
                at.prep, at.joined = at.prep or item.kind == "prep", at.joined or item.kind == "join"
            case "unknown" | "part":
                self._strange(item)
            case "subject":
                self._subject(item)
            case "how":
                self._how(item)
            case "action" | "saying":
                self._target(item)
            case _:
                pass  # hedges and states belong to the whole clause

    def _not(self, item: Item) -> None:
        at = self.at
        if at.denied and at.subjects and not at.targets:  # "no lights no sound"
            self._close()
            at.subjects, at.nots = [], []
        at.unknown = at.unknown or at.denied  # "does not fail to heat": two of them are asked about
        at.denied = True
        at.nots.append(item)

    def _strange(self, item: Item) -> None:
        """An unknown word. After a subject it makes it another thing: "door switch", "the light in the kitchen"."""
        at = self.at
        if item.kind == "part" and at.prep and at.targets:
            self.places.append(item)
            return
        if item.kind == "part" and at.targets and _beside(at.targets[-1].items[0], item):
            at.targets.pop()  # "flood sensor", "cooling fan motor"
        beside = bool(at.subjects) and _beside(at.subjects[-1], item)
        if at.subjects and not at.targets and (beside or at.prep == (item.kind == "unknown")):
            at.subjects.pop()
        at.unknown = at.unknown or not at.subjects

    def _subject(self, item: Item) -> None:
        at = self.at
        if at.targets and not at.targets[-1].subject:
            self._late_subject(item)
        elif at.prep and (at.subjects or at.unknown):
            self.places.append(item)  # "the sensor on the door": it is the sensor that is spoken of
        elif at.subjects and not at.joined:
            self.places.append(at.subjects[-1])  # "the drum light" is a light
            at.subjects[-1] = item
        else:
            at.subjects.append(item)
        at.prep = at.joined = False

    def _late_subject(self, item: Item) -> None:
        """A subject after what was said of it: "sticking door", "rotation of the tray"."""
        target = self.at.targets[-1]
        if not self.at.subjects and target.concept in self.lexicon.does[item.entry.name]:
            target.concept = item.entry.name
        elif not self.at.prep and not self.lexicon.concepts[target.concept].sign:
            return
        self.places.append(item)

    def _how(self, item: Item) -> None:
        at = self.at
        if at.subjects and not any(target.subject for target in at.targets) and not at.targets:
            at.targets += [Target(one.entry.name, [one], subject=True) for one in at.subjects]
        if at.targets:
            for target in at.targets if at.targets[-1].subject else at.targets[-1:]:
                target.how.append((item, at.denied))
                target.items += [*at.nots, item]
            at.nots.clear()
        else:
            at.how.append((item, at.denied))
        at.denied = False

    def _stop(self, item: Item, following: Item | None) -> None:
        at = self.at
        if following is not None and following.kind in ("action", "how", "saying"):
            at.denied = True
            at.nots.append(item)
        elif at.targets:
            at.targets[-1].denied = True
            at.targets[-1].items.append(item)
        elif at.subjects:
            at.targets += [Target(one.entry.name, [one, item], denied=True, subject=True) for one in at.subjects]
        else:
            self.stops.append(item)

    def _target(self, item: Item) -> None:
        at = self.at
        if self._helps(item):
            at.targets[-1].denied = at.denied or item.denied
            at.targets[-1].items += [*at.nots, item]
            at.denied, at.nots = False, []
            return
        names = [self._concept(item, subject) for subject in at.subjects] or [item.entry.name]
        for index, name in enumerate(dict.fromkeys(names)):
            own = [at.subjects[index]] if at.subjects else []
            before = [one for one, _ in at.how]
            target = Target(name, [item, *own, *at.nots, *before], at.denied or item.denied, at.person, at.purpose)
            whole = bool(at.subjects) and name == item.entry.name and self.lexicon.concepts[name].whole
            strange = whole and name not in self.lexicon.does[at.subjects[index].entry.name]
            target.blocked = strange or (at.unknown and not at.subjects)
            target.how = list(at.how)
            at.targets.append(target)
        at.denied = at.person = at.purpose = False
        at.how, at.nots = [], []

    def _helps(self, item: Item) -> bool:
        """Whether this only says that what was just named comes on: "the heat does not come on"."""
        if not self.at.targets or item.kind != "action" or not self.lexicon.concepts[item.entry.name].whole:
            return False
        last, concepts = self.at.targets[-1], self.lexicon.concepts
        plain = not (last.subject or last.saying or last.denied)
        return plain and not concepts[last.concept].whole and not concepts[last.concept].sign

    def _concept(self, item: Item, subject: Item) -> str:
        """The subject's own concept if this is something it does; else the action's."""
        name = subject.entry.name
        return name if item.kind == "action" and item.entry.name in self.lexicon.does[name] else item.entry.name

    def _close(self) -> None:
        """What is left at the end: "no light" denies the subject, "weak light" says how it is."""
        at = self.at
        if at.targets and at.denied and not at.targets[-1].saying:
            at.targets[-1].denied = True  # "the heat does not"
        if at.targets or not at.subjects or not (at.denied or at.how):
            return
        for subject in at.subjects:
            items = [subject, *at.nots, *(one for one, _ in at.how)]
            at.targets.append(Target(subject.entry.name, items, at.denied, subject=True, how=list(at.how)))
        at.denied, at.how = False, []

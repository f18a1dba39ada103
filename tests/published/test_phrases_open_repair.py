"""Everyday words from repair events, against `hear`: how much is understood, asked about, and wrongly read.

Texts: Open Repair Alliance, openrepair.org, CC BY-SA 4.0; chosen and labelled by us, see data/open_repair/README.md.
The bounds are what was measured (docs/decisions/0010-phrases.md), so that a change for the worse is seen.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from halfsplit.call.phrases import Heard, Statement, hear
from halfsplit.call.phrases.lexicon import lexicon

DATA = Path(__file__).parent / "data" / "open_repair"
LEVELS = ("none", "weak", "normal", "too much")


def texts(half: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = YAML(typ="safe", pure=True).load((DATA / f"{half}.yaml").read_text(encoding="utf-8"))
    return found


def readings(label: str) -> Iterator[tuple[str, str, bool]]:
    """Concept, level and whether it comes and goes, for each reading a label allows ("a | b")."""
    for one in label.split("|"):
        words = one.strip().removesuffix(" sometimes")
        level = next(level for level in LEVELS if words.endswith(f" {level}"))
        yield words.removesuffix(f" {level}"), level, one.strip().endswith(" sometimes")


def meets(label: str, said: Statement) -> bool:
    return any(
        said.concept == concept and said.level == level and (not sometimes or said.hedge == "sometimes")
        for concept, level, sometimes in readings(label)
    )


def outcome(entry: dict[str, Any], heard: Heard) -> str:
    """One word for what became of a text. What is only implied is not counted: it is not claimed to be said."""
    said = [phrase.said for phrase in heard.phrases if not phrase.said.implied]
    stated = [one for one in said if one.concept != "works"]
    labels = entry.get("says", [])
    known = [*labels, *entry.get("allowed", [])]
    may_be_vague = bool(labels) or entry.get("vague", False)
    if any(not any(meets(label, one) for label in known) for one in stated) or (said != stated and not may_be_vague):
        return "wrong"
    asked = bool(heard.unclear) or said != stated
    if not labels:
        return "nothing to hear" if not entry.get("vague") else "asked" if asked else "lost"
    heard_labels = sum(any(meets(label, one) for one in stated) for label in labels)
    if heard_labels == len(labels):
        return "understood"
    return ("partly" if heard_labels else "asked") if asked else "lost"


def tally(half: str) -> Counter[str]:
    return Counter(outcome(entry, hear(entry["text"], {})) for entry in texts(half))


def statements(half: str) -> Counter[str]:
    """The same by statement: labels heard and not heard, and statements that no label bears out."""
    count: Counter[str] = Counter()
    for entry in texts(half):
        said = [phrase.said for phrase in hear(entry["text"], {}).phrases if not phrase.said.implied]
        stated = [one for one in said if one.concept != "works"]
        labels = entry.get("says", [])
        for label in labels:
            count["heard" if any(meets(label, one) for one in stated) else "not heard"] += 1
        known = [*labels, *entry.get("allowed", [])]
        count["wrong"] += sum(not any(meets(label, one) for label in known) for one in stated)
    return count


@pytest.mark.parametrize("half", ["tuning"])
def test_every_label_is_a_concept_and_a_level_that_the_reader_knows(half: str) -> None:
    for entry in texts(half):
        for label in (*entry.get("says", []), *entry.get("allowed", [])):
            assert all(concept in lexicon().concepts for concept, _, _ in readings(label))


def test_the_half_that_the_phrases_were_tuned_on_is_read() -> None:
    assert tally("tuning") == {"understood": 22, "nothing to hear": 6, "asked": 2}
    assert statements("tuning") == {"heard": 29, "wrong": 0}

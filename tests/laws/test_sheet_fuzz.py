"""Whatever a stranger writes, reading it gives a machine or sentences: never an exception, never a stall.

Mutants of the dryer's sheet are made from seeds, so that a failure names the seed that makes it again. CI reads 300;
HALFSPLIT_MUTANTS=20000 reads more.
"""

import json
import os
import random
import time
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfsplit.errors import Problem
from halfsplit.predict import Predictor, levels
from halfsplit.proofread import doubts
from halfsplit.techsheet import Machine, read_document, read_sheet, sheet_text
from halfsplit.trade import NOTHING_WRONG, Suspect
from tests.unit.techsheet.kinds.tiny import SHEETS, text_of

DRYER, _ = sheet_text("dryer")
WORDS = sorted(set(DRYER.split()))
MUTANTS = int(os.environ.get("HALFSPLIT_MUTANTS", "300"))
BATCHES = 10
# A sheet of this size is to be read in well under a second; the rest is slack for a machine that does other things too.
MOST_SECONDS = 3.0
ODD = [
    *"\t:[]{}'\"&*!|>%@`#,?-~<=\\.°Ω\n",
    *(
        "\0",
        "\x85",
        "\u2028",
        "\ud800",
        "\u202e",
        "\ufeff",
        "\xa0",
        "\xad",
        "\ue000",
        "😀",
        "<<: ",
        "!!python/x ",
        "--- ",
        "*a",
        "&a ",
        "? ",
    ),
    *(
        "1e999 Ω",
        "0 Ω",
        "-3 V",
        "-5 min",
        "1e-200 A",
        "4k7",
        "9" * 50,
        "155 V",
        "null",
        "or",
        "when",
        "as",
        "lift",
        "when ",
    ),
]


def check(text: str) -> None:
    """A machine, or sentences each with a line of the text; in time."""
    start = time.perf_counter()
    machine, problems = read_sheet(text, "fuzz.yaml")
    seconds = time.perf_counter() - start
    assert isinstance(machine, Machine) != bool(problems)
    for problem in problems:
        check_sentence(problem, lines=len(text.splitlines()) + 1)
    assert list(problems) == sorted(set(problems), key=lambda problem: (problem.line, problems.index(problem)))
    assert seconds < MOST_SECONDS


def check_sentence(problem: Problem, lines: int) -> None:
    """One line of plain text, ending like a sentence, with its place."""
    assert problem.file == "fuzz.yaml"
    assert 1 <= problem.line <= lines
    for sentence in (problem.what, problem.right):
        assert sentence.endswith((".", "?", "`")), problem
        assert sentence.isprintable(), problem
        assert len(sentence) < 500, problem


Mutation = Callable[[random.Random, list[str]], None]


def _delete(rng: random.Random, lines: list[str]) -> None:
    start = rng.randrange(len(lines))
    del lines[start : start + rng.choice((1, 1, 1, 3, 20))]


def _duplicate(rng: random.Random, lines: list[str]) -> None:
    lines.insert(rng.randrange(len(lines) + 1), rng.choice(lines))


def _swap_lines(rng: random.Random, lines: list[str]) -> None:
    a, b = rng.randrange(len(lines)), rng.randrange(len(lines))
    lines[a], lines[b] = lines[b], lines[a]


def _indent(rng: random.Random, lines: list[str]) -> None:
    at = rng.randrange(len(lines))
    lines[at] = " " * rng.randrange(7) + lines[at].lstrip()


def _garble(rng: random.Random, lines: list[str]) -> None:
    at = rng.randrange(len(lines))
    lines[at] = "".join(rng.sample(lines[at], len(lines[at])))


def _change_word(rng: random.Random, lines: list[str]) -> None:
    at = rng.randrange(len(lines))
    words = lines[at].split(" ")
    words[rng.randrange(len(words))] = rng.choice((*WORDS, "")) if rng.random() < 0.7 else rng.choice(ODD)
    lines[at] = " ".join(words)


def _change_character(rng: random.Random, lines: list[str]) -> None:
    at = rng.randrange(len(lines))
    place = rng.randrange(len(lines[at]) + 1)
    lines[at] = lines[at][:place] + rng.choice((*ODD, "")) + lines[at][place + rng.randrange(2) :]


def _truncate(rng: random.Random, lines: list[str]) -> None:
    at = rng.randrange(len(lines))
    lines[at] = lines[at][: rng.randrange(len(lines[at]) + 1)]
    if rng.random() < 0.1:
        del lines[at + 1 :]


MUTATIONS: tuple[Mutation, ...] = (
    _delete,
    _duplicate,
    _swap_lines,
    _indent,
    _garble,
    _change_word,
    _change_word,
    _change_word,
    _change_word,
    _change_character,
    _truncate,
)


def mutant(seed: int, text: str = DRYER) -> str:
    """A sheet, the dryer's if none is given, with one to four changes."""
    rng = random.Random(seed)
    lines = text.splitlines()
    for _ in range(rng.choice((1, 1, 1, 2, 4))):
        rng.choice(MUTATIONS)(rng, lines)
        lines = lines or [""]
    return "\n".join(lines)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_a_mutant_of_the_dryer_is_a_machine_or_gets_sentences(batch: int) -> None:
    for seed in range(batch, MUTANTS, BATCHES):
        try:
            check(mutant(seed))
        except BaseException as error:
            error.add_note(f"mutant({seed})")
            raise


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_mutant_of_any_kind_s_sheet_is_a_machine_or_gets_sentences(sheet: str) -> None:
    for seed in range(MUTANTS // 15):
        try:
            check(mutant(seed, text_of(sheet)))
        except BaseException as error:
            error.add_note(f"mutant({seed}, {sheet})")
            raise


def test_a_mutant_that_reads_as_a_machine_can_be_solved_and_doubted() -> None:
    # The sheet's checks leave nothing for the solver to stumble over.
    machines = [machine for seed in range(120) if (machine := read_sheet(mutant(seed), "fuzz.yaml")[0]) is not None]
    assert 5 < len(machines) < 100
    for seed in range(0, MUTANTS, BATCHES):
        text = mutant(seed)
        sound = read_sheet(text, "fuzz.yaml")[0]
        for problem in doubts(sound, text, "fuzz.yaml") if sound is not None else ():
            check_sentence(problem, lines=len(text.splitlines()) + 1)
    for machine in machines:
        predictor = Predictor(machine, (NOTHING_WRONG, *(Suspect((fault,)) for fault in machine.faults)))
        for function in machine.functions.values():
            shown = levels(predictor, function, machine.setups[function.setup])
            assert np.isfinite(shown).all()


def _tree() -> Any:
    document, problems = read_document(DRYER, "dryer.yaml")
    assert document is not None
    assert problems == ()
    return document.tree


SCALARS = st.sampled_from([*WORDS, *ODD, ""]) | st.text(max_size=12)
TREES = st.recursive(SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(SCALARS, inner, max_size=3))


@st.composite
def changed_trees(draw: st.DrawFn) -> str:
    """The dryer's tree, as YAML flow text, with one to three nodes replaced, left out or given a neighbour."""
    tree = json.loads(json.dumps(_tree()))
    for _ in range(draw(st.integers(1, 3))):
        holder = tree
        while True:
            keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
            if not keys:
                break
            key = draw(st.sampled_from(keys))
            if isinstance(holder[key], dict | list) and holder[key] and draw(st.integers(0, 4)):
                holder = holder[key]
                continue
            _change(draw, holder, key)
            break
    return json.dumps(tree, indent=1, ensure_ascii=draw(st.booleans()))


def _change(draw: st.DrawFn, holder: Any, key: Any) -> None:
    action = draw(st.sampled_from(("replace", "leave out", "add")))
    if action == "leave out":
        del holder[key]
    elif action == "replace":
        holder[key] = draw(TREES)
    elif isinstance(holder, dict):
        holder[draw(SCALARS)] = draw(TREES)
    else:
        holder.insert(key, draw(TREES))


@given(changed_trees())
@settings(max_examples=100, deadline=None)
def test_a_sheet_of_another_shape_is_a_machine_or_gets_sentences(text: str) -> None:
    check(text)


SCRAPS = [
    *ODD,
    "a",
    "b: ",
    "- ",
    "\n",
    "\n  ",
    "sheet: x\n",
    "parts:\n",
    "wires: [",
    "]",
    "%YAML 1.1\n",
    "'",
    '"',
    "|+2\n",
]


@given(st.lists(st.sampled_from(SCRAPS), max_size=25).map("".join) | st.text(max_size=60))
@settings(max_examples=300, deadline=None)
def test_scraps_of_yaml_get_sentences(text: str) -> None:
    check(text)


@pytest.mark.parametrize(
    "text",
    [
        "[" * 250_000,
        "{" * 250_000,
        "a: [" + "[]," * 40_000,
        "a: [" + "x," * 60_000,
        "- " * 60_000,
        "? " * 60_000,
        ": " * 60_000,
        "&a " * 40_000,
        "!a " * 40_000,
        "".join(f"{' ' * depth}a:\n" for depth in range(480)),
        "".join(f"k{index}: v\n" for index in range(10_000)),
        "parts: {" + ", ".join(f"p{index}: {{knd: heater}}" for index in range(4_000)) + "}",
        "wires:\n" + "".join(f"- red p{index}.1 q{index}.2\n" for index in range(4_000)),
        DRYER.replace("wires:\n", "wires:\n" + "  - red haeter.1 moter.2\n" * 4_000),
        DRYER.replace("house supply", "x" * 250_000),
        DRYER.replace("5.4 kW at 240 V", "5.4 kW" + " " * 250_000 + "at 240 V x"),
        DRYER.replace("black TB.L1 door.COM", "black " + "a.b " * 25_000),
        DRYER.replace("timer auto dry\n", "timer auto dry" + " or auto dry" * 8_000 + "\n"),
        DRYER.replace("plug in,", "plug " + " " * 90_000 + "in,"),
    ],
    ids=lambda text: f"{text[:12]!r}… {len(text)}",
)
def test_a_text_made_to_stall_the_reader_does_not(text: str) -> None:
    check(text)

"""All doubts of one sheet, in order of line."""

from __future__ import annotations

from halfsplit.errors import CircuitError, Problem
from halfsplit.proofread.bench import Bench
from halfsplit.proofread.rules import RULES
from halfsplit.techsheet import Machine, read_document


def doubts(machine: Machine, text: str, file: str) -> tuple[Problem, ...]:
    """What a sound sheet's own wiring makes doubtful, each with its line.

    Args:
        machine: Made from `text`.
        text: The sheet.
        file: Its name as the person gave it.
    """
    document, problems = read_document(text, file)
    if document is None:
        return problems
    bench = Bench(machine, document)
    try:
        found = [document.problem(*doubt) for rule in RULES for doubt in rule(bench)]
    except CircuitError as error:
        return (document.problem((), error.what, error.right),)
    return tuple(sorted(dict.fromkeys(found), key=lambda problem: problem.line))

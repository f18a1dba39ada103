"""The desk's one question to the engine, asked by one thread at a time: its memory is not made for two."""

from __future__ import annotations

import logging
import threading
from collections.abc import Sequence
from itertools import product

from halfsplit.call import Advice, Case, accept, advise, marked
from halfsplit.errors import HalfsplitError
from halfsplit.techsheet import Machine, library_names, load_machine
from halfsplit.trade import Evidence

_ONE_AT_A_TIME = threading.Lock()
_log = logging.getLogger(__name__)


def answer(machine: Machine, case: Case) -> Advice:
    """What to believe and do in a case.

    Raises:
        InputError: An item of evidence that its setup does not allow.
    """
    with _ONE_AT_A_TIME:
        return advise(machine, case)


def answer_and_marks(machine: Machine, case: Case) -> tuple[Advice, tuple[frozenset[str], frozenset[str]]]:
    """The same, with the parts and wires suspected and those as good as cleared.

    Raises:
        InputError: An item of evidence that its setup does not allow.
    """
    with _ONE_AT_A_TIME:
        return advise(machine, case), marked(machine, case)


def check_item(machine: Machine, case: Case, item: Evidence) -> None:
    """See that an item can be weighed, before it is written down.

    Raises:
        InputError: Its setup does not allow it, as ohms on a live machine.
    """
    with _ONE_AT_A_TIME:
        accept(machine, case, item)


_MOST_WARMED = 3
"""So many sheets are made ready: each takes a second or two of a laptop that a person is waiting for."""


def warm(names: Sequence[str]) -> None:
    """Put the first question for the sheets used last, so that no person waits for it; then read all the others."""
    for name in names[:_MOST_WARMED]:
        try:
            machine = load_machine(name)
            for positions in product(*(machine.network.variables[setting] for setting in machine.per_call)):
                answer(machine, Case(tuple(zip(machine.per_call, positions, strict=True))))
        except HalfsplitError as error:  # whoever opens that sheet gets the same sentence on the page
            _log.warning("The built-in sheet %s could not be made ready: %s", name, error)
    for name in library_names():
        load_machine(name)


def warm_in_background(names: Sequence[str]) -> threading.Thread:
    """Start `warm` in a thread that does not keep the program alive."""
    thread = threading.Thread(target=warm, args=(names,), name="warm", daemon=True)
    thread.start()
    return thread

"""Which reading an end rests on, and whether to take it once more before anything is changed.

An item is mistaken, given a suspect s, with the share m broad / P(item | s) of its likelihood; over the belief,

    doubt = Σ_s share_s m broad / P(item | s) .

A reading in such doubt is taken again, once, where that is quick: the same again counts no more than once, another
value opens the search again.
"""

from __future__ import annotations

import numpy as np

from halfsplit.belief import item_likelihood
from halfsplit.call.case import Case
from halfsplit.call.checks import action_of, opened_on
from halfsplit.call.engine import Engine, Weighed, item_of
from halfsplit.nextcheck import check_minutes
from halfsplit.trade import Measure, Reading

LEAST_DOUBT = 0.02
"""Less doubt than this is left alone: one part in fifty changed in vain (the aim of the blind trials)."""
_QUICK_MINUTES = 6.0


def doubted(engine: Engine, weighed: Weighed, case: Case) -> tuple[Measure, float] | None:
    """The reading to take again with the share in which it is mistaken; None where none is worth it."""
    made = [action_of(item) for item in case.latest]
    opened = opened_on(engine.machine, case)
    found: list[tuple[float, Measure]] = []
    for item, row in zip(case.evidence, weighed.rows, strict=True):
        action = action_of(item)
        if not isinstance(item, Reading) or not isinstance(action, Measure) or item not in case.latest:
            continue
        quick = check_minutes(weighed.machine, action, opened) <= _QUICK_MINUTES
        if quick and made.count(action) == 1 and action not in case.skipped:
            told = item_of(item, row)
            mistaken = told.mistaken * told.broad / np.maximum(item_likelihood(told), 1e-300)
            found.append((float(mistaken @ weighed.belief.shares), action))
    best = max(found, key=lambda it: it[0], default=None)
    return (best[1], best[0]) if best is not None and best[0] >= LEAST_DOUBT else None

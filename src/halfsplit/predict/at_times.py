"""Faults that come and go: a suspect with one is, in some looks, the machine without it.

With the share p of looks in which a fault is there, an item's likelihood is p · with it + (1 − p) · without it, and for
two such faults all four ways, each with its product. Looks are taken as independent of each other given the suspect.
"""

from __future__ import annotations

from itertools import product

import numpy as np
from numpy.typing import NDArray

from halfsplit.techsheet import Machine
from halfsplit.trade import Suspect


def without_at_times(
    machine: Machine, suspects: tuple[Suspect, ...]
) -> tuple[tuple[Suspect, ...], NDArray[np.intp], NDArray[np.float64]] | None:
    """The suspects and, after them, each once more for every way in which what comes and goes may be away.

    Returns:
        All W of them, which of `suspects` each is one way of, shape (W,), and how likely that way is, shape (W,);
        None when nothing comes and goes.
    """
    shares = {name: fault.share for name, fault in machine.faults.items() if fault.share < 1.0}
    weight = np.array([_weight(suspect, (), shares) for suspect in suspects])
    owner, further, ways = list(range(len(suspects))), [], list(weight)
    for number, suspect in enumerate(suspects):
        coming = [name for name in suspect.faults if name in shares]
        for away in product(*((False, True) for _ in coming)):
            gone = tuple(name for name, is_away in zip(coming, away, strict=True) if is_away)
            if gone:
                further.append(Suspect(tuple(name for name in suspect.faults if name not in gone)))
                owner.append(number)
                ways.append(_weight(suspect, gone, shares))
    if not further:
        return None
    return (*suspects, *further), np.array(owner, dtype=np.intp), np.array(ways, dtype=np.float64)


def _weight(suspect: Suspect, gone: tuple[str, ...], shares: dict[str, float]) -> float:
    """How likely it is that just these of a suspect's faults are away."""
    chances = (1.0 - shares[name] if name in gone else shares.get(name, 1.0) for name in suspect.faults)
    return float(np.prod([*chances]))

"""Suspects that no check of a sheet can part are listed (`NAME_groups.yaml`), each group with why nothing parts it.

Two suspects are alike when every candidate check (looks, dead ohms, live volts) turns out most likely the same under
both. A fault that stands in no group is parted from all others by some check.
"""

from __future__ import annotations

from collections import defaultdict

import numpy as np
import pytest

from halfsplit.predict import Predictor, candidates, outcomes
from halfsplit.techsheet import library_names, load_machine
from halfsplit.trade import NOTHING_WRONG, Suspect
from tests.sheets.listed import GROUPED, SOUND, groups


def alike(sheet: str) -> set[frozenset[str]]:
    """Groups of two and more suspects that every candidate check leaves together."""
    machine = load_machine(sheet)
    faults = [name for name, fault in machine.faults.items() if not fault.degree_of]
    names = (SOUND, *faults)
    predictor = Predictor(machine, (NOTHING_WRONG, *(Suspect((fault,)) for fault in faults)))
    found = outcomes((predictor,), candidates(predictor))
    told = np.array([np.argmax(outcome.chances, axis=0) for outcome in found])
    together: dict[bytes, list[str]] = defaultdict(list)
    for column, name in enumerate(names):
        together[told[:, column].tobytes()].append(name)
    return {frozenset(group) for group in together.values() if len(group) > 1}


def test_every_sheet_of_the_library_has_its_groups_listed() -> None:
    assert set(GROUPED) == set(library_names())


@pytest.mark.parametrize("sheet", GROUPED)
def test_suspects_that_no_check_can_part_are_those_that_are_listed(sheet: str) -> None:
    assert alike(sheet) == set(groups(sheet))


@pytest.mark.parametrize("sheet", GROUPED)
def test_every_group_says_why_nothing_parts_it(sheet: str) -> None:
    assert all(why.strip() for why in groups(sheet).values())

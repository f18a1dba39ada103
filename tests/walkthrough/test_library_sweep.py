"""The commonest faults of each library sheet hidden in turn, and looked for from the complaint that fits them best.

The dryer is swept whole in test_sweep.py. A search must end with the right thing, or with a group that
tests/sheets/NAME_groups.yaml says no check can part from it; never with a wrong thing.

Measured once over every single fault, with clean readings, when the sheets were written (what is not said here ended
with the right thing):

- gas-dryer: 101 faults, 91 right; 5 with a group of house and outlet wire, one of them narrowed to the house; 4 with
  "nothing wrong" (nothing works worse for them); 1 wrong: a wire between two coils of the gas valve, broken inside its
  plug, was taken for one of the valve's three coils, twenty times as common.
- top-load-washer: 117 faults, 111 right; 5 with house and outlet wire as above; 1 with "nothing wrong" (the motor's
  earth).
- refrigerator: 93 faults, 82 right; 5 with house and outlet wire; 2 with their earth wire or nothing wrong; 3 with
  "nothing wrong" (a protector and a thermostat that would not open, the plug's earth); 1 wrong: the neutral of the
  defrost timer's motor was taken for the timer, forty times as common.
- washer-230v: 122 faults, 107 right; 7 between panel and outlet narrowed to the house; 2 with a group; 4 with "nothing
  wrong", or that beside what acts only when something else has failed; 2 wrong: the wire to the door lock's contact was
  taken for the lock, and line and neutral swapped at the outlet for a main switch that does not open, since a ghost on
  a high-impedance meter reads as much.
- microwave, front-load-washer, inverter-refrigerator: the commonest 15 only, all right or with their group.
- electric-range: the commonest 15 only, all right. built-in-oven: the commonest 16 only, all right.
- gas-range: the commonest 40 that a complaint tells of, 39 right or with their group; 1 wrong: a stuck bake safety
  valve was taken for an aged igniter, fifteen times as common and glowing alike.
- dishwasher: the commonest 40 that a complaint tells of, 37 right; 3 with a group of wash motor and capacitor.
"""

from __future__ import annotations

import pytest

from halfsplit.call import Case, told
from halfsplit.nextcheck import mend_of
from halfsplit.techsheet import library_names, load_machine
from tests.sheets.listed import unparted
from tests.walkthrough.technician import HiddenTruth, Visit, complaint_of, follow

HIDDEN = 10
SWEPT = tuple(sheet for sheet in library_names() if sheet != "dryer")
MAY_SEEM_SOUND: dict[str, set[str]] = {}
"""Faults among the commonest that no function shows, by sheet."""


def _visit(sheet: str, fault: str) -> Visit:
    machine = load_machine(sheet)
    truth = HiddenTruth(machine, (fault,))
    complaint = complaint_of(machine, truth)
    return follow(machine, Case().plus(*told(machine, complaint)) if complaint else Case(), truth)


def _commonest(sheet: str) -> list[str]:
    faults = load_machine(sheet).faults.values()
    return [fault.name for fault in sorted(faults, key=lambda fault: -fault.rate)[:HIDDEN]]


def _fits(sheet: str, fault: str) -> str:
    """Empty if the search ended well, else how it ended."""
    machine, visit = load_machine(sheet), _visit(sheet, fault)
    things = {mend_of(machine, other).thing for other in unparted(sheet, fault)}
    if visit.end.blamed and set(visit.end.blamed) <= things:
        return ""
    if not visit.end.blamed and fault in MAY_SEEM_SOUND.get(sheet, set()):
        return ""
    return f"{fault}: {visit.end.ending} {visit.end.blamed}"


@pytest.mark.parametrize("sheet", SWEPT)
def test_the_commonest_faults_are_found_or_their_group_is(sheet: str) -> None:
    assert [said for fault in _commonest(sheet) if (said := _fits(sheet, fault))] == []

"""Every sheet of the library: its size, its symptoms as written down before it was run, and what its paper says."""

from __future__ import annotations

import pytest

from halfsplit.predict import Predictor, contradictions, nameplate_agrees, nameplate_amps
from halfsplit.techsheet import Machine, library_names, load_machine
from halfsplit.trade import NOTHING_WRONG
from tests.sheets.listed import HEALTHY, LISTED, differences, written

LIBRARY = library_names()
# The dryer's lists are older than the common form, and have a test of their own.
COMMON_FORM = [sheet for sheet in LISTED if sheet != "dryer"]


def _sound(machine: Machine) -> Predictor:
    return Predictor(machine, (NOTHING_WRONG,))


def test_every_sheet_of_the_library_has_a_list_of_symptoms() -> None:
    assert set(LISTED) == set(LIBRARY)


@pytest.mark.parametrize("sheet", LIBRARY)
def test_a_sheet_is_large_enough_to_be_of_use(sheet: str) -> None:
    """At least 25 parts (the dryer, the first of them, has 24) and 60 single faults."""
    machine = load_machine(sheet)
    assert len(machine.parts) >= (24 if sheet == "dryer" else 25)
    assert len(machine.faults) >= 60


@pytest.mark.parametrize("sheet", COMMON_FORM)
def test_a_list_covers_every_fault_and_every_function(sheet: str) -> None:
    machine = load_machine(sheet)
    assert set(written(sheet)) == {HEALTHY, *machine.faults}
    assert set(written(sheet)[HEALTHY]) == set(machine.functions)


@pytest.mark.parametrize(("sheet", "fault"), [(sheet, fault) for sheet in COMMON_FORM for fault in written(sheet)])
def test_each_fault_shows_what_was_written_down_before_the_engine_ran(sheet: str, fault: str) -> None:
    assert differences(sheet, fault) == {}


@pytest.mark.parametrize("sheet", COMMON_FORM)
def test_nameplate_readings_and_cautions_are_there_and_the_solver_agrees_with_them(sheet: str) -> None:
    machine = load_machine(sheet)
    assert machine.nameplate is not None
    assert nameplate_agrees(nameplate_amps(_sound(machine)))
    assert machine.readings
    assert contradictions(_sound(machine)) == ()
    assert machine.cautions


@pytest.mark.parametrize("sheet", COMMON_FORM)
def test_every_setup_every_zone_and_every_setting_is_used(sheet: str) -> None:
    machine = load_machine(sheet)
    shown_in = {function.setup for function in machine.functions.values()} | {row.setup for row in machine.readings}
    dead = {name for name in machine.setups if "dead" in name}
    assert set(machine.setups) - shown_in - dead == set()
    assert {part.zone for part in machine.parts.values()} == set(machine.zones)

"""What a sound sheet may look like, and what machine it gives."""

import doctest
import importlib
import math

import pytest

from halfsplit.circuit import ALWAYS, Branch
from halfsplit.errors import InputError
from halfsplit.techsheet import Machine, catalogue, library_names, load_machine, read_sheet
from halfsplit.techsheet.kinds.base import impedance
from halfsplit.techsheet.words import read_state
from tests.unit.techsheet.kinds import tiny
from tests.unit.techsheet.warmer import FILE, SHEET, line_of, machine


def branch(found: Machine, name: str) -> Branch:
    """A branch of the network by name."""
    return {branch.name: branch for branch in found.network.branches}[name]


def test_every_built_in_sheet_is_sound() -> None:
    assert "dryer" in library_names()
    assert all(load_machine(name).name.replace(" ", "-") == name for name in library_names())


def test_the_sheets_of_the_tests_have_every_kind() -> None:
    machines = (machine(), *(tiny.machine(name) for name in tiny.SHEETS))
    assert {part.kind for found in machines for part in found.parts.values()} == set(catalogue())


def test_parts_and_points_keep_the_order_of_the_sheet() -> None:
    found = machine()
    assert list(found.parts)[:4] == ["house", "breaker", "outlet", "plug"]
    assert found.points[:6] == ("house.L1", "house.L2", "house.N", "house.G", "breaker.1", "breaker.2")


def test_a_setting_may_have_the_name_of_a_part() -> None:
    found = machine()
    assert found.settings == {
        "plug": ("out", "in"),
        "breaker": ("on", "off"),
        "door": ("shut", "open"),
        "air": ("cold", "hot"),
    }
    assert {"plug", "breaker", "door"} <= set(found.parts)
    assert found.network.variables["wheel"] == ("free", "stuck")


def test_a_wire_may_depend_on_two_things_at_once() -> None:
    wire = (
        "  - blue limit.2 limit 2.1",
        "  - blue limit.2 limit 2.1, when door shut, 12 AWG 1 m, when air cold or hot",
    )
    found = machine(wire).wires["limit.2-limit 2.1"]
    assert found.condition == ((("door", frozenset({"shut"})), ("air", frozenset({"cold", "hot"}))),)
    assert found.gauge == 12


def test_a_wire_knows_its_words_and_its_line() -> None:
    wire = machine().wires["door.NC-lamp.1"]
    assert (wire.colour, wire.title) == ("red/black", "red/black wire door.NC to lamp.1")
    assert wire.condition == ((("air flap", frozenset({"open"})),),)
    assert wire.line == line_of("- RD/BK", SHEET)
    assert machine().wires["lamp.2-TB.N-1"].condition == ALWAYS


@pytest.mark.parametrize("length", ["0,6 m", "0.6 m", "600 mm", "1.9685 ft"])
def test_a_length_may_be_written_in_several_ways(length: str) -> None:
    found = machine(("14 AWG 0,6 m", f"14 AWG {length}"))
    assert branch(found, "door.NO-limit.1").ohm == pytest.approx(branch(machine(), "door.NO-limit.1").ohm, rel=1e-4)


def test_commas_need_no_space_after_them() -> None:
    assert machine(("14 AWG 0,6 m, when air", "14 AWG 0,6 m,when air")).wires == machine().wires
    assert machine(("breaker.1, 6 AWG 1 m", "breaker.1,6 AWG 1 m")).wires == machine().wires


def test_terminals_may_have_dashes() -> None:
    found = machine(("      COM-NC: door open", '      "L-1 - COM": door open'), ("door.NC lamp.1", "door.L-1 lamp.1"))
    assert found.parts["door"].terminals == ("L-1", "COM", "NO")
    assert branch(found, "door:L-1-COM").a == "door.L-1"


def test_the_longest_name_that_makes_sense_is_meant() -> None:
    variables = {"air": ("cold", "flap shut"), "air flap": ("open", "closed")}
    assert read_state("air flap open or closed", variables) == ("air flap", frozenset({"open", "closed"}))
    assert read_state("air flap shut", variables) == ("air", frozenset({"flap shut"}))
    assert read_state("air cold", variables) == ("air", frozenset({"cold"}))
    with pytest.raises(InputError, match=r"^'air flap' has no position 'ajar'\. Known here: open, closed\.$"):
        read_state("air flap ajar", variables)


def test_spaces_and_quotes_in_a_phrase_do_not_matter() -> None:
    assert machine(("      COM-NO: door shut", '      COM-NO: door   "shut"')).network == machine().network


def test_a_setup_may_have_no_steps_and_takes_over_those_of_another() -> None:
    found = machine(("steps: [plug in]}", "steps: []}"))
    assert found.setups["idle"].steps == ()
    assert machine().setups["open"].steps == (("plug", "in"), ("door", "open"))
    assert machine().setups["lifted"].minutes == 2.0


def test_rates_of_the_sheet_stand_before_the_usual_ones() -> None:
    assert machine().faults["lamp:open"].rate == 12.0
    assert machine(("    rates: {open: 12}\n", "")).faults["lamp:open"].rate == 15.0


def test_a_mechanical_fault_is_told_by_its_own_sentence() -> None:
    found = machine()
    stuck, burnt = found.faults["wheel:stuck"], found.faults["lamp:open"]
    assert (stuck.says, stuck.mend) == ("the wheel is stuck", "mend the wheel")
    assert (burnt.says, burnt.mend) == ("the lamp is burnt out", "change the lamp")


def test_a_motor_is_rated_at_the_frequency_of_its_supply() -> None:
    fifty = machine(("    kind: split-phase supply\n", "    kind: split-phase supply\n    frequency: 50 Hz\n"))
    for name in ("fan:main-running", "clock:winding"):
        at_50, at_60 = branch(fifty, name), branch(machine(), name)
        assert at_50.ohm == at_60.ohm
        assert at_50.henry * 50 == pytest.approx(at_60.henry * 60)  # the same ohms of reactance


def test_an_impedance_has_the_ohms_it_was_made_from() -> None:
    ohm, henry = impedance(3.0, 5.0, 60.0)
    assert ohm == 3.0
    assert henry * 2 * math.pi * 60.0 == pytest.approx(4.0)


def test_things_and_points_are_found_in_words_and_zones() -> None:
    found = machine()
    assert found.title_of("door") == "door switch"
    assert found.title_of("limit.2-limit 2.1") == "blue wire limit.2 to limit 2.1"
    assert (found.zone_of_point("limit 2.1"), found.zone_of_point("outlet.N")) == ("case", "house")


def test_the_digest_tells_texts_apart() -> None:
    other, _ = read_sheet(f"{SHEET}\n# a remark\n", FILE)
    assert other is not None
    assert machine().digest == machine().digest
    assert machine().digest != other.digest
    assert len(other.digest) == 16


@pytest.mark.parametrize(("module", "least"), [("words", 3), ("kinds.base", 0)])
def test_the_examples_are_true(module: str, least: int) -> None:
    result = doctest.testmod(importlib.import_module(f"halfsplit.techsheet.{module}"))
    assert result.failed == 0
    assert result.attempted >= least

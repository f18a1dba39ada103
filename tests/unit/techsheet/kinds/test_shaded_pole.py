"""Shaded-pole motor and pump: one winding that runs, stands and hums, or is open."""

import pytest

from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told

#                   turn    drain   humming hum     breaker
SYMPTOMS = {
    "sound": "normal, normal, none, none, normal",
    "motor:open": "none, normal, none, none, normal",
    "motor:seized": "none, normal, none, normal, normal",
    "pump:open": "normal, none, none, none, normal",
    "pump:jammed": "normal, none, normal, none, normal",
    "pump:seized": "normal, none, normal, none, normal",
    "hose:kinked": "normal, none, none, none, normal",
    "rotor:jammed": "none, none, normal, normal, normal",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("fanpump"), "motor", "pump", "hose", "rotor") == SYMPTOMS


def test_it_takes_its_running_current_and_held_still_its_locked_one() -> None:
    found = machine("fanpump")
    assert amps(settled(found, "on"), "motor:protector") == pytest.approx(0.7, rel=0.01)
    assert amps(settled(found, "on", "motor:seized"), "motor:protector") == pytest.approx(1.1, rel=0.01)


def test_a_jam_costs_no_new_pump() -> None:
    found = machine("fanpump", ("    kind: pump\n", "    kind: pump\n    price: 40\n"))
    assert found.faults["pump:jammed"].price == 0
    assert found.faults["pump:jammed"].mend == "clear the pump"
    assert found.faults["pump:seized"].price == 40


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("winding: 30 Ω", "winding: 300 Ω"),
            "A winding of 300 Ω cannot pass that much current: the whole is only 109 Ω. "
            "Check the winding's ohms and its current.",
        ),
        (
            ("locked current: 1.1 A", "locked current: 0.5 A"),
            "'motor' takes less current standing than running. Its locked current is that of a rotor held still.",
        ),
        (
            ("    kind: pump\n", "    kind: pump\n    volt: 120 V\n"),
            "A part of kind 'pump' has no 'volt'. Did you mean 'volts'?",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("fanpump", change) == [said]

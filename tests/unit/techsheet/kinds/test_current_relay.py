"""The start relay that goes by current: it closes on the inrush, and opens as the motor runs."""

import pytest

from halfsplit.circuit import read_ohms
from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told

#                   turn    hum     click   breaker
SYMPTOMS = {
    "sound": "normal, none, none, normal",
    "relay:coil-open": "none, none, none, normal",
    "relay:stuck": "none, normal, none, normal",
    "relay:contact-open": "none, normal, none, normal",
    # It starts; then the start winding stays in, and the overload trips.
    "relay:contact-welded": "none, none, none, normal",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("currentrelay"), "relay") == SYMPTOMS


def test_it_lets_go_once_the_motor_runs_and_the_start_winding_gets_nothing() -> None:
    at = settled(machine("currentrelay"), "on")
    assert amps(at, "motor:run-running") == pytest.approx(1.5, rel=0.03)
    assert amps(at, "motor:start-winding") < 0.001
    assert at.chatters == {}


def test_an_ohmmeter_finds_its_coil_and_an_open_contact() -> None:
    at = settled(machine("currentrelay"), "dead", "motor:start-open")
    assert read_ohms(at, (("relay.L", "relay.M"),))[0, 0] == pytest.approx(0.3, rel=0.01)
    assert read_ohms(at, (("relay.L", "relay.S"),))[0, 0] > 5e6


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("drops out at: 4 A", "drops out at: 9 A"),
            "'relay' would let go at 9 A and pull in at 8 A. It lets go at less current than it pulls in at.",
        ),
        (
            ("pulls in at: 8 A, ", ""),
            "'relay' has no 'pulls in at'. Add it. Current that closes it: below the motor's locked current.",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("currentrelay", change)[0] == said

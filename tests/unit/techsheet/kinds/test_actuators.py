"""Actuators: what a lock lets through, and what jams or stays."""

import pytest

from halfsplit.circuit import read_ohms
from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told

#                   locks   heat    doses   frees   ajar    later
SYMPTOMS = {
    "sound": "normal, normal, normal, normal, none, none",
    "lock:coil-open": "none, none, none, none, none, none",
    "lock:jammed": "none, none, none, none, none, none",
    "lock:stuck": "normal, normal, normal, normal, normal, normal",
    "lock:C-NO-open": "normal, none, none, none, none, none",
    "lock:C-NO-welded": "normal, normal, normal, normal, normal, none",
    "dispenser:coil-open": "normal, normal, none, normal, none, none",
    "dispenser:jammed": "normal, normal, none, normal, none, none",
    "dispenser:stuck": "normal, normal, normal, normal, none, none",
    "brake:coil-open": "normal, normal, normal, none, none, none",
    "brake:jammed": "normal, normal, normal, none, none, none",
    "brake:stuck": "normal, normal, normal, normal, none, none",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("actuators"), "lock", "dispenser", "brake") == SYMPTOMS


def test_a_solenoid_takes_its_current_from_the_mains_and_its_ohms_from_a_meter() -> None:
    found = machine("actuators")
    assert amps(settled(found, "wash"), "brake:coil") == pytest.approx(0.4, rel=0.03)
    at = settled(found, "dead", "lock.NO-brake.1:open")
    assert read_ohms(at, (("brake.1", "brake.2"),))[0, 0] == pytest.approx(90, rel=0.001)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("door: door shut, zone", "door: door shutt, zone"), "'door' has no position 'shutt'. Did you mean 'shut'?"),
        (
            ("coil: 90 Ω, current: 0.4 A", "coil: 900 Ω, current: 0.4 A"),
            "A winding of 900 Ω cannot pass that much current: the whole is only 300 Ω. "
            "Check the winding's ohms and its current.",
        ),
        (
            ("wax motor, coil: 1.5 kΩ, ", "wax motor, "),
            "'dispenser' has no 'coil'. Add it. Resistance an ohmmeter finds, 1 to 2.",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("actuators", change)[0] == said

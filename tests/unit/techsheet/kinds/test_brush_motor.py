"""The brush motor, which stops where its brushes do, and the pump with a magnet, which hums at its own current."""

import pytest

from halfsplit.circuit import read_ohms
from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told

#                   turn    hum     drain   humming
SYMPTOMS = {
    "sound": "normal, none, normal, none",
    "motor:brushes": "none, none, normal, none",
    "motor:field-open": "none, none, normal, none",
    "motor:seized": "none, normal, normal, none",
    # Its line end on the case trips the breaker of the house: nothing has power.
    "motor:grounded": "none, none, none, none",
    "pump:open": "normal, none, none, none",
    "pump:jammed": "normal, none, none, normal",
    "pump:seized": "normal, none, none, normal",
    "drum:jammed": "none, normal, none, normal",
    "motor.2-motor.A:open": "none, none, normal, none",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("brushmotor"), "motor", "pump", "drum", "motor.2-motor.A") == SYMPTOMS


def test_field_and_armature_in_series_take_the_running_current() -> None:
    found = machine("brushmotor")
    assert amps(settled(found, "on"), "motor:field") == pytest.approx(3, rel=0.03)
    # Standing: 120 V over 5 Ω and the 4 Ω of the field's reactance.
    assert amps(settled(found, "on", "motor:seized"), "motor:field") == pytest.approx(120 / abs(5 + 4j), rel=0.1)


def test_a_magnet_pump_takes_hardly_more_held_still_than_running() -> None:
    found = machine("brushmotor")
    running = amps(settled(found, "on"), "pump:protector")
    held = amps(settled(found, "on", "pump:jammed"), "pump:protector")
    assert running == pytest.approx(0.8, rel=0.03)
    assert held == pytest.approx(0.88, rel=0.03)


def test_an_ohmmeter_finds_field_and_armature_apart() -> None:
    found = machine("brushmotor")
    at = settled(found, "dead")
    # Beside each lies the pump's 40 Ω in series with the other one.
    assert read_ohms(at, (("motor.1", "motor.2"),))[0, 0] == pytest.approx(1 / (1 / 2 + 1 / 43), rel=1e-3)
    assert read_ohms(at, (("motor.A", "motor.B"),))[0, 0] == pytest.approx(1 / (1 / 3 + 1 / 42), rel=1e-3)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("armature: 3 Ω", "armature: 40 Ω"),
            "'motor' would run slower than standing still: 40 Ω is all its running current leaves. "
            "Its windings are a small part of volts by running current.",
        ),
        (
            ("winding: 40 Ω", "winding: 400 Ω"),
            "A winding of 400 Ω cannot pass that much current: the whole is only 136 Ω. "
            "Check the winding's ohms and its current.",
        ),
        (
            ("turns: drum free, zone: case}\n  pump", "turns: drum fre, zone: case}\n  pump"),
            "'drum' has no position 'fre'. Did you mean 'free'?",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("brushmotor", change)[0] == said

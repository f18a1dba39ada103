"""Sensors of speed follow their motor, and are told from it by what the board sees."""

import pytest

from halfsplit.circuit import read_ohms, read_waves
from tests.unit.techsheet.kinds.tiny import machine, settled, symptoms, told

#                   turn    sees    code    fan     feels
SYMPTOMS = {
    "sound": "normal, normal, none, normal, normal",
    "tacho:open": "normal, none, normal, normal, normal",
    "tacho:loose": "normal, none, normal, normal, normal",
    "fan speed:dead": "normal, normal, none, normal, none",
    "fan:seized": "normal, normal, none, none, none",
    "motor:brushes": "none, none, normal, normal, normal",
    "drum:jammed": "none, none, normal, none, none",
    "tacho.1-board.T1:open": "normal, none, normal, normal, normal",
    "fan speed.S-board.FG:open": "normal, normal, none, normal, none",
}


def test_every_fault_shows_as_written_down() -> None:
    things = ("tacho", "fan speed", "fan", "motor", "drum", "tacho.1-board.T1", "fan speed.S-board.FG")
    seen = symptoms(machine("speedsense"), *things)
    assert {fault: row for fault, row in seen.items() if fault in SYMPTOMS} == SYMPTOMS


def wave(setup: str, red: str, black: str, *faults: str) -> tuple[float, float]:
    """Direct and alternating volts on a 10 MΩ meter."""
    at = settled(machine("speedsense"), setup, *faults)
    found = read_waves(at, (at.solution,), ((red, black),), 10e6)[0]
    return float(found.mean[0, 0]), float(found.ac[0, 0])


def test_a_tachogenerator_gives_its_volts_while_it_turns_and_its_ohms_when_dead() -> None:
    # 10 V through 68 Ω into the board's 10 kΩ.
    assert wave("turning", "tacho.1", "tacho.2")[1] == pytest.approx(10 * 10e3 / 10068, rel=0.01)
    assert wave("waiting", "tacho.1", "tacho.2")[1] < 0.05
    at = settled(machine("speedsense"), "dead", "tacho.1-board.T1:open")
    assert read_ohms(at, (("tacho.1", "tacho.2"),))[0, 0] == pytest.approx(68, rel=0.001)


def test_a_pulse_sensor_shows_about_half_its_supply_while_its_motor_turns_and_next_to_nothing_else() -> None:
    assert wave("waiting", "fan speed.S", "fan speed.-")[0] == pytest.approx(6, abs=0.15)
    assert wave("waiting", "fan speed.S", "fan speed.-", "fan:seized")[0] < 0.1


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("coil: 68 Ω, motor: motor", "coil: 68 Ω, motor: drum"),
            "A rule of 'tacho' asks what 'drum' does not tell: whether it runs.",
        ),
        (
            ("pulse sensor, motor: fan", "pulse sensor, motor: fun"),
            "A rule of 'fan speed' asks what 'fun' does not tell: whether it runs.",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("speedsense", change)[0].startswith(said)

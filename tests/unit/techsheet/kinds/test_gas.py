"""Igniter and valve in series: the valve opens only on the current of an igniter that is good."""

import pytest

from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told

#                    glow    bright  gas     off
SYMPTOMS = {
    "sound": "normal, normal, normal, none",
    "igniter:open": "none, none, none, none",
    # The fault of the trade: it glows and nothing lights.
    "igniter:weak": "normal, weak, none, none",
    "valve:open": "none, none, none, none",
    "valve:stuck": "normal, normal, none, none",
    "knob:L-B-open": "none, none, none, none",
    "knob:L-B-welded": "normal, normal, normal, normal",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("gasoven"), "igniter", "valve", "knob") == SYMPTOMS


def test_the_current_tells_a_good_igniter_from_an_aged_one() -> None:
    found = machine("gasoven")
    assert amps(settled(found, "baking"), "valve:coil") == pytest.approx(3.38, abs=0.05)
    assert amps(settled(found, "baking", "igniter:weak"), "valve:coil") == pytest.approx(2.53, abs=0.05)
    assert settled(found, "baking").chatters == {}


def test_low_voltage_alone_leaves_too_little_current_for_the_valve() -> None:
    found = machine("gasoven")
    assert symptoms(found, "house")["house:low-voltage"] == "normal, weak, none, none"


def test_every_mend_of_a_gas_part_leaves_gas_to_a_licensed_person() -> None:
    mends = [fault.mend for fault in machine("gasoven").faults.values() if fault.thing in ("valve", "igniter")]
    assert len(mends) == 4
    assert all("licensed" in mend for mend in mends)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("cold: 120 Ω", "cold: 20 Ω"),
            "'igniter' would pass more cold than hot. Its cold resistance is above volts squared over watts.",
        ),
        (
            ("power: 400 W at 117 V", "power: 400 W"),
            "'400 W' is not a power at a voltage. Write it as in 5.4 kW at 240 V.",
        ),
        (("opens at: 2.9 A", "opens at: 2.9 V"), "'2.9 V' is not in A. Write it as in 5 A."),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("gasoven", change) == [said]

"""A diode gives half the power, and a triac that conducts one half only does the same."""

import math

import pytest

from halfsplit.circuit import read_ohms, read_waves
from halfsplit.predict.readings import AS_GOOD_AS_OPEN_OHM
from tests.unit.techsheet.kinds.tiny import machine, settled, symptoms, told

#                   low     high    light
SYMPTOMS = {
    "sound": "weak, normal, normal",
    "diode:open": "none, normal, normal",
    "diode:shorted": "normal, normal, normal",
    "knob:1-2-open": "weak, weak, normal",
    "knob:1-2-welded": "normal, normal, normal",
    "output:open": "weak, normal, none",
    "output:shorted": "weak, normal, normal",
    "output:half": "weak, normal, weak",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("halfwaves"), "diode", "knob", "output") == SYMPTOMS


def test_behind_it_stand_the_mean_and_the_rms_of_half_waves() -> None:
    """√2 V/π mean and V/√2 true RMS (any textbook of rectifiers), of the volts at the plug."""
    at = settled(machine("halfwaves"), "low")
    heater, mains = (
        read_waves(at, (at.solution,), (pair,), 10e6)[0] for pair in (("warmer.1", "warmer.2"), ("plug.L", "plug.N"))
    )
    volts = float(mains.rms[0, 0])
    assert heater.mean[0, 0] == pytest.approx(math.sqrt(2) * volts / math.pi, rel=0.01)
    assert heater.rms[0, 0] == pytest.approx(volts / math.sqrt(2), rel=0.01)


def test_only_a_shorted_diode_is_plain_on_ohms() -> None:
    found = machine("halfwaves")
    ends = (("diode.1", "diode.2"), ("diode.2", "diode.1"))
    sound, shorted = (read_ohms(settled(found, "dead", *fault), ends)[:, 0] for fault in ((), ("diode:shorted",)))
    assert sound[0] == pytest.approx(2e6, rel=0.2)
    assert sound[1] > AS_GOOD_AS_OPEN_OHM
    assert max(shorted) < 0.1


@pytest.mark.parametrize("answer", ["maybe", "1"])
def test_half_waves_are_asked_for_by_yes_or_no(answer: str) -> None:
    assert told("halfwaves", ('half waves: "yes"', f'half waves: "{answer}"')) == [
        f"'{answer}' is neither yes nor no. Write yes, or leave it out."
    ]


def test_without_that_it_has_no_such_fault() -> None:
    assert "output:half" not in machine("halfwaves", ('half waves: "yes"', 'half waves: "no"')).faults


def crowd(many: int) -> tuple[tuple[str, str], ...]:
    """So many diodes beside the first."""
    return (
        (
            "  diode: {kind: diode, zone: case}\n",
            "".join(f"  diode{number}: {{kind: diode, zone: case}}\n" for number in range(2, many + 1))
            + "  diode: {kind: diode, zone: case}\n",
        ),
        ('half waves: "yes"', 'half waves: "no"'),
    )


def test_six_may_conduct_one_way_and_a_seventh_is_told_of_before_any_reading_is_asked() -> None:
    found = machine("halfwaves", *crowd(6))
    assert read_ohms(settled(found, "dead"), (("diode.2", "diode.1"),))[0, 0] > AS_GOOD_AS_OPEN_OHM
    assert told("halfwaves", *crowd(7)) == [
        "'diode' is more than the 6 parts of a sheet that may conduct one way only. "
        "Leave out those that no check goes through."
    ]

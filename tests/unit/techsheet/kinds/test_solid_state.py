"""Triac outputs leak when off, LED lamps glimmer on that, and a neon glows on a ghost."""

import math

import pytest

from halfsplit.circuit import read_ohms, read_volts
from halfsplit.predict import Predictor
from halfsplit.predict.readings import AS_GOOD_AS_OPEN_OHM
from halfsplit.trade import NOTHING_WRONG
from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told, volts

#                     heat    rest    light   shine   glimmer bulb    pilot   ghost   shining
SYMPTOMS = {
    "sound": "normal, none, normal, none, normal, normal, normal, normal, none",
    "output:open": "none, none, normal, none, normal, normal, normal, normal, none",
    "output:shorted": "normal, normal, normal, none, normal, normal, normal, normal, none",
    "lamp output:open": "normal, none, none, none, normal, normal, normal, normal, none",
    "lamp output:shorted": "normal, none, normal, normal, normal, normal, normal, normal, none",
    "bare output:open": "normal, none, normal, none, normal, none, normal, normal, none",
    "bare output:shorted": "normal, none, normal, none, normal, normal, normal, normal, none",
    "LED:open": "normal, none, none, none, none, normal, normal, normal, none",
    "pilot:open": "normal, none, normal, none, normal, normal, none, normal, none",
    "tester:open": "normal, none, normal, none, normal, normal, normal, none, none",
}


def test_every_fault_shows_as_written_down() -> None:
    parts = ("output", "lamp output", "bare output", "LED", "pilot", "tester")
    assert symptoms(machine("solidstate"), *parts) == SYMPTOMS


def test_off_and_without_a_load_it_reads_nearly_the_supply_and_means_nothing() -> None:
    found = machine("solidstate")
    pair = (("output.2", "plug.N"),)
    bare = Predictor(found, (NOTHING_WRONG,)).settled(found.setups["unloaded"])
    snubber = complex(100, -1 / (2 * math.pi * 60 * 0.1e-6))
    for meter in (10e6, 3e3):
        expected = 120 * meter / abs(snubber + meter)
        assert read_volts(bare, pair, meter)[0, 0] == pytest.approx(expected, rel=0.002)
    assert read_volts(bare, pair, 10e6)[0, 0] > 119.5
    assert read_volts(bare, pair, 3e3)[0, 0] < 14
    assert volts(settled(found, "idle"), "output.2", "plug.N") < 0.2


def test_dead_it_reads_open_whatever_it_is_told_unless_it_is_shorted() -> None:
    found = machine("solidstate")
    pair = (("output.1", "output.2"),)
    for setup in ("dead", "dead and told"):
        assert read_ohms(settled(found, setup), pair)[0, 0] > AS_GOOD_AS_OPEN_OHM
        assert read_ohms(settled(found, setup, "output:shorted"), pair)[0, 0] == pytest.approx(0.05, rel=0.01)


def test_a_neon_takes_what_its_resistor_leaves_it_and_a_ghost_only_lights_it_faintly() -> None:
    found = machine("solidstate")
    at = settled(found, "idle")
    # 120 V less the 55 V at which the gas burns, through 100 kΩ.
    assert amps(at, "pilot:bright") == pytest.approx(65 / 100e3, rel=0.01)
    # 120 V through 500 pF into a gas that burns at about 60 V.
    assert 45 < volts(at, "tester.1", "plug.N") < 70
    assert at.chatters == {}
    assert read_ohms(settled(found, "dead"), (("pilot.1", "pilot.2"),))[0, 0] > AS_GOOD_AS_OPEN_OHM


@pytest.mark.parametrize("capacitance", ["0.001", "0.002", "0.004", "0.01", "0.03", "0.1", "1"])
def test_no_stray_capacitance_makes_a_neon_go_round_and_round(capacitance: str) -> None:
    found = machine(
        "solidstate",
        ("title: long cable, capacitance: 0.001 µF", f"title: long cable, capacitance: {capacitance} µF"),
        (
            "more cable: {kind: capacitor, capacitance: 0.001 µF",
            f"more cable: {{kind: capacitor, capacitance: {capacitance} µF",
        ),
    )
    assert settled(found, "idle").chatters == {}


def test_an_led_lamp_takes_its_rated_current_and_reads_open_on_an_ohmmeter() -> None:
    found = machine("solidstate")
    assert amps(settled(found, "working"), "LED:leds") == pytest.approx(0.03, rel=0.02)
    assert read_ohms(settled(found, "dead"), (("LED.1", "LED.2"),))[0, 0] > AS_GOOD_AS_OPEN_OHM


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("  pilot: {kind: neon lamp,", "  pilot: {kind: neon lamp, strikes at: 100 V,"),
            "'pilot' would strike at 100 V. Above 55 V, at which the gas burns, and well below its rated 120 V.",
        ),
        (
            ("  pilot: {kind: neon lamp,", "  pilot: {kind: neon lamp, resistor: 100 V,"),
            "'100 V' is not in Ω. Write it as in 16 Ω.",
        ),
        (
            ("power: 1 W at 120 V, current: 30 mA", "power: 4 W at 120 V, current: 30 mA"),
            "4 W needs more than 0.03 A at 120 V. "
            "Check the power and the current: the capacitor takes most of the voltage.",
        ),
        (
            ("rating: 8 A, snubber: 0.1 µF", "rating: 8 A, snubber: 0.1 Ω"),
            "'0.1 Ω' is not a capacitance. Write it as in 45 µF.",
        ),
        (
            ("conducts: told on, rating: 8 A", "conducts: tol on, rating: 8 A"),
            "'tol on' begins with no setting or mechanical part of this sheet. Did you mean 'told'?",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("solidstate", change) == [said]

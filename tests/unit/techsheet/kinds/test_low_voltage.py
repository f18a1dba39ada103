"""The low-voltage side: power unit, motors, LED, relay and pull-up on direct current."""

import pytest

from halfsplit.call import Engine, caution_of
from halfsplit.circuit import read_ohms, read_waves
from halfsplit.predict import Predictor, candidates
from halfsplit.predict.readings import AS_GOOD_AS_OPEN_OHM
from halfsplit.trade import NOTHING_WRONG, Measure
from tests.unit.techsheet.kinds.tiny import machine, settled, symptoms, told

#                   blow    pump    light   click   heat    awake   stopped again
SYMPTOMS = {
    "sound": "normal, normal, normal, normal, normal, normal, none, normal",
    "unit:dead": "none, none, none, none, none, none, none, none",
    # Seven volts: motors still start and the LED glows, but the relay wants three quarters of twelve.
    "unit:sags": "normal, normal, normal, none, none, normal, none, normal",
    "fan:open": "none, normal, normal, normal, normal, normal, none, normal",
    "fan:seized": "none, normal, normal, normal, normal, normal, none, normal",
    "pump:open": "normal, none, normal, normal, normal, normal, none, normal",
    "pump:jammed": "normal, none, normal, normal, normal, normal, none, normal",
    "pump:seized": "normal, none, normal, normal, normal, normal, none, normal",
    "LED:open": "normal, normal, none, normal, normal, normal, none, none",
    "relay:coil-open": "normal, normal, normal, none, none, normal, none, normal",
    "fan blades:stuck": "none, none, normal, normal, normal, normal, none, normal",
}


def mean(setup: str, red: str, black: str, *faults: str) -> float:
    """Direct volts between two points on a 10 MΩ meter."""
    at = settled(machine("lowvoltage"), setup, *faults)
    return float(read_waves(at, (at.solution,), ((red, black),), 10e6)[0].mean[0, 0])


def test_every_fault_shows_as_written_down() -> None:
    seen = symptoms(machine("lowvoltage"), "unit", "fan", "pump", "LED", "relay", "fan blades")
    assert {fault: row for fault, row in seen.items() if fault in SYMPTOMS} == SYMPTOMS


def test_it_gives_its_volts_less_a_hundredth_at_its_rated_current() -> None:
    # 0.2, 0.3, 0.03 and 0.01 A through a hundredth of 12 V by 1.5 A.
    assert mean("on", "unit.+", "unit.-") == pytest.approx(12 - 0.08 * 0.55, abs=0.02)
    assert mean("on", "unit.+", "unit.-", "unit:sags") == pytest.approx(0.6 * 12, abs=0.05)
    assert mean("dead", "unit.+", "unit.-") == 0


@pytest.mark.parametrize(("setup", "ohm"), [("on", 10000.0), ("warm", 3592.0)])
def test_a_sensor_behind_its_pull_up_shares_the_volts_by_their_ohms(setup: str, ohm: float) -> None:
    rail = mean(setup, "unit.+", "unit.-")
    assert mean(setup, "sensor.1", "sensor.2") == pytest.approx(rail * ohm / (ohm + 10e3), rel=0.002)


def test_an_open_sensor_reads_all_of_the_rail_and_a_shorted_one_nothing() -> None:
    assert mean("on", "sensor.1", "sensor.2", "sensor:open") == pytest.approx(11.96, abs=0.05)
    assert mean("on", "sensor.1", "sensor.2", "sensor:shorted") == pytest.approx(0, abs=0.01)


def test_direct_volts_are_proposed_where_they_stand_and_alternating_ones_elsewhere() -> None:
    found = machine("lowvoltage")
    actions = [action for action in candidates(Predictor(found, (NOTHING_WRONG,))) if isinstance(action, Measure)]
    modes = {action.points: action.mode for action in actions if action.setup == "on"}
    assert {modes[ends] for ends in (("fan.1", "fan.2"), ("LED.1", "LED.2"), ("sensor.1", "sensor.2"))} == {"dc"}
    assert {modes[ends] for ends in (("unit.L", "unit.N"), ("heater.1", "heater.2"))} == {"volts"}
    bare = [
        action for action in candidates(Predictor(machine("holdin"), (NOTHING_WRONG,))) if isinstance(action, Measure)
    ]
    assert {action.mode for action in bare} == {"ohms", "volts"}


def test_against_earth_an_isolated_rail_reads_next_to_nothing_and_one_on_neutral_its_volts() -> None:
    assert abs(mean("on", "unit.+", "case.G")) < 1
    tied = machine("lowvoltage", ("current: 1.5 A, zone", "current: 1.5 A, low side on: N, zone"))
    at = settled(tied, "on")
    assert read_waves(at, (at.solution,), (("unit.+", "case.G"),), 10e6)[0].mean[0, 0] == pytest.approx(11.96, abs=0.05)
    assert tied.parts["unit"].caution.startswith("DANGER")
    assert machine("lowvoltage").parts["unit"].caution.startswith("CAUTION")


def test_the_gravest_signal_word_stands_once_before_all_that_is_to_be_said() -> None:
    engine = Engine(machine("lowvoltage"))
    said = caution_of(engine, Measure(("unit.+", "unit.-"), "dc", "on"))
    assert said.startswith("DANGER: a power unit's capacitors stay charged")
    assert "Live work at up to" in said
    assert (said.count("DANGER"), said.count("CAUTION")) == (1, 0)


def test_an_ohmmeter_finds_windings_and_no_led_and_no_power_unit() -> None:
    found = machine(
        "lowvoltage", ("  - red unit.+ pump.1\n", "  - red unit.+ pump.2\n"), ("  - black pump.2 unit.-\n", "")
    )
    assert read_ohms(settled(found, "dead"), (("pump.1", "pump.2"),))[0, 0] == pytest.approx(12, rel=0.001)
    assert read_ohms(settled(found, "dead"), (("unit.L", "unit.N"),))[0, 0] > AS_GOOD_AS_OPEN_OHM


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("winding: 15 Ω, running current: 0.2 A", "winding: 15 Ω, running current: 0.9 A"),
            "A winding of 15 Ω lets less through standing than 'fan' takes running. "
            "Check the winding's ohms and its running current.",
        ),
        (
            ("current: 1.5 A, zone", "current: 1.5 A, low side on: G, zone"),
            "'unit' has no mains terminal 'G'. Write L or N.",
        ),
        (("resistance: 10 kΩ", "resistance: 10 kV"), "'10 kV' is not in Ω. Write it as in 16 Ω."),
        (("LED indicator, volts: 12 V", "LED indicator, volts: 12 Ω"), "'12 Ω' is not in V. Write it as in 120 V."),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("lowvoltage", change)[0] == said

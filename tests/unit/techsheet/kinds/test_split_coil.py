"""Split coils, igniter and radiant sensor: the flame follows the glow, and what fails leaves the igniter cycling."""

import pytest

from halfsplit.call import Engine, caution_of
from halfsplit.circuit import read_ohms
from halfsplit.errors import InputError
from halfsplit.predict import Predictor, expected
from halfsplit.trade import NOTHING_WRONG, Measure
from tests.unit.techsheet.kinds.tiny import machine, position, settled, symptoms, told

#                   gas     spark   quiet
SYMPTOMS = {
    "sound": "normal, normal, none",
    "valve:holding-open": "none, normal, none",
    "valve:booster-open": "none, normal, none",
    "valve:second-open": "none, normal, none",
    "igniter:open": "none, normal, none",
    "igniter:weak": "normal, normal, none",
    "sensor:open": "none, normal, none",
    "sensor:welded": "none, normal, none",
    "spark:dead": "normal, none, none",
    "spark:sparks-on": "normal, normal, normal",
    "spark:electrode": "normal, none, none",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("splitcoil"), "valve", "igniter", "sensor", "spark") == SYMPTOMS


def test_with_the_flame_the_sensor_stays_open_and_the_igniter_is_out() -> None:
    at = settled(machine("splitcoil"), "heating")
    stands = {name: position(at, name) for name in ("sensor:hot", "igniter:glows", "valve:safety-open", "valve:burns")}
    assert stands == {"sensor:hot": "yes", "igniter:glows": "no", "valve:safety-open": "yes", "valve:burns": "yes"}
    assert at.chatters == {}


@pytest.mark.parametrize("fault", ["valve:second-open", "valve:booster-open"])
def test_without_a_flame_the_igniter_glows_and_goes_out_by_turns(fault: str) -> None:
    at = settled(machine("splitcoil"), "heating", fault)
    assert set(at.chatters[0]) >= {"sensor:hot", "igniter:glows"}


def test_with_a_welded_sensor_the_igniter_glows_on_without_gas() -> None:
    at = settled(machine("splitcoil"), "heating", "sensor:welded")
    assert (position(at, "igniter:glows"), at.chatters) == ("yes", {})


@pytest.mark.parametrize(
    ("fault", "glowed"),
    [((), "yes"), (("valve:second-open",), "yes"), (("igniter:open",), "no"), (("sensor:open",), "no")],
)
def test_an_igniter_that_is_out_by_now_still_tells_whether_it_has_glowed(fault: tuple[str, ...], glowed: str) -> None:
    # Behind a sensor that stays open the second coil lets through a tenth of an ampere, too little to heat it.
    assert position(settled(machine("splitcoil"), "heating", *fault), "igniter:glowed") == glowed


def test_a_probe_on_a_gas_valve_is_told_of_gas_first() -> None:
    engine = Engine(machine("splitcoil"))
    assert caution_of(engine, Measure(("valve.1", "valve.2"), "ohms", "dead")).startswith("WARNING: gas. Shut it off")
    assert "gas" not in caution_of(engine, Measure(("sensor.1", "sensor.2"), "ohms", "dead"))


def test_nothing_is_read_at_a_spark_electrode() -> None:
    found = machine("splitcoil")
    assert {"spark.S", "rod.1"} <= set(found.dead_only)
    with pytest.raises(InputError, match="sparks of kilovolts"):
        expected(Predictor(found, (NOTHING_WRONG,)), (("spark.S", "spark.N"),), "low-z", found.setups["heating"])


def test_a_flame_passes_to_the_burner_only_and_nothing_is_read_at_the_rod_on_a_live_machine() -> None:
    found = machine("splitcoil")
    assert read_ohms(settled(found, "dead", "rod:grounded"), (("rod.1", "rod.2"),))[0, 0] < 0.1
    with pytest.raises(InputError, match="a flame passes microamperes"):
        expected(Predictor(found, (NOTHING_WRONG,)), (("rod.1", "case.G"),), "volts", found.setups["flame"])


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("sensor, igniter: igniter", "sensor, igniter: ignite"),
            "A rule of 'sensor' asks what 'ignite' does not tell: whether it glows. Did you mean 'igniter glows'?",
        ),
        (
            ("valve: valve, zone", "valve: rod, zone"),
            "A rule of 'sensor' asks what 'rod' does not tell: whether it burns. Did you mean 'valve burns'?",
        ),
        (("booster coil: 560 Ω, ", ""), "'valve' has no 'booster coil'. Add it. Resistance an ohmmeter finds, 1 to 3."),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("splitcoil", change)[0] == said

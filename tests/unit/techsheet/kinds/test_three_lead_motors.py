"""Capacitor-run, capacitor-start and PTC-started motors: what a person sees under each fault of motor and helper."""

import doctest
import math

import pytest

from halfsplit.circuit import read_ohms
from halfsplit.errors import InputError
from halfsplit.techsheet.kinds import starting
from halfsplit.techsheet.kinds.starting import read_farad
from tests.unit.techsheet.kinds.tiny import amps, machine, position, settled, symptoms, told

STANDS_AND_HUMS, STANDS_SILENT, RUNS = "none, normal, normal", "none, none, normal", "normal, none, normal"
TRIPS = "none, none, none"
TRIPS_ITSELF = "none, none, normal"
MOTOR = {
    "sound": RUNS,
    "motor:run-open": STANDS_SILENT,
    "motor:start-open": STANDS_AND_HUMS,
    "motor:overload-open": STANDS_SILENT,
    "motor:seized": STANDS_AND_HUMS,
    "motor:grounded": TRIPS,
}
CAPACITOR = {
    "capacitor:open": STANDS_AND_HUMS,
    "capacitor:weak": STANDS_AND_HUMS,
    "capacitor:shorted": STANDS_AND_HUMS,
}


def test_a_capacitor_run_motor_starts_only_with_both_windings_and_a_good_capacitor() -> None:
    assert symptoms(machine("capacitorrun"), "motor", "capacitor") == MOTOR | CAPACITOR


def test_a_capacitor_start_motor_needs_its_capacitor_and_its_switch() -> None:
    assert symptoms(machine("capacitorstart"), "motor", "capacitor") == MOTOR | CAPACITOR | {
        "motor:start-switch-open": STANDS_AND_HUMS,
        # It starts; then the start winding, made for seconds, stays in, and the overload trips.
        "motor:start-switch-welded": TRIPS_ITSELF,
    }


def test_a_compressor_needs_its_starter() -> None:
    assert symptoms(machine("compressor"), "motor", "starter") == MOTOR | {
        "starter:open": STANDS_AND_HUMS,
        "starter:stays-cold": TRIPS_ITSELF,
    }


def test_only_a_sealed_compressor_warns_of_its_pins() -> None:
    cautions = {sheet: machine(sheet).parts["motor"].caution for sheet in ("capacitorrun", "compressor")}
    assert cautions["capacitorrun"] == ""
    assert cautions["compressor"].startswith("WARNING: the pins of a sealed compressor")


@pytest.mark.parametrize("sheet", ["capacitorrun", "capacitorstart", "compressor"])
def test_a_jammed_rotor_hums_and_then_trips_the_overload(sheet: str) -> None:
    at = settled(machine(sheet), "on", "rotor:jammed")
    states = [position(at, f"motor:{name}") for name in ("running", "hums", "overload-tripped")]
    assert states == ["no", "yes", "yes"]


@pytest.mark.parametrize("sheet", ["capacitorrun", "capacitorstart", "compressor"])
def test_a_sound_motor_takes_its_running_current_and_does_not_chatter(sheet: str) -> None:
    found = machine(sheet)
    at = settled(found, "on")
    rated = {"capacitorrun": 1.6, "capacitorstart": 6.0, "compressor": 1.5}[sheet]
    assert amps(at, "motor:run-running") == pytest.approx(rated, rel=0.03)
    for fault in ("", *found.faults):
        assert settled(found, "on", *filter(None, [fault])).chatters == {}


def test_once_running_the_start_winding_gets_next_to_nothing() -> None:
    assert amps(settled(machine("capacitorstart"), "on"), "motor:start-winding") < 1e-3
    assert amps(settled(machine("compressor"), "on"), "motor:start-winding") < 0.01
    assert amps(settled(machine("capacitorrun"), "on"), "motor:start-winding") == pytest.approx(0.47, abs=0.02)


def test_an_ohmmeter_on_a_capacitor_finds_its_bleed_resistor_or_nothing() -> None:
    pair = (("capacitor.1", "capacitor.2"),)
    lifted = ("  - white motor.C plug.N\n", "")
    with_bleed = read_ohms(settled(machine("capacitorstart", lifted), "dead", "motor:start-open"), pair)[0, 0]
    assert with_bleed == pytest.approx(15_000, rel=0.001)
    without = read_ohms(settled(machine("capacitorrun", lifted), "dead", "motor:start-open"), pair)[0, 0]
    assert without > 20e6
    shorted = read_ohms(settled(machine("capacitorstart"), "dead", "capacitor:shorted"), pair)[0, 0]
    assert shorted < 0.1


def test_the_example_in_the_reader_of_capacitances_is_true() -> None:
    assert doctest.testmod(starting) == doctest.TestResults(failed=0, attempted=1)


@pytest.mark.parametrize(("text", "farad"), [("80 µF", 80e-6), ("12,5 uF", 12.5e-6), ("45MFD", 45e-6)])
def test_capacitances_are_read_as_printed(text: str, farad: float) -> None:
    assert math.isclose(read_farad(text), farad)


@pytest.mark.parametrize("text", ["80", "80 F", "0 µF", "3000 µF", "80 nF", "-5 µF"])
def test_what_is_no_capacitance_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="capacit"):
        read_farad(text)


@pytest.mark.parametrize(
    ("sheet", "change", "said"),
    [
        (
            "capacitorrun",
            ("    capacitor: 5 µF\n", "    capacitor: 5 kg\n"),
            "'5 kg' is not a capacitance. Write it as in 45 µF.",
        ),
        (
            "capacitorrun",
            ("locked current: 5 A", "locked current: 3 A"),
            "'motor' standing still takes only 3 A. Its locked current is more than 2.5 times its running current.",
        ),
        (
            "capacitorstart",
            ("run winding: 2 Ω", "run winding: 20 Ω"),
            "A winding of 20 Ω cannot pass that much current: the whole is only 4.8 Ω. "
            "Check the winding's ohms and its current.",
        ),
        (
            "compressor",
            ("turns: rotor free", "turns: rotor fre"),
            "'rotor' has no position 'fre'. Did you mean 'free'?",
        ),
        (
            "compressor",
            ("cold: 5 Ω", "cold: 5 kΩ"),
            "'starter' is hardly warmer hot than cold. Its hot resistance is hundreds of times its cold one.",
        ),
    ],
)
def test_what_makes_no_sense_is_told(sheet: str, change: tuple[str, str], said: str) -> None:
    assert told(sheet, change) == [said]

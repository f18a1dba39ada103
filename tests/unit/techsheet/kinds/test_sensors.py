"""Sensors: what an ohmmeter finds of them, cold, warm and hot, sound and at fault."""

import doctest
import math

import pytest

from halfsplit.circuit import read_ohms
from halfsplit.techsheet.kinds import sensors
from tests.unit.techsheet.kinds.tiny import machine, settled, symptoms, told

PAIRS = (("board.A", "board.common"), ("board.B", "board.common"), ("board.P", "board.common"))


def ohms(setup: str, *faults: str) -> list[float]:
    """Of the thermistor with a table, of that with a B value, and of the platinum sensor."""
    return [float(value) for value in read_ohms(settled(machine("sensors"), setup, *faults), PAIRS)[:, 0]]


@pytest.mark.parametrize(
    ("setup", "found"),
    [
        ("cold", (10_000, 10_000, 1097.35)),
        # by beta: 10 kΩ · exp(3950 · (1/323.15 - 1/298.15)) with a pencil
        ("warm", (3592, 3588.2, 1193.97)),
        ("hot", (674.4, 697.5, 1385.06)),
    ],
)
def test_each_sensor_goes_with_the_heat_at_its_place(setup: str, found: tuple[float, float, float]) -> None:
    assert ohms(setup) == pytest.approx(found, rel=2e-4)


@pytest.mark.parametrize("setup", ["cold", "warm", "hot"])
@pytest.mark.parametrize(("row", "part"), list(enumerate(["by table", "by beta", "oven"])))
def test_its_faults_show_on_an_ohmmeter_in_every_position_and_on_no_other_sensor(
    setup: str, row: int, part: str
) -> None:
    sound = ohms(setup)
    for fault, wrong in (("open", math.inf), ("shorted", 0.5), ("drifted", 1.5 * sound[row])):
        found = ohms(setup, f"{part}:{fault}")
        assert found[row] == pytest.approx(wrong, rel=0.04)
        assert [found[other] for other in range(3) if other != row] == pytest.approx(
            [sound[other] for other in range(3) if other != row], rel=1e-6
        )


def test_no_sensor_fault_shows_in_what_the_wiring_does() -> None:
    seen = symptoms(machine("sensors"), "by table", "by beta", "oven")
    assert len(seen) == 10
    assert set(seen.values()) == {"normal"}


def test_the_examples_in_the_module_are_true() -> None:
    result = doctest.testmod(sensors)
    assert result.failed == 0
    assert result.attempted >= 3


TABLE = '"32 °F 31.77 kΩ, 25 °C 10 kΩ, 50 °C 3592 Ω, 100 °C 674.4 Ω"'


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            (TABLE, '"25 °C 10 kΩ, 50 °C 3592 Ω"'),
            "100 °C is outside the table (25 to 50 °C). Add a point to the table.",
        ),
        ((TABLE, '"10 kΩ, 50 °C 3592 Ω"'), "'10 kΩ' is not a point of a table. Write it as in 77 °F 10 kΩ."),
        ((TABLE, '"25 °C 10 kΩ, 77 °F 9 kΩ"'), "'77 °F 9 kΩ' is a second point at that temperature. Keep one."),
        (
            (TABLE, '"25 °C 10 kΩ"'),
            "A table needs two points or more. Write them as in 32 °F 32.6 kΩ, 77 °F 10 kΩ.",
        ),
        (
            (f"table: {TABLE}", f"table: {TABLE}, beta: 3950"),
            "'by table' says in two ways how it goes with the heat. "
            "Give the table, the coefficients, or the resistance with `beta`.",
        ),
        (("beta: 3950 K", "beta: lots"), "'lots' is not a B value. Write it as in 3950 K."),
        (
            ("resistance: 10 kΩ, ", ""),
            "'by beta' does not say how it goes with the heat. "
            "Give `table`, `coefficients`, or `resistance` at 25 °C with `beta`.",
        ),
        (
            ("hot: 100 °C}", "hot: 900 °C}"),
            "900 °C is outside the table (0 to 100 °C). Add a point to the table.",
        ),
        (("platinum sensor, place: in the box", "platinum sensor, place: box"), None),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str | None) -> None:
    found = told("sensors", change)
    assert found[0] == (said or "There is no place 'box' in `temperatures`. Known here: in the box.")


def test_a_platinum_sensor_is_not_stretched_beyond_its_equation() -> None:
    said = told("sensors", ("hot: 100 °C}", "hot: 900 °C}"))
    assert "A platinum sensor is not known at 900 °C. It is from -200 to 850 °C." in said


def test_the_factors_of_steinhart_and_hart_serve_in_place_of_a_table() -> None:
    factors = "1.129148e-3, 2.34125e-4, 8.76741e-8"
    found = machine("sensors", (f"table: {TABLE}", f'coefficients: "{factors}"'))
    branch = next(branch for branch in found.network.branches if branch.name.startswith("by table:at "))
    assert branch.ohm == pytest.approx(10_000, rel=1e-3)  # cold is 25 °C here
    assert told("sensors", (f"table: {TABLE}", 'coefficients: "1.1, 2.3, 8.7"')) == [
        "'1.1, 2.3, 8.7' are not the three of Steinhart and Hart. "
        "Write A, B and C as in 1.129148e-3, 2.34125e-4, 8.76741e-8."
    ]

"""Quantities as people write them: every spelling, commas, prefixes, and a sentence for what is not one."""

from collections.abc import Callable

import pytest

from halfsplit.errors import InputError
from halfsplit.units import (
    UNITS,
    read_conductor,
    read_current,
    read_minutes,
    read_power,
    read_quantity,
    read_temperature,
)

SPELLINGS = [(unit, spelling) for unit, spellings in UNITS.items() for spelling in spellings]
READERS: dict[str, Callable[[str], float]] = {
    "min": read_minutes,
    "°C": read_temperature,
    "°F": lambda text: read_temperature(text) * 1.8 + 32,
    "m": lambda text: read_conductor(f"10 AWG {text}")[1] / read_conductor("10 AWG 1 m")[1],
    "ft": lambda text: read_conductor(f"10 AWG {text}")[1] / read_conductor("10 AWG 1 ft")[1],
}


def read(text: str, unit: str) -> float:
    """Read with the reader that takes this unit."""
    return READERS[unit](text) if unit in READERS else read_quantity(text, unit)


def complaint(text: str, unit: str) -> tuple[str, str]:
    """What is wrong with a quantity, and what would be right."""
    with pytest.raises(InputError) as caught:
        read(text, unit)
    return caught.value.what, caught.value.right


@pytest.mark.parametrize(("unit", "spelling"), SPELLINGS)
def test_every_spelling_is_read_with_and_without_a_space(unit: str, spelling: str) -> None:
    assert read(f"12.5 {spelling}", unit) == pytest.approx(12.5)
    assert read(f"12.5{spelling}", unit) == pytest.approx(12.5)


@pytest.mark.parametrize(("unit", "spelling"), [pair for pair in SPELLINGS if len(pair[1]) > 1])
def test_capitals_do_not_matter_in_a_spelled_out_unit(unit: str, spelling: str) -> None:
    assert read(f"12.5 {spelling.upper()}", unit) == pytest.approx(12.5)


def test_no_spelling_stands_for_two_units() -> None:
    spellings = [spelling.casefold() for _, spelling in SPELLINGS]
    again = {spelling for spelling in spellings if spellings.count(spelling) > 1}
    assert again == {"vac", "aac"}  # each twice for its own unit


@pytest.mark.parametrize(
    ("text", "ohms"),
    [
        ("2.4k", 2400.0),
        ("2.4K", 2400.0),
        ("2.4 kΩ", 2400.0),
        ("2.4 KΩ", 2400.0),
        ("2.4 k ohm", 2400.0),
        ("2,4 kΩ", 2400.0),
        ("0,400 Ω", 0.4),
        ("1,200", 1200.0),
        ("1,234.5 Ω", 1234.5),
        ("1,234,567 Ω", 1234567.0),
        ("1e3 Ω", 1000.0),
        ("2 MΩ", 2e6),
        ("2 M", 2e6),
        ("2 meg", 2e6),
        ("2 Megohms", 2e6),
        ("5 mΩ", 0.005),
        (".5", 0.5),
        ("+5", 5.0),
        ("16R", 16.0),
    ],
)
def test_prefixes_decimal_commas_and_thousands(text: str, ohms: float) -> None:
    assert read_quantity(text, "Ω") == pytest.approx(ohms, rel=1e-12)


def test_the_same_sign_from_another_script_is_the_same() -> None:
    micro, mu = "\u00b5", "\u03bc"
    omega, ohm = "\u03a9", "\u2126"
    assert read_quantity(f"47 {micro}{omega}", "Ω") == read_quantity(f"47 {mu}{ohm}", "Ω") == pytest.approx(47e-6)
    assert read_temperature("68 \u2103") == read_temperature("68 \u00baC") == read_temperature("68 ° C") == 68.0
    assert read_quantity("5\u00a0kW", "W") == read_quantity("5\u202fkW", "W") == 5000.0


@pytest.mark.parametrize(
    ("text", "what", "right"),
    [
        ("4k7", "'4k7' has a letter for its point.", "Write 4.7 kΩ."),
        ("4R7", "'4R7' has a letter for its point.", "Write 4.7 Ω."),
        ("1,200 k", "'1,200 k' could be read in two ways.", "Write it with a point, or with no comma."),
        ("1.2.3 Ω", "'1.2.3 Ω' is not a number.", "Write digits and a unit, as in 16 Ω."),
        ("1.234,5 Ω", "'1.234,5 Ω' is not a number.", "Write digits and a unit, as in 16 Ω."),
        ("12,34,567", "'12,34,567' is not a number.", "Write digits and a unit, as in 16 Ω."),
        (".", "'.' is not a number.", "Write digits and a unit, as in 16 Ω."),
        ("", "'' is not a quantity.", "Write a number and a unit, as in 16 Ω."),
        ("ohm", "'ohm' is not a quantity.", "Write a number and a unit, as in 16 Ω."),
        ("2 400 Ω", "'2 400 Ω' is not a quantity.", "Write a number and a unit, as in 16 Ω."),
        ("nan", "'nan' is not a quantity.", "Write a number and a unit, as in 16 Ω."),
        ("٣ Ω", "'٣ Ω' is not a quantity.", "Write a number and a unit, as in 16 Ω."),
        ("10² Ω", "'10² Ω' has no unit that halfsplit knows.", "Write it as in 16 Ω, 4.7 kΩ or 120 V."),
        ("5 parsecs", "'5 parsecs' has no unit that halfsplit knows.", "Write it as in 16 Ω, 4.7 kΩ or 120 V."),
        ("3 kmin", "'3 kmin' has no unit that halfsplit knows.", "Write it as in 16 Ω, 4.7 kΩ or 120 V."),
        ("1e999 Ω", "'1e999 Ω' is too large to be real.", "Write the number on the meter or the paper."),
        ("0 Ω", "'0 Ω' is not above zero.", "Write it as in 16 Ω."),
        ("1e-400 Ω", "'1e-400 Ω' is not above zero.", "Write it as in 16 Ω."),
        ("-3 Ω", "'-3 Ω' is not above zero.", "Write it as in 16 Ω."),
        ("−3 Ω", "'−3 Ω' is not above zero.", "Write it as in 16 Ω."),
        ("1e300 Ω", "'1e300 Ω' is beyond anything in an appliance (1e-06 to 1e+10 Ω).", "Write it as in 16 Ω."),
        ("155 V", "'155 V' is not in Ω.", "Write it as in 16 Ω."),
    ],
)
def test_what_is_no_resistance_gets_a_sentence(text: str, what: str, right: str) -> None:
    assert complaint(text, "Ω") == (what, right)


def test_a_long_text_is_refused_at_once_and_quoted_short() -> None:
    what, _ = complaint("9" * 100_000, "Ω")
    assert what == f"'{'9' * 59}…' is not a quantity."
    spaces, _ = complaint("1" + " " * 100_000 + "x" * 100, "Ω")
    assert spaces == f"'1 {'x' * 57}…' is not a quantity."


@pytest.mark.parametrize(
    "text", ["5.4 kW at 240 V", "5.4 kW @ 240 V", "5400W@240V", "5,4 kW  at  240 volts", "5400 at 240"]
)
def test_a_power_is_watts_at_volts(text: str) -> None:
    assert read_power(text) == (5400.0, 240.0)


@pytest.mark.parametrize("text", ["5.4 kW", "5.4 kW at", "240 V at 240 V at 240 V", ""])
def test_a_power_without_its_voltage_gets_a_sentence(text: str) -> None:
    with pytest.raises(InputError) as caught:
        read_power(text)
    assert caught.value.what == f"{text!r} is not a power at a voltage."
    assert caught.value.right == "Write it as in 5.4 kW at 240 V."


def test_a_power_with_its_units_swapped_is_named() -> None:
    with pytest.raises(InputError, match=r"^'240 V' is not in W\. Write it as in 5\.4 kW\.$"):
        read_power("240 V at 5.4 kW")


def test_a_current_in_milliamps() -> None:
    assert read_current("40 mA") == pytest.approx(0.04)


@pytest.mark.parametrize("text", ["-1 min", "8 V", "8 m", "2000 min"])
def test_what_is_no_time_gets_a_sentence(text: str) -> None:
    assert complaint(text, "min") == (f"{text!r} is not a time in minutes.", "Write it as in 8 min.")


def test_no_time_at_all_is_a_time() -> None:
    assert read_minutes("0 min") == 0.0


@pytest.mark.parametrize(
    ("text", "celsius"), [("155 °F", 68.333), ("-40 F", -40.0), ("212 degF", 100.0), ("68 °C", 68.0)]
)
def test_temperatures_in_both_scales(text: str, celsius: float) -> None:
    assert read_temperature(text) == pytest.approx(celsius, abs=1e-3)


@pytest.mark.parametrize("text", ["155 V", "155", "68 K"])
def test_a_temperature_needs_its_scale(text: str) -> None:
    assert complaint(text, "°C") == (f"{text!r} is not a temperature.", "Write it as in 155 °F or 68 °C.")


@pytest.mark.parametrize("text", ["-300 °C", "4000 °F"])
def test_a_temperature_no_appliance_meets_is_refused(text: str) -> None:
    assert complaint(text, "°C") == (f"{text!r} is no temperature of an appliance.", "Write it as in 155 °F or 68 °C.")


def test_a_conductor_by_gauge_and_length() -> None:
    gauge, ohm = read_conductor("12 AWG 1000 ft")
    assert gauge == 12
    assert ohm == pytest.approx(1.93, rel=4e-3)  # NEC chapter 9 table 8, copper at 75 °C
    assert read_conductor("12awg, 304.8 m")[1] == pytest.approx(ohm)


@pytest.mark.parametrize("text", ["2.5 mm² 10 m", "2,5 mm2 10 m", "2.5mm^2, 10 m", "2.5 sq mm 10 m"])
def test_a_conductor_by_cross_section_and_length(text: str) -> None:
    gauge, ohm = read_conductor(text)
    assert gauge == 13
    assert ohm == pytest.approx(read_conductor("10 AWG 10 m")[1] * 5.261 / 2.5, rel=1e-3)  # 10 AWG is 5.261 mm²


@pytest.mark.parametrize(("text", "what"), [("0.02 mm² 1 m", "thinner"), ("70 mm² 1 m", "thicker")])
def test_a_cross_section_of_no_appliance_gets_a_sentence(text: str, what: str) -> None:
    with pytest.raises(InputError) as caught:
        read_conductor(text)
    assert caught.value.what == f"{text!r} is {what} than any appliance wire."
    assert caught.value.right == "Write it as in 1.5 mm² 0.6 m."


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("12 AWG", "'12 AWG' is not a conductor."),
        ("2.5 mm²", "'2.5 mm²' is not a conductor."),
        ("2 m", "'2 m' is not a conductor."),
        (f"{'6' * 5000} AWG 1 m", f"'{'6' * 59}…' is not a conductor."),
        ("31 AWG 1 m", "'31 AWG 1 m' is thinner than any appliance wire."),
        ("12 AWG 2", "'12 AWG 2' has no length."),
        ("12 AWG 2 V", "'12 AWG 2 V' has no length."),
        ("12 AWG 0 m", "'12 AWG 0 m' is not above zero."),
        ("12 AWG 5000 m", "'12 AWG 5000 m' is beyond anything in an appliance (0.001 to 1000 m)."),
    ],
)
def test_what_is_no_conductor_gets_a_sentence(text: str, what: str) -> None:
    with pytest.raises(InputError) as caught:
        read_conductor(text)
    assert (caught.value.what, caught.value.right) == (what, "Write a gauge and a length, as in 16 AWG 0.6 m.")

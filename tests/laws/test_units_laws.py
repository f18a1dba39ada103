"""Laws of reading and printing quantities."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfsplit.errors import InputError
from halfsplit.units import read_conductor, read_quantity, read_reading, show, show_reading, write_reading
from halfsplit.units.quantity import read_minutes, read_power, read_temperature, split_quantity

MOST = {"volts": 1000.0, "low-z": 1000.0, "ohms": 100e6, "amps": 400.0}
LEAST_SHOWN = {"volts": 0.05, "low-z": 0.05, "ohms": 0.05, "amps": 0.005}
READINGS = st.sampled_from(sorted(MOST)).flatmap(
    lambda mode: st.tuples(st.just(mode), st.floats(min_value=0.0, max_value=MOST[mode]))
)
WRITTEN = st.text(alphabet="0123456789.,-+eE kKMmuµμΩ\u2126VAWhz°FCatol ", max_size=24) | st.text(max_size=24)


@given(READINGS)
def test_what_is_shown_reads_back_within_rounding(reading: tuple[str, float]) -> None:
    mode, value = reading
    back = read_reading(show_reading(value, mode), mode)
    assert back == pytest.approx(value, rel=0.00501, abs=LEAST_SHOWN[mode])


@given(READINGS)
def test_what_is_written_to_a_file_reads_back_exactly(reading: tuple[str, float]) -> None:
    mode, value = reading
    assert read_reading(write_reading(value, mode), mode) == value


@given(st.floats(min_value=-1e9, max_value=1e9), st.sampled_from(["V", "Ω", "A", "W", "Hz", "m"]))
def test_nothing_is_shown_in_powers_of_ten(value: float, unit: str) -> None:
    number = show(value, unit).split()[0]
    assert set(number) <= set("0123456789.-")
    assert number != "-0"


@given(st.floats(min_value=1e-3, max_value=1e6), st.sampled_from(["", "k", "M", "m", "µ"]))
def test_a_prefix_multiplies(number: float, prefix: str) -> None:
    factor = {"": 1.0, "k": 1e3, "M": 1e6, "m": 1e-3, "µ": 1e-6}[prefix]
    text = f"{number:.6f} {prefix}Ω"
    value, unit = split_quantity(text)
    assert unit == "Ω"
    assert value == pytest.approx(float(f"{number:.6f}") * factor)


@given(st.integers(min_value=1, max_value=10**9))
def test_thousands_marks_change_nothing(number: int) -> None:
    assert split_quantity(f"{number:,} W") == split_quantity(f"{number} W")


@given(st.floats(min_value=1e-3, max_value=1e5))
def test_a_decimal_comma_is_a_point(number: float) -> None:
    text = f"{number:.2f}"  # two decimals can never be a group of thousands
    assert split_quantity(text.replace(".", ",")) == split_quantity(text)


@given(WRITTEN)
def test_any_text_is_a_finite_quantity_or_a_sentence(text: str) -> None:
    readers = (
        lambda typed: read_quantity(typed, "Ω"),
        lambda typed: read_reading(typed, "volts"),
        lambda typed: sum(read_power(typed)),
        read_minutes,
        read_temperature,
        lambda typed: read_conductor(typed)[1],
    )
    for reader in readers:
        try:
            value = reader(text)
        except InputError as error:
            assert error.what.endswith(".")
            assert error.right.endswith(".")
            assert "\n" not in str(error)
        else:
            assert math.isfinite(value)

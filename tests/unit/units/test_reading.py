"""What a person types off the meter."""

import math

import pytest

from halfsplit.errors import InputError
from halfsplit.units import read_reading

OHMS = "Type what the meter shows, as in 0.4, 2.4k or OL."
VOLTS = "Type what the meter shows, as in 118 or 118 V."


@pytest.mark.parametrize(
    ("text", "mode", "value"),
    [
        ("118", "volts", 118.0),
        ("118 V", "volts", 118.0),
        (" 118,4 vac ", "low-z", 118.4),
        ("-118.4", "volts", 118.4),
        ("900 mV", "volts", 0.9),
        ("0.4 ohm", "ohms", 0.4),
        ("2.4k", "ohms", 2400.0),
        ("2,4 kΩ", "ohms", 2400.0),
        ("0", "ohms", 0.0),
        ("100 MΩ", "ohms", 100e6),
        ("5.2 A", "amps", 5.2),
        ("40 mA", "amps", 0.04),
    ],
)
def test_a_reading_is_what_the_meter_shows(text: str, mode: str, value: float) -> None:
    assert read_reading(text, mode) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    "text",
    [
        "OL",
        "ol",
        "O.L",
        "O.L.",
        ".OL",
        "0L",
        "0.L",
        "O L",
        "OL Ω",
        "OL kΩ",
        "OL MΩ",
        "ol ohms",
        "open",
        "inf",
        "∞",
        "Overload",
    ],
)
def test_an_open_circuit_on_ohms_is_infinite(text: str) -> None:
    assert read_reading(text, "ohms") == math.inf


@pytest.mark.parametrize(
    ("text", "mode", "what", "right"),
    [
        ("", "ohms", "Nothing was typed.", OHMS),
        ("OL", "volts", "'OL' is an ohms reading, but this check reads V.", VOLTS),
        ("118 V", "ohms", "'118 V' is in V, but this check reads Ω.", OHMS),
        ("0.4 ohm", "volts", "'0.4 ohm' is in Ω, but this check reads V.", VOLTS),
        ("4800", "volts", "'4800' is beyond what a meter shows here (0 to 1000 V).", VOLTS),
        ("200 MΩ", "ohms", "'200 MΩ' is beyond what a meter shows here (0 to 100 MΩ).", OHMS),
        ("-0.2", "ohms", "'-0.2' is beyond what a meter shows here (0 to 100 MΩ).", OHMS),
        ("1e999", "volts", "'1e999' is too large to be real.", VOLTS),
        ("about 120", "volts", "'about 120' is not a quantity.", VOLTS),
        ("oll", "ohms", "'oll' is not a quantity.", OHMS),
        ("4k7", "ohms", "'4k7' has a letter for its point.", "Write 4.7 kΩ."),
        ("1,234 k", "ohms", "'1,234 k' could be read in two ways.", "Write it with a point, or with no comma."),
    ],
)
def test_what_is_no_reading_gets_a_sentence(text: str, mode: str, what: str, right: str) -> None:
    with pytest.raises(InputError) as caught:
        read_reading(text, mode)
    assert (caught.value.what, caught.value.right) == (what, right)

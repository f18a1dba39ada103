"""The table of meter modes, and readings of those that are not plain numbers."""

import math

import pytest

from halfsplit.errors import InputError
from halfsplit.units import METER_MODES, read_reading, show_reading, write_reading


@pytest.mark.parametrize(
    ("text", "mode", "value"),
    [
        ("-12.1", "dc", -12.1),
        ("\u221212,1 V", "dc", -12.1),
        ("-118", "ac+dc", 118.0),
        ("5.2 kW", "watts", 5200.0),
        ("340", "watts", 340.0),
        ("200", "insulation-500", 200e6),
        ("0.5 Mohm", "insulation-500", 0.5e6),
        ("40 k", "insulation-250", 40e9),
        ("OL", "insulation-250", math.inf),
        ("beeps", "continuity", 1.0),
        ("No beep", "continuity", 0.0),
        ("OL", "continuity", 0.0),
    ],
)
def test_a_reading_is_what_the_meter_shows(text: str, mode: str, value: float) -> None:
    if value > METER_MODES[mode].most and math.isfinite(value):
        with pytest.raises(InputError, match="beyond what a meter shows"):
            read_reading(text, mode)
        return
    assert read_reading(text, mode) == pytest.approx(value, rel=1e-12)


def test_what_is_no_beep_says_what_would_be() -> None:
    with pytest.raises(InputError) as refused:
        read_reading("12", "continuity")
    assert refused.value.what == "'12' does not say whether the meter beeps."
    assert refused.value.right == "Type what the meter shows, as in beeps or silent."


def test_negative_volts_are_bounded_as_positive_ones_are() -> None:
    with pytest.raises(InputError) as refused:
        read_reading("-1001", "dc")
    assert refused.value.what == "'-1001' is beyond what a meter shows here (-1000 to 1000 V)."


@pytest.mark.parametrize("mode", METER_MODES)
def test_what_a_file_holds_reads_back_in_every_mode(mode: str) -> None:
    meter = METER_MODES[mode]
    values = [0.0, 1.0] if meter.is_tone else [0.0, meter.most / 3, *([-1.5] if meter.signed else [])]
    values += [math.inf] if meter.opens else []
    assert [read_reading(write_reading(value, mode), mode) for value in values] == values


def test_sound_insulation_is_shown_as_over_what_counts() -> None:
    assert show_reading(math.inf, "insulation-500") == "over 20 MΩ"
    assert show_reading(math.inf, "ohms") == "OL"


def test_a_tone_is_shown_in_a_word() -> None:
    assert [show_reading(value, "continuity") for value in (0.0, 0.9)] == ["is silent", "beeps"]

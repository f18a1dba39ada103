"""Printing quantities for people."""

import math

import pytest

from halfsplit.units import show, show_reading, show_share, write_reading


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.0, "V", "0 V"),
        (-0.01, "V", "0 V"),
        (118.24, "V", "118 V"),
        (1200.0, "V", "1200 V"),
        (0.4, "Ω", "0.4 Ω"),
        (99.96, "Ω", "100 Ω"),
        (999.6, "Ω", "1 kΩ"),
        (999_600.0, "Ω", "1 MΩ"),
        (2400.0, "Ω", "2.4 kΩ"),
        (5e9, "Ω", "5 GΩ"),
        (22.5, "A", "22.5 A"),
        (-5400.0, "W", "-5.4 kW"),
        (1e-9, "W", "0 W"),
    ],
)
def test_three_figures_with_a_prefix_where_it_helps(value: float, unit: str, text: str) -> None:
    assert show(value, unit) == text


def test_no_path_is_shown_as_the_meter_shows_it() -> None:
    assert show_reading(math.inf, "ohms") == write_reading(math.inf, "ohms") == "OL"


def test_a_file_keeps_every_digit() -> None:
    assert (show_reading(10.66667, "ohms"), write_reading(10.66667, "ohms")) == ("10.7 Ω", "10.66667 Ω")


@pytest.mark.parametrize(
    ("share", "text"),
    [(0.0, "under 1 %"), (0.0099, "under 1 %"), (0.01, "1 %"), (0.425, "42 %"), (0.99, "99 %"), (1.0, "over 99 %")],
)
def test_a_share_is_never_none_or_all(share: float, text: str) -> None:
    assert show_share(share) == text

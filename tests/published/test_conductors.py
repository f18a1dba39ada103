"""Copper conductors as printed, against `read_conductor`.

Source words: **S** seen in the source named (often in a secondary print of it), **M** from memory, **C** computed
apart from this project. Table: NEC (NFPA 70) chapter 9 table 8, direct-current resistance, uncoated copper at 75 °C,
ohm per 1000 ft, solid except where said; edition not recorded.
"""

from __future__ import annotations

import pytest

from halfsplit.units import read_conductor


def _ohm_per_1000_ft(gauge: int) -> float:
    return read_conductor(f"{gauge} AWG 1000 ft")[1]


@pytest.mark.parametrize(
    ("gauge", "printed"),
    [
        (18, 7.77),  # M
        (16, 4.89),  # M
        (14, 3.07),  # S
        (12, 1.93),  # S
        (10, 1.21),  # S
        (8, 0.764),  # S
    ],
)
def test_solid_copper_has_the_resistance_of_the_nec_table(gauge: int, printed: float) -> None:
    assert _ohm_per_1000_ft(gauge) == pytest.approx(printed, rel=0.005)


def test_number_6_is_printed_stranded_and_so_a_little_higher() -> None:
    # S: 0.491, stranded: each strand is longer than the wire. Ours is solid.
    assert 0.975 * 0.491 < _ohm_per_1000_ft(6) < 0.491


@pytest.mark.parametrize(
    ("gauge", "ohm", "digits"),
    [
        (18, 7.765, 0.0005),
        (16, 4.883, 0.0005),
        (14, 3.071, 0.0005),
        (12, 1.932, 0.0005),
        (10, 1.215, 0.0005),
        (8, 0.7640, 0.00005),
        (6, 0.4805, 0.00005),
    ],
)
def test_the_formula_gives_the_digits_it_should(gauge: int, ohm: float, digits: float) -> None:
    # C: 10.371 · 1.21615 · 1000 / circular mils.
    assert _ohm_per_1000_ft(gauge) == pytest.approx(ohm, abs=digits)


def test_thirteen_gauges_change_the_area_by_the_cube_root_of_92_squared() -> None:
    # ASTM B258 (edition not recorded), M: diameter 0.005 in · 92^((36 - n)/39).
    assert _ohm_per_1000_ft(19) / _ohm_per_1000_ft(6) == pytest.approx(92.0 ** (2.0 / 3.0))


def test_the_temperature_factor_is_that_of_copper() -> None:
    # M: 10.371 Ω·cmil/ft at 20 °C, α = 0.00393 there; the table's own α = 0.00323 counts from 75 °C.
    warm_up = 1.0 + 0.00393 * (75.0 - 20.0)
    circular_mils = (5.0 * 92.0 ** ((36 - 14) / 39.0)) ** 2
    assert _ohm_per_1000_ft(14) * circular_mils / 1000.0 / warm_up == pytest.approx(10.371, abs=0.0005)
    to_20 = 1.0 + 0.00323 * (20.0 - 75.0)
    assert _ohm_per_1000_ft(14) * circular_mils / 1000.0 * to_20 == pytest.approx(10.371, rel=0.001)


def test_metres_and_feet_are_the_same_wire() -> None:
    gauge, ohm = read_conductor("14 AWG 304.8 m")
    assert gauge == 14
    assert ohm == pytest.approx(_ohm_per_1000_ft(14))


@pytest.mark.parametrize(("area", "most"), [(1.5, 12.1), (2.5, 7.41), (4, 4.61), (6, 3.08), (10, 1.83)])
def test_a_cross_section_has_less_than_iec_60228_allows_and_not_much(area: float, most: float) -> None:
    # M: IEC 60228, solid copper, the most at 20 °C in ohm per kilometre; it allows for drawing and tinning.
    at_20 = read_conductor(f"{area:g} mm² 1000 m")[1] / (1.0 + 0.00393 * 55.0)
    assert 0.92 * most < at_20 < most

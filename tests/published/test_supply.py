"""Supply voltages and what they do, as printed elsewhere.

Source words: **S** seen in the source named (often in a secondary print of it), **M** from memory, **C** computed apart
from this project.
"""

import math

import pytest

from halfsplit.predict import Predictor, share
from halfsplit.predict.carried import SUPPLY_SPREAD
from halfsplit.trade import NOTHING_WRONG, SERVICE_A, VOLTAGE_LIMITS
from tests.unit.techsheet.kinds.tiny import machine


@pytest.mark.parametrize(("where", "band", "least", "most"), [("service", "A", 114, 126), ("service", "B", 110, 127)])
def test_service_voltage_keeps_to_ansi_c84_1(where: str, band: str, least: float, most: float) -> None:
    # S: ANSI C84.1 (a secondary print), on a base of 120 V; doubled for 240 V.
    (limits,) = [one for one in VOLTAGE_LIMITS if (one.where, one.range) == (where, band)]
    assert (limits.least, limits.most) == (least, most)
    assert limits.allows(least)
    assert limits.allows(2 * most, nominal=240.0)
    assert not limits.allows(least - 0.1)
    assert not limits.allows(2 * most + 0.1, nominal=240.0)


def test_the_least_voltage_where_it_is_used_differs_by_edition() -> None:
    # M: older editions 110 and 106 V, recent ones 108 and 104 V. The most is not recorded.
    found = {(one.edition.split(" (")[0], one.range): one.least for one in VOLTAGE_LIMITS if one.where == "utilisation"}
    assert found == {
        ("before 2016", "A"): 110,
        ("before 2016", "B"): 106,
        ("2016 and later", "A"): 108,
        ("2016 and later", "B"): 104,
    }
    assert all(one.most is None for one in VOLTAGE_LIMITS if one.where == "utilisation")


def test_two_deviations_of_supply_voltage_are_range_a() -> None:
    # Ours: the spread of every predicted reading takes range A as two standard deviations.
    assert pytest.approx((SERVICE_A.most or 0.0) / 120.0 / 2.0 - 0.5) == SUPPLY_SPREAD


def test_a_heater_for_240_v_on_208_v_has_0_75111_of_its_power() -> None:
    # C: (208/240)² = 0.75111. A wye of 120.089 V legs has exactly 208 V between them; a supply without resistance.
    found = machine(
        "wye",
        ("4 kW at 208 V", "4 W at 240 V"),
        ("load on L1: 288 Ω", f"volts: {208 / math.sqrt(3):.6f} V, leg resistance: 1 µΩ"),
    )
    heat = share(Predictor(found, (NOTHING_WRONG,)), found.functions["heat"], found.setups["on"])
    assert heat[0] == pytest.approx(0.75111, abs=5e-5)

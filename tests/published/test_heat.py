"""Heat as printed elsewhere.

Source words: **S** seen in the source named (often in a secondary print of it), **M** from memory, **C** computed with
the library named, apart from this project. Tolerance: half a unit of the last digit given, unless said otherwise.

Incropera: Incropera, DeWitt, Bergman & Lavine, "Fundamentals of Heat and Mass Transfer" (edition not recorded). `ht`:
the Python library of that name, 1.2.0.
"""

from __future__ import annotations

import pytest

from halfsplit.errors import HeatError
from halfsplit.heat import (
    Body,
    Film,
    HeatNetwork,
    Link,
    Lump,
    MeltLink,
    air_at,
    biot,
    horizontal_plate_nusselt,
    plate_coefficient,
    type_k_celsius,
    type_k_millivolts,
    vertical_plate_nusselt,
)
from halfsplit.heat.curve import Stop, warm


def test_an_upright_plate_has_the_nusselt_number_of_churchill_and_chu() -> None:
    # S (docstring of ht.Nu_vertical_plate_Churchill), C.
    assert vertical_plate_nusselt(0.69, 2.63e9) == pytest.approx(147.16185, abs=5e-6)


@pytest.mark.parametrize(("rising", "nusselt"), [(True, 181.73121), (False, 55.44565)])
def test_a_flat_plate_has_the_nusselt_number_of_mcadams(rising: bool, nusselt: float) -> None:
    # S (docstring of ht.Nu_horizontal_plate_McAdams).
    assert horizontal_plate_nusselt(5.54, 3.21e8, rising=rising) == pytest.approx(nusselt, abs=5e-6)


@pytest.mark.parametrize(
    ("prandtl", "grashof", "nusselt"),
    [(0.71, 1e4, 5.050255), (0.71, 1e7, 28.330447), (0.69, 1e11, 464.723975), (5.5, 1e3, 5.495869)],
)
def test_an_upright_plate_is_that_of_another_library_over_the_whole_range(
    prandtl: float, grashof: float, nusselt: float
) -> None:
    # C: ht 1.2.0, Nu_vertical_plate_Churchill.
    assert vertical_plate_nusselt(prandtl, grashof) == pytest.approx(nusselt, abs=5e-7)


@pytest.mark.parametrize(("grashof", "nusselt"), [(1e5, 8.814716), (1e9, 133.816821)])
def test_a_flat_plate_is_that_of_another_library_on_both_sides_of_its_turn(grashof: float, nusselt: float) -> None:
    # C: ht 1.2.0, Nu_horizontal_plate_McAdams with buoyancy, at a Prandtl number of 0.71.
    assert horizontal_plate_nusselt(0.71, grashof, rising=True) == pytest.approx(nusselt, abs=1e-6)


def test_an_oven_door_panel_loses_1060_watts() -> None:
    # S, C: Incropera example 9.2, a panel 0.71 m high and 1.02 m wide at 232 °C in air at 23 °C: Nu 147, h 7.0, 1060 W.
    # The book takes air at 400 K from its table; ours is straight between the rows of the same table.
    coefficient = plate_coefficient(232.0, 23.0, 0.71, "upright")
    assert coefficient == pytest.approx(7.0, abs=0.05)
    assert coefficient * 0.71 / 0.0338 == pytest.approx(147.0, abs=0.5)
    panel = Film("panel", "kitchen", 0.71 * 1.02, 0.71)
    assert panel.watts({"panel": 232.0, "kitchen": 23.0}) == pytest.approx(1060.0, abs=5.0)


def test_a_bead_in_a_gas_stream_is_within_a_degree_after_5_2_seconds() -> None:
    # M, C: Incropera example 5.1, a junction of 0.70588 mm: Bi 0.00235; from 25 to 199 °C in gas at 200 °C in 5.165 s.
    # 400 W/(m² K) outside; 20 W/(m K), 8500 kg/m³ and 400 J/(kg K) inside. A sphere's volume over surface is D/6.
    diameter, outside = 7.0588e-4, 400.0
    assert biot(outside, diameter / 6.0, 20.0) == pytest.approx(0.00235, abs=5e-6)
    surface = 1.0  # both go with it
    lump = Lump(8500.0 * 400.0 * surface * diameter / 6.0, outside * surface, 200.0)
    assert lump.time_to(25.0, 199.0) == pytest.approx(5.165, abs=5e-4)
    bead = Body("bead", 25.0, lump.joule_per_kelvin)
    network = HeatNetwork((bead, Body("gas", 200.0)), (Link("bead", "gas", lump.watt_per_kelvin),))
    assert warm(network, {}, 60.0, (Stop("bead", 199.0),)).seconds[-1] == pytest.approx(5.165, abs=5e-4)


@pytest.mark.parametrize(
    ("kelvin", "viscosity", "conductivity", "prandtl"),
    [
        (250, 11.348, 22.564, 0.7147),
        (300, 15.750, 26.384, 0.7071),
        (400, 26.131, 33.453, 0.6989),
        (500, 38.385, 39.945, 0.6984),
        (600, 52.319, 46.011, 0.7030),
        (800, 84.724, 57.249, 0.7172),
        (1000, 122.648, 67.677, 0.7297),
    ],
)
def test_the_table_of_air_is_that_of_another_source_within_three_percent(
    kelvin: float, viscosity: float, conductivity: float, prandtl: float
) -> None:
    # C: CoolProp 8.0.0, dry air at 101325 Pa. Ours is a textbook's table from memory; the two differ by up to 2.6 %.
    air = air_at(kelvin - 273.15)
    assert air.viscosity == pytest.approx(1e-6 * viscosity, rel=0.015)
    assert air.conductivity == pytest.approx(1e-3 * conductivity, rel=0.022)
    assert air.prandtl == pytest.approx(prandtl, rel=0.027)


@pytest.mark.parametrize(("seconds", "volts"), [(0.5, 5.902), (1.0, 9.482), (2.0, 12.970), (3.0, 14.253)])
def test_one_lump_follows_the_charging_curve_of_a_capacitor(seconds: float, volts: float) -> None:
    # S, C: Kuphaldt, Lessons in Electric Circuits: 10 kΩ, 100 µF, 15 V. The same exponential: volts for kelvin, farad
    # for J/K, siemens for W/K. (The circuit room knows the steady state only and has no transient to compare.)
    assert Lump(100e-6, 1e-4, 15.0).after(0.0, seconds) == pytest.approx(volts, abs=5e-4)


@pytest.mark.parametrize(
    ("celsius", "millivolts"), [(25, 1.0002), (100, 4.0962), (200, 8.1385), (300, 12.2086), (500, 20.6443)]
)
def test_a_type_k_probe_gives_the_millivolts_of_nist(celsius: float, millivolts: float) -> None:
    # C: the NIST ITS-90 polynomial, reference junction at 0 °C (thermocouples_reference 0.20 agrees).
    assert type_k_millivolts(celsius) == pytest.approx(millivolts, abs=5e-5)
    assert type_k_celsius(millivolts) == pytest.approx(celsius, abs=0.002)


def test_a_thermal_link_keeps_what_iec_60691_promises() -> None:
    # S: opens at Tf within +0/-10 K; holds Th for 168 h at rated current; must not close again up to Tm.
    link = MeltLink(opens_at=216.0, holds_at=191.0, most=375.0)
    promised = [link.promises(celsius) for celsius in (191.0, 191.1, 206.1, 215.9, 216.0, 375.0, 375.1)]
    assert promised == ["holds", "may age", "may open", "may open", "opens", "opens", "may close again"]
    assert (link.share_open(206.0), link.share_open(216.0)) == (0.0, 1.0)


@pytest.mark.parametrize(
    ("link", "said"),
    [
        ((184.0, 190.0, None), "It would hold at 190 °C and open at 184 °C. Th is below Tf."),
        ((184.0, None, 150.0), "It would open at 184 °C and end at 150 °C. Tm is above Tf."),
    ],
)
def test_a_link_whose_temperatures_are_out_of_order_is_told(
    link: tuple[float, float | None, float | None], said: str
) -> None:
    with pytest.raises(HeatError) as told:
        MeltLink(*link)
    assert str(told.value) == said

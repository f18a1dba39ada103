"""Bodies and links over time: exact where there is a formula, told where there is none."""

import doctest
import importlib

import numpy as np
import pytest

from halfsplit.errors import HeatError
from halfsplit.heat import (
    Body,
    Film,
    HeatNetwork,
    Link,
    Lump,
    Radiant,
    Stream,
    air_at,
    horizontal_plate_nusselt,
    plate_coefficient,
    type_k_celsius,
    type_k_millivolts,
    vertical_plate_nusselt,
)
from halfsplit.heat.curve import Stop, steady, warm

ROOM = Body("room", 20.0)


def test_the_examples_in_the_docstrings_are_true() -> None:
    for module in ("air", "convection", "lump", "meltlink", "thermocouple"):
        result = doctest.testmod(importlib.import_module(f"halfsplit.heat.{module}"))
        assert result.failed == 0
        assert result.attempted >= 1


def test_one_body_follows_the_exact_exponential() -> None:
    lump = Lump(joule_per_kelvin=500.0, watt_per_kelvin=2.0, around=20.0, watts=300.0)
    curve = warm(HeatNetwork((Body("box", 20.0, 500.0), ROOM), (Link("box", "room", 2.0),)), {"box": 300.0}, 600.0)
    exact = [lump.after(20.0, seconds) for seconds in curve.seconds]
    assert curve.celsius["box"] == pytest.approx(exact, abs=1e-4)
    assert curve.network.bodies[0].celsius == pytest.approx(exact[-1], abs=1e-4)
    assert curve.stopped is None


def test_two_bodies_alone_share_their_heat() -> None:
    network = HeatNetwork((Body("hot", 100.0, 300.0), Body("cold", 20.0, 100.0)), (Link("hot", "cold", 5.0),))
    end = warm(network, {}, 3600.0).celsius
    assert (end["hot"][-1], end["cold"][-1]) == pytest.approx((80.0, 80.0), abs=1e-3)
    stored = 300.0 * end["hot"] + 100.0 * end["cold"]
    assert stored == pytest.approx(np.full_like(stored, 32000.0), rel=1e-7)


def test_it_stops_where_a_thermostat_would_act_and_goes_on_from_there() -> None:
    lump = Lump(500.0, 2.0, 20.0, 300.0)
    network = HeatNetwork((Body("box", 20.0, 500.0), ROOM), (Link("box", "room", 2.0),))
    up, never = Stop("box", 120.0), Stop("box", 500.0)
    rising = warm(network, {"box": 300.0}, 3600.0, (never, up))
    assert rising.stopped == up
    assert rising.seconds[-1] == pytest.approx(lump.time_to(20.0, 120.0), abs=1e-3)
    down = Stop("box", 110.0, rising=False)
    falling = warm(rising.network, {}, 3600.0, (down,))
    assert falling.stopped == down
    assert falling.seconds[-1] == pytest.approx(Lump(500.0, 2.0, 20.0).time_to(120.0, 110.0), abs=1e-3)


def test_a_stream_warms_what_it_passes_and_nothing_upstream() -> None:
    network = HeatNetwork((ROOM, Body("drum", 20.0, 2e4), Body("box", 200.0)), (Stream("box", "drum", 50.0),))
    gains = network.gains({"room": 20.0, "drum": 20.0, "box": 200.0}, {})
    assert gains == {"room": 0.0, "drum": 9000.0, "box": 0.0}


def test_a_black_plate_radiates_by_the_fourth_power() -> None:
    # By hand: 5.670374e-8 · (500.15⁴ - 293.15⁴) = 3129.4 W/m² (227 and 20 °C).
    assert Radiant("plate", "room", 1.0, 1.0).watts({"plate": 227.0, "room": 20.0}) == pytest.approx(3129.4, abs=0.5)


def test_it_comes_to_rest_where_no_body_gains() -> None:
    network = HeatNetwork(
        (Body("box", 20.0, 500.0), Body("shell", 20.0, 900.0), ROOM),
        (
            Link("box", "shell", 1.5),
            Film("shell", "room", 0.7, 0.7),
            Radiant("shell", "room", 0.7, 0.8),
        ),
    )
    rest = steady(network, {"box": 400.0})
    gains = network.gains(rest, {"box": 400.0})
    assert abs(gains["box"]) < 1e-3
    assert abs(gains["shell"]) < 1e-3
    assert gains["room"] == pytest.approx(400.0, abs=1e-3)
    long = warm(network, {"box": 400.0}, 36000.0).celsius
    assert (long["box"][-1], long["shell"][-1]) == pytest.approx((rest["box"], rest["shell"]), abs=0.01)


def test_a_plate_that_faces_down_holds_its_heat_better_than_one_that_faces_up() -> None:
    up, down, upright = (plate_coefficient(90.0, 20.0, 0.15, facing) for facing in ("up", "down", "upright"))
    assert down < upright < up
    assert plate_coefficient(-10.0, 20.0, 0.15, "down") == pytest.approx(plate_coefficient(-10.0, 20.0, 0.15, "down"))
    assert plate_coefficient(-10.0, 20.0, 0.15, "down") > plate_coefficient(-10.0, 20.0, 0.15, "up")


OUT_OF_RANGE = {
    "air": (lambda: air_at(900.0), "Air is not known at 900 °C. The table is from -23 to 727 °C."),
    "upright": (
        lambda: vertical_plate_nusselt(0.7, 1e13),
        "Convection at an upright plate is not known at a Rayleigh number of 7e+12. It is from 0.1 to 1e+12.",
    ),
    "up": (
        lambda: horizontal_plate_nusselt(0.7, 1e4, rising=True),
        "Convection at a hot plate that faces up is not known at a Rayleigh number of 7e+03. "
        "It is from 10000 to 1e+11.",
    ),
    "down": (
        lambda: horizontal_plate_nusselt(0.7, 1e4, rising=False),
        "Convection at a hot plate that faces down is not known at a Rayleigh number of 7e+03. "
        "It is from 100000 to 1e+10.",
    ),
    "probe": (
        lambda: type_k_millivolts(-5.0),
        "A type K probe is not known at -5 °C. It is from 0 to 1372 °C.",
    ),
    "millivolts": (
        lambda: type_k_celsius(60.0),
        "A type K probe does not give 60 mV. Check its polarity and its plug.",
    ),
    "never": (
        lambda: Lump(1.0, 1.0, 20.0).time_to(20.0, 30.0),
        "From 20 °C it never passes 30 °C. It comes to rest at 20 °C.",
    ),
    "beyond the end": (
        lambda: Lump(1.0, 1.0, 20.0, 5.0).time_to(20.0, 30.0),
        "From 20 °C it never passes 30 °C. It comes to rest at 25 °C.",
    ),
    "no body": (
        lambda: HeatNetwork((ROOM,), (Link("room", "rom", 1.0),)),
        "A link joins room and rom. The bodies are room.",
    ),
    "two of a name": (
        lambda: HeatNetwork((ROOM, ROOM), ()),
        "Two bodies have the same name. Give one another name.",
    ),
    "no capacity": (
        lambda: HeatNetwork((Body("box", 20.0, 0.0),), ()),
        "box stores no heat. Give a capacity above zero, or none to hold it.",
    ),
    "heats nothing": (
        lambda: warm(HeatNetwork((Body("box", 20.0, 1.0),), ()), {"bx": 5.0}, 1.0),
        "There is no body called 'bx'. The bodies are box.",
    ),
    "stopped before it began": (
        lambda: warm(HeatNetwork((Body("box", 20.0, 1.0),), ()), {}, 1.0, (Stop("box", 15.0),)),
        "box is past 15 °C at the start. Let it act first.",
    ),
    "no way out": (
        lambda: steady(HeatNetwork((Body("box", 20.0, 1.0), ROOM), ()), {"box": 5.0}),
        "It does not come to rest. Every heated body needs a way to one that is held.",
    ),
}


@pytest.mark.parametrize("case", OUT_OF_RANGE)
def test_what_no_source_covers_is_told_and_not_stretched(case: str) -> None:
    work, said = OUT_OF_RANGE[case]
    with pytest.raises(HeatError) as told:
        work()
    assert str(told.value) == said

"""Rungs are found from the network alone, run from pole to pole, and leave nothing of the sheet out."""

from itertools import pairwise

import pytest

from halfsplit.drawing import leftovers, rungs
from halfsplit.drawing.graph import links_of, metal_points, part_of, supply_points
from halfsplit.drawing.paths import EVERYTHING, narrowed
from tests.unit.drawing.machines import NAMES, machine

every_machine = pytest.mark.parametrize("name", NAMES)


@every_machine
def test_every_load_has_a_rung_of_its_own_or_shares_one_in_series(name: str) -> None:
    on_load_rungs = {link.name for rung in rungs(machine(name)) if rung.kind == "load" for link in rung.links}
    assert {link.name for link in links_of(machine(name)) if link.is_load} <= on_load_rungs


@every_machine
def test_every_wire_and_element_is_on_a_rung_or_among_the_leftovers(name: str) -> None:
    drawn = {link.name for rung in (*rungs(machine(name)), *leftovers(machine(name))) for link in rung.links}
    listed = set(machine(name).wires) | {element.branch for element in machine(name).elements}
    assert listed - drawn == set()


@every_machine
def test_a_rung_runs_between_two_poles_that_differ_over_links_that_meet(name: str) -> None:
    poles = supply_points(machine(name))
    for rung in rungs(machine(name)):
        assert rung.volts == abs(poles[rung.points[0]].volts - poles[rung.points[-1]].volts) > 0
        assert len(set(rung.points)) == len(rung.points)
        assert [link.ends for link in rung.links] == [frozenset(pair) for pair in pairwise(rung.points)]


@every_machine
def test_the_contacts_of_a_rung_can_all_be_closed_at_once(name: str) -> None:
    for rung in rungs(machine(name)):
        known = EVERYTHING
        for link in rung.links:
            known = narrowed(known, link.conducts)
        assert known, rung.name


def test_the_dryer_has_these_rungs() -> None:
    assert [(rung.kind, rung.name, rung.volts) for rung in rungs(machine("dryer"))] == [
        ("load", "drum lamp", 120.0),
        ("load", "timer motor", 120.0),
        ("load", "drive motor", 120.0),
        ("load", "drive motor, start winding", 120.0),
        ("load", "cycling thermostat, bias", 120.0),
        ("load", "heater", 240.0),
        ("bridge", "timer motor by way of timer B-U", 120.0),
        ("bridge", "drive motor by way of motor 5-6", 120.0),
        ("bridge", "heater by way of selector S-D", 240.0),
    ]


def test_the_motor_is_fed_through_start_first_and_the_hold_in_contact_is_a_bridge() -> None:
    by_name = {rung.name: {link.name for link in rung.links} for rung in rungs(machine("dryer"))}
    assert "start:1-2" in by_name["drive motor"]
    assert "motor:hold-contact" in by_name["drive motor by way of motor 5-6"]
    # Standing still it cannot hold itself in, so the start winding's rung must not run through that contact.
    assert "start:1-2" in by_name["drive motor, start winding"]


def test_throws_that_never_close_together_make_two_rungs_and_no_short_circuit() -> None:
    ways = [rung.points for rung in rungs(machine("reversing")) if "pump.1" in rung.points]
    assert len(ways) == 2
    assert [way.index("pump.1") < way.index("pump.2") for way in ways] == [True, False]


def test_loads_in_series_share_a_rung() -> None:
    assert "front lamp and rear lamp" in [rung.name for rung in rungs(machine("reversing"))]


def test_ground_wires_strap_and_metal_are_left_over() -> None:
    strips = leftovers(machine("dryer"))
    assert [(rung.kind, rung.points) for rung in strips] == [
        ("no load", ("house.G", "outlet.G", "plug.G", "chassis.G")),
        ("no load", ("TB.N", "chassis.S")),
        ("no load", ("motor.G", "chassis.M")),
        ("metal", metal_points(machine("dryer"))),
    ]
    assert {part_of(link.thing) for rung in strips for link in rung.links if link.kind == "metal"} == {""}

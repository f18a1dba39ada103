"""Which rung shows two points, when several do."""

from halfsplit.drawing import Standing, describe_rungs
from halfsplit.drawing.strip import choose
from tests.unit.drawing.machines import machine


def chosen(points: tuple[str, str], standing: Standing | None = None) -> list[str]:
    return [rung.name for rung in choose(machine("dryer"), points, standing or Standing())]


def test_the_rung_that_conducts_as_the_machine_stands_is_shown() -> None:
    points = ("TB.L1", "timer.H2")
    assert chosen(points) == ["heater"]
    assert chosen(points, Standing({"temperature": "delicate"})) == ["heater by way of selector S-D"]


def test_a_running_motor_is_shown_through_its_hold_in_contact_and_a_resting_one_through_start() -> None:
    points = ("belt switch.2", "motor.6")
    assert chosen(points) == ["drive motor"]
    assert chosen(points, Standing({"start": "pressed"})) == ["drive motor"]
    assert chosen(points, Standing({"motor:running": "yes"})) == ["drive motor by way of motor 5-6"]


def test_a_point_on_one_branch_only_decides_the_rung() -> None:
    assert chosen(("timer.T", "timer motor.1")) == ["timer motor"]
    assert chosen(("auto thermostat.2", "timer motor.1")) == ["timer motor by way of timer B-U"]


def test_the_ends_of_every_wire_and_element_share_one_rung() -> None:
    for a, b in [(wire.a, wire.b) for wire in machine("dryer").wires.values()]:
        assert len(chosen((a, b))) == 1, (a, b)
    for element in machine("dryer").elements:
        assert len(chosen((element.a, element.b))) == 1, element


def test_points_on_no_common_rung_get_one_each_in_their_order() -> None:
    assert chosen(("lamp.1", "heater.1")) == ["drum lamp", "heater"]
    assert chosen(("chassis.B", "heater.1")) == ["cabinet metal: all one point", "heater"]
    assert len(describe_rungs(machine("dryer"), ("lamp.1", "heater.1"))) == 2


def test_of_cabinet_metal_only_the_probed_screws_are_shown() -> None:
    (rung,) = choose(machine("dryer"), ("chassis.G", "chassis.M"), Standing())
    assert rung.points == ("chassis.G", "chassis.M")
    assert [link.ends for link in rung.links] == [frozenset(rung.points)]

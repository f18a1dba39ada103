"""The drawing in words."""

from halfsplit.drawing import describe_rungs
from tests.unit.drawing.machines import machine


def test_a_rung_is_told_from_pole_to_pole_with_both_probes() -> None:
    assert describe_rungs(machine("dryer"), ("heater.1", "heater.2")) == (
        "heater: L1 house → … 7 parts … → thermal cut-off 1-2 → red wire → high limit 1-2 → yellow/red wire → "
        "[A] heater.1 → heater 1-2 → [B] heater.2 → yellow/black wire → motor 1-2 → red/yellow wire → TB.L2 → "
        "… 3 parts … → L2 house",
    )


def test_points_on_different_rungs_are_told_one_after_the_other() -> None:
    first, second = describe_rungs(machine("dryer"), ("heater.1", "chassis.G"))
    assert first.startswith("heater: ") and "[A] heater.1" in first
    assert second == "cabinet metal: all one point: [B] chassis.G"


def test_probe_letters_follow_the_order_they_were_given_in() -> None:
    (told,) = describe_rungs(machine("dryer"), ("heater.2", "heater.1"))
    assert told.index("[B] heater.1") < told.index("[A] heater.2")


def test_a_terminal_with_nothing_on_it_is_told_too() -> None:
    told = describe_rungs(machine("reversing"), ("house.G", "pump.1"))
    assert told[0] == "nothing is connected here: [A] house.G"

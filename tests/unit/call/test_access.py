"""What is where: zones in order, parts in them, wires to tag."""

import pytest

from halfsplit.call import access_list
from halfsplit.errors import InputError
from halfsplit.techsheet import load_machine

DRYER = load_machine("dryer")


def test_every_part_stands_in_its_zone_in_the_order_of_the_sheet() -> None:
    found = access_list(DRYER)
    assert [one.zone.name for one in found] == list(DRYER.zones)
    assert {part for one in found for part in one.parts} == set(DRYER.parts)


def test_one_part_is_told_with_its_own_wires_only() -> None:
    (one,) = access_list(DRYER, "heater")
    assert (one.zone.name, one.parts) == ("rear panel", ("heater",))
    assert [(point, wire.colour) for point, wire in one.wires] == [
        ("heater.1", "yellow/red"),
        ("heater.2", "yellow/black"),
    ]


def test_an_unknown_part_is_told_with_the_nearest() -> None:
    with pytest.raises(InputError, match="Did you mean 'heater'"):
        access_list(DRYER, "heatr")

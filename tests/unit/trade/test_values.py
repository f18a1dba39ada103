"""The values all rooms speak."""

from dataclasses import FrozenInstanceError

import pytest

from halfsplit.trade import LEVELS, MODES, NOT_ON_SHEET, NOTHING_WRONG, Look, Measure, Setup, Suspect
from halfsplit.units import METER_MODES


def test_a_suspect_is_named_by_its_faults() -> None:
    assert Suspect(("heater:open", "lamp:open")).name == "heater:open + lamp:open"
    assert NOTHING_WRONG.name == "nothing wrong"
    assert NOT_ON_SHEET.name == "not on this sheet"


def test_values_are_frozen_and_can_be_keys() -> None:
    setup = Setup("dead", "unplugged", (("plug", "out"),))
    with pytest.raises(FrozenInstanceError):
        setup.name = "live"  # type: ignore[misc]
    assert len({setup, Setup("dead", "unplugged", (("plug", "out"),))}) == 1
    assert Look("heat", "running") != Measure(("a", "b"), "ohms", "running")


def test_levels_go_up_and_modes_are_those_of_a_meter() -> None:
    assert LEVELS == ("none", "weak", "normal", "too much")
    assert MODES[:4] == ("volts", "low-z", "ohms", "amps")
    assert tuple(METER_MODES) == MODES

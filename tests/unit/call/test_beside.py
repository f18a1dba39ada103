"""Parallel paths and ghosts in words."""

from math import inf

import pytest

from halfsplit.call import Case, advise, engine_for, meter_reading, title_of
from halfsplit.call.beside import drop_says, ways_say
from halfsplit.predict import Lifted, Way
from halfsplit.techsheet import load_machine
from halfsplit.trade import Measure, Reading

DRYER = load_machine("dryer")


def test_a_shared_reading_names_its_ways_and_the_lead_to_lift() -> None:
    ways = (Way(("motor",), 0.6, 4.0, False), Way(("timer motor",), 0.4, 6.0, True))
    assert ways_say(DRYER, ways, (Lifted("belt switch.2-motor.5", inf),), 2.4) == (
        "The measuring current goes 60 % through drive motor; 40 % through timer motor itself.",
        "With the lead belt switch.2-motor.5 lifted, 2.4 Ω becomes OL.",
    )


def test_a_part_alone_and_a_string_of_closed_contacts_need_no_words() -> None:
    assert ways_say(DRYER, (Way(("heater",), 1.0, 10.7, True),), (), 10.7) == ()
    assert ways_say(DRYER, (Way(("timer", "door"), 1.0, 0.04, False),), (Lifted("TB.L1-door.COM", inf),), 0.04) == ()


def test_a_reading_against_a_suspect_says_what_stands_beside_the_part() -> None:
    item = Reading(("timer motor.1", "timer motor.2"), "ohms", "dead start pressed", inf)
    told = [view.reasons[0].predicted for view in advise(DRYER, Case(evidence=(item,))).suspects]
    assert "1.63 Ω, through drive motor" in told


def test_a_ghost_is_called_one_in_the_reasons() -> None:
    item = Reading(("chassis.G", "TB.N"), "volts", "running", 119.0)
    advice = advise(DRYER, Case(evidence=(item,)), most=200)
    found = {view.suspect.name: view.reasons[0].predicted for view in advice.suspects}
    assert found["plug.G-chassis.G:open"].endswith("V, a ghost")


def test_the_drop_along_a_loaded_wire_says_what_a_bad_joint_would_make_of_it() -> None:
    action = Measure(("heater.2", "motor.1"), "volts", "running")
    assert title_of(DRYER, action) == "Read volts from heater.2 to motor.1, the drop along this wire"
    (sentence,) = drop_says(engine_for(DRYER, Case()), action)
    assert sentence == (
        "Sound, it carries 22 A: a joint of 0.2 Ω would drop 4.39 V, and hide in the leads of an ohmmeter."
    )
    for other in (Measure(("heater.1", "heater.2"), "volts", "running"), Measure(action.points, "volts", "resting")):
        assert drop_says(engine_for(DRYER, Case()), other) == ()


@pytest.mark.parametrize("mode", ["low-z", "amps"])
def test_other_modes_have_no_ways(mode: str) -> None:
    found = meter_reading(DRYER, "running", ("heater.2", "motor.1"), mode, ())  # type: ignore[arg-type]
    assert (found.ways, found.lifts, found.ways_say) == ((), (), ())

"""A case: added to, taken back from, and the machine as it stands on it."""

import pytest

from halfsplit.call import Case, accept, advise, hardest_to_reach, machine_for, told
from halfsplit.call.engine import engine_for
from halfsplit.errors import InputError
from halfsplit.techsheet import load_machine
from halfsplit.trade import Look, Measure, Reading, Seen, Setup

DRYER = load_machine("dryer")
THREE_WIRE = (("cord", "3-wire"),)


def test_a_case_is_only_ever_added_to() -> None:
    first = Case()
    second = first.plus(*told(DRYER, "no heat"))
    assert first.evidence == ()
    assert second.without(0).evidence == second.evidence[1:]
    assert second.skip(Look("heat", "running")).skipped == {Look("heat", "running")}
    assert second.cannot_reach("motor.4", "motor.5").unreachable == {"motor.4", "motor.5"}


def test_a_complaint_is_told_by_the_customer_in_each_functions_own_setup() -> None:
    assert told(DRYER, "no heat") == (
        Seen("drum turns", "normal", "customer", "running"),
        Seen("heat", "none", "customer", "running"),
    )


def test_what_is_fixed_on_a_call_is_done_first_in_every_setup() -> None:
    own = {"mine": Setup("mine", "mine", (("plug", "in"),))}
    item = Reading(("heater.1", "heater.2"), "ohms", "plug out, timer timed dry", 10.0)
    machine = machine_for(DRYER, Case(THREE_WIRE, own).plus(item))
    assert {"mine", "plug out, timer timed dry", *DRYER.setups} == set(machine.setups)
    assert all(setup.steps[0] == ("cord", "3-wire") for setup in machine.setups.values())
    assert machine.setups["mine"].steps == (("cord", "3-wire"), ("plug", "in"))


def test_steps_written_out_after_a_named_setup_do_not_fix_the_cord_twice() -> None:
    item = Reading(("heater.1", "heater.2"), "ohms", "as dead, lift heater.2-motor.1", 10.0)
    machine = machine_for(machine_for(DRYER, Case(THREE_WIRE)), Case(THREE_WIRE).plus(item))
    assert machine.setups[item.setup].steps.count(("cord", "3-wire")) == 1


def test_a_wire_that_the_cord_leaves_out_is_no_suspect() -> None:
    strap, earth = "TB.N-chassis.S:open", "plug.G-chassis.G:open"
    four, three = machine_for(DRYER, Case()), machine_for(DRYER, Case(THREE_WIRE))
    assert strap not in four.faults and earth in four.faults
    assert strap in three.faults and earth not in three.faults


def test_on_a_three_wire_cord_a_lost_strap_can_be_found() -> None:
    open_strap = Reading(("TB.N", "chassis.S"), "ohms", "dead", float("inf"))
    advice = advise(DRYER, Case(THREE_WIRE).plus(open_strap))
    assert advice.suspects[0].things == ("TB.N-chassis.S",)


def test_one_engine_serves_every_case_of_a_sheet() -> None:
    plain = engine_for(DRYER, Case())
    own = {"mine": Setup("mine", "mine", (("plug", "in"),))}
    assert engine_for(DRYER, Case(setups=own).plus(*told(DRYER, "dead"))) is plain
    assert engine_for(DRYER, Case(THREE_WIRE)) is not plain
    assert engine_for(DRYER, Case()) is plain


def test_two_cases_may_mean_different_things_by_one_name() -> None:
    reading = Reading(("TB.L1", "TB.N"), "volts", "mine", 120.0)
    on = Case(setups={"mine": Setup("mine", "plugged in", (("plug", "in"),))}).plus(reading)
    off = Case(setups={"mine": Setup("mine", "unplugged", (("plug", "out"),))}).plus(reading)
    engine = engine_for(DRYER, on)
    assert engine.weigh(on).consistent()[0]
    assert not engine.weigh(off).consistent()[0]
    assert engine.weigh(on).consistent()[0]


def test_an_item_that_cannot_be_is_refused_before_it_is_written_down() -> None:
    accept(DRYER, Case(), Reading(("heater.1", "heater.2"), "ohms", "dead", 10.7))
    with pytest.raises(InputError, match="is live"):
        accept(DRYER, Case(), Reading(("heater.1", "heater.2"), "ohms", "running", 10.7))


def test_cannot_reach_means_the_point_behind_more_cover() -> None:
    assert hardest_to_reach(DRYER, Measure(("TB.L1", "motor.1"), "ohms", "dead")) == "motor.1"
    assert hardest_to_reach(DRYER, Measure(("heater.1", "TB.L1"), "ohms", "dead")) == "heater.1"

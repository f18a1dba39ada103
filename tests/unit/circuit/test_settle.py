"""Settling by the user's steps: what holds in, latches, chatters, and what moves first."""

from __future__ import annotations

import pytest

from halfsplit.circuit import (
    NO,
    YES,
    Branch,
    Drive,
    Layout,
    Network,
    Patch,
    Threshold,
    at_rest,
    columns,
    take_step,
    when,
)
from halfsplit.errors import CircuitError
from tests.unit.circuit.small import COIL_OHM, LINE, NEUTRAL, network, relay, settle, stands

PRESS, RELEASE = ("start", "pressed"), ("start", "released")
STOP, LET_GO = ("stop", "pressed"), ("stop", "released")


def _hold_in_relay() -> Network:
    """Stop button, then start button and the relay's own contact side by side, then the coil."""
    return network(
        (
            Branch("stop", LINE, "after stop", 0.01, condition=when("stop", "released")),
            Branch("start", "after stop", "coil top", 0.01, condition=when("start", "pressed")),
            Branch("hold", "after stop", "coil top", 0.01, condition=when("relay", YES)),
            Branch("coil", "coil top", NEUTRAL, COIL_OHM),
        ),
        (relay("relay", "coil"),),
        {"start": ("released", "pressed"), "stop": ("released", "pressed")},
    )


def _buzzer() -> Network:
    """A relay whose own resting contact feeds its coil, and a lamp on the same switch."""
    return network(
        (
            Branch("switch", LINE, "fed", 0.01, condition=when("switch", "on")),
            Branch("resting contact", "fed", "coil top", 0.01, condition=when("bell", NO)),
            Branch("coil", "coil top", NEUTRAL, COIL_OHM),
        ),
        (relay("bell", "coil"),),
        {"switch": ("off", "on")},
    )


def _ring() -> Network:
    """Relay A pulls in relay B, whose resting contact feeds A: they go round in four moves. A flag falls before."""
    return network(
        (
            Branch("switch", LINE, "fed", 0.01, condition=when("switch", "on")),
            Branch("B resting", "fed", "A top", 0.01, condition=when("B", NO)),
            Branch("A coil", "A top", NEUTRAL, COIL_OHM),
            Branch("A working", "fed", "B top", 0.01, condition=when("A", YES)),
            Branch("B coil", "B top", NEUTRAL, COIL_OHM),
        ),
        (
            Drive("flag", ((Threshold("A coil", "volts", 80.0),),), None, 0.001),
            relay("A", "A coil"),
            relay("B", "B coil"),
        ),
        {"switch": ("off", "on")},
    )


def _short(breaker_s: float, overload_s: float) -> Network:
    """A short that both a breaker and an overload in series see at once; each latches."""
    return network(
        (
            Branch("breaker", LINE, "after breaker", 0.01, condition=when("breaker tripped", NO)),
            Branch("overload", "after breaker", "load top", 0.01, condition=when("overload tripped", NO)),
            Branch("load", "load top", NEUTRAL, 100.0),
            Branch("short", "load top", NEUTRAL, 0.1, condition=when("short", "there")),
        ),
        (
            Drive("breaker tripped", ((Threshold("breaker", "amps", 150.0),),), None, breaker_s),
            Drive("overload tripped", ((Threshold("overload", "amps", 15.0),),), None, overload_s),
        ),
        {"short": ("absent", "there")},
    )


def test_everything_starts_at_its_first_position_and_drives_at_no() -> None:
    assert stands(settle(_hold_in_relay())) == {"start": "released", "stop": "released", "relay": NO}


@pytest.mark.parametrize(
    ("steps", "relay_at"),
    [
        ((PRESS,), YES),
        ((PRESS, RELEASE), YES),
        ((PRESS, RELEASE, STOP), NO),
        ((PRESS, RELEASE, STOP, LET_GO), NO),
        ((STOP, PRESS), NO),
    ],
)
def test_a_relay_with_its_own_contact_holds_in_until_stopped(steps: tuple[tuple[str, str], ...], relay_at: str) -> None:
    settled = settle(_hold_in_relay(), steps)
    assert stands(settled)["relay"] == relay_at
    assert settled.chatters == {}


def test_a_relay_does_not_hold_in_when_its_contact_is_open() -> None:
    settled = settle(_hold_in_relay(), (PRESS, RELEASE), (), (Patch("open", "hold"),))
    assert [stands(settled, column)["relay"] for column in (0, 1)] == [YES, NO]


def test_a_buzzer_is_reported_by_name_and_does_not_hang() -> None:
    assert settle(_buzzer(), (("switch", "on"),)).chatters == {0: ("bell",)}


def test_a_buzzer_at_rest_chatters_not() -> None:
    assert settle(_buzzer()).chatters == {}


def test_only_the_column_that_chatters_is_named_and_the_others_settle() -> None:
    welded, cut = (Patch("closed", "resting contact"),), (Patch("open", "switch"),)
    settled = settle(_buzzer(), (("switch", "on"),), welded, (), cut)
    assert settled.chatters == {1: ("bell",)}
    assert [stands(settled, column)["bell"] for column in (0, 2)] == [YES, NO]


def test_what_has_chattered_is_still_said_after_a_later_step() -> None:
    settled = settle(_buzzer(), (("switch", "on"), ("switch", "off")))
    assert settled.chatters == {0: ("bell",)}
    assert stands(settled) == {"switch": "off", "bell": NO}


def test_things_that_chatter_in_different_steps_are_all_named() -> None:
    bells = [
        branch
        for number in ("1", "2")
        for branch in (
            Branch(f"switch {number}", LINE, f"fed {number}", 0.01, condition=when("switch", number)),
            Branch(f"resting {number}", f"fed {number}", f"top {number}", 0.01, condition=when(f"bell {number}", NO)),
            Branch(f"coil {number}", f"top {number}", NEUTRAL, COIL_OHM),
        )
    ]
    drives = (relay("bell 1", "coil 1"), relay("bell 2", "coil 2"))
    settled = settle(network(bells, drives, {"switch": ("off", "1", "2")}), (("switch", "1"), ("switch", "2")))
    assert settled.chatters == {0: ("bell 1", "bell 2")}


def test_every_relay_of_a_ring_is_named_and_what_latched_before_is_not() -> None:
    settled = settle(_ring(), (("switch", "on"),))
    assert settled.chatters == {0: ("A", "B")}
    assert stands(settled)["flag"] == YES


def test_the_solution_is_that_of_the_state_in_which_a_chattering_column_stops() -> None:
    settled = settle(_buzzer(), (("switch", "on"),))
    volts = abs(settled.solution.across("coil")[0])
    assert volts == pytest.approx(120.0 if stands(settled)["bell"] == NO else 0.0, abs=0.01)


def test_a_tripped_breaker_stays_tripped_when_the_short_is_gone() -> None:
    settled = settle(_short(0.02, 8.0), (("short", "there"), ("short", "absent")))
    assert stands(settled) == {"short": "absent", "breaker tripped": YES, "overload tripped": NO}
    assert abs(settled.solution.across("load")[0]) < 0.1


@pytest.mark.parametrize(
    ("breaker_s", "overload_s", "tripped"),
    [(0.02, 8.0, (YES, NO)), (8.0, 0.02, (NO, YES)), (0.02, 0.02, (YES, YES))],
)
def test_the_quicker_of_two_trips_first_and_spares_the_other(
    breaker_s: float, overload_s: float, tripped: tuple[str, str]
) -> None:
    settled = settle(_short(breaker_s, overload_s), (("short", "there"),))
    assert (stands(settled)["breaker tripped"], stands(settled)["overload tripped"]) == tripped


def test_the_slow_one_trips_when_the_quick_one_cannot() -> None:
    pinned = (Patch("pin", "breaker tripped", position=NO),)
    settled = settle(_short(0.02, 8.0), (("short", "there"),), pinned)
    assert stands(settled) == {"short": "there", "breaker tripped": NO, "overload tripped": YES}


def test_a_drive_pinned_at_yes_is_there_from_the_start_and_never_leaves() -> None:
    settled = settle(_hold_in_relay(), (STOP,), (Patch("pin", "relay", position=YES),))
    assert stands(settled) == {"start": "released", "stop": "pressed", "relay": YES}


def test_a_pinned_setting_does_not_follow_the_step() -> None:
    settled = settle(_hold_in_relay(), (PRESS,), (Patch("pin", "start", position="released"),), ())
    assert [stands(settled, column)["start"] for column in (0, 1)] == ["released", "pressed"]
    assert [stands(settled, column)["relay"] for column in (0, 1)] == [NO, YES]


def test_a_drive_needs_its_condition_to_go_on_but_not_to_stay_on() -> None:
    branches = (Branch("feed", LINE, "top", 0.01), Branch("motor", "top", NEUTRAL, 10.0))
    at_72, at_60 = (Threshold("motor", "volts", volts) for volts in (72.0, 60.0))
    running = Drive("running", ((at_72,),), (at_60,), 0.4, when("drum", "free"))
    made_of = network(branches, (running,), {"drum": ("seized", "free")})
    assert stands(settle(made_of))["running"] == NO
    assert stands(settle(made_of, (("drum", "free"),)))["running"] == YES
    assert stands(settle(made_of, (("drum", "free"), ("drum", "seized"))))["running"] == YES


def test_a_drive_that_needs_two_things_waits_for_both_and_takes_either_of_two_ways() -> None:
    branches = (
        Branch("first", LINE, "one", 0.01, condition=when("first", "on")),
        Branch("first load", "one", NEUTRAL, 10.0),
        Branch("second", LINE, "two", 0.01, condition=when("second", "on")),
        Branch("second load", "two", NEUTRAL, 10.0),
    )
    one, two = Threshold("first load", "volts", 60.0), Threshold("second load", "amps", 6.0)
    made_of = network(
        branches,
        (Drive("both", ((one, two),), (one, two), 0.1), Drive("either", ((one,), (two,)), None, 0.1)),
        {"first": ("off", "on"), "second": ("off", "on")},
    )
    shown = {
        steps: tuple(stands(settle(made_of, steps))[name] for name in ("both", "either"))
        for steps in ((), (("first", "on"),), (("second", "on"),), (("first", "on"), ("second", "on")))
    }
    assert list(shown.values()) == [(NO, NO), (NO, YES), (NO, YES), (YES, YES)]


def test_taking_a_step_leaves_what_was_settled_before_as_it_was() -> None:
    before = at_rest(columns(Layout(_buzzer()), [()]))
    after = take_step(before, ("switch", "on"))
    assert (stands(before), before.chatters) == ({"switch": "off", "bell": NO}, {})
    assert (stands(after)["switch"], after.chatters) == ("on", {0: ("bell",)})


@pytest.mark.parametrize("step", [("lid", "shut"), ("start", "turned"), ("relay", YES)])
def test_a_step_that_the_network_does_not_know_is_named(step: tuple[str, str]) -> None:
    with pytest.raises(CircuitError) as caught:
        settle(_hold_in_relay(), (step,))
    assert str(caught.value) == f"There is no setting {step[0]!r} with a position {step[1]!r}."

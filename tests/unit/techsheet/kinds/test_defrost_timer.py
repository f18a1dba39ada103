"""The defrost timer in both wirings: it goes over by its motor, or by hand, and stops where its motor stops."""

import pytest

from tests.unit.techsheet.kinds.tiny import machine, position, settled, symptoms, told

#                     cool    warm    defrost rest    resume  advance hand    back    counts
SYMPTOMS = {
    "sound": "normal, none, normal, none, normal, normal, normal, normal, normal",
    "timer:3-4-open": "none, none, normal, none, none, normal, normal, none, normal",
    "timer:3-4-welded": "normal, none, normal, normal, normal, normal, normal, normal, normal",
    "timer:3-2-open": "normal, none, none, none, normal, normal, none, normal, normal",
    "timer:3-2-welded": "normal, normal, normal, none, normal, normal, normal, normal, normal",
    "timer:stopped-in-defrost": "none, normal, normal, none, none, none, normal, normal, none",
    # A motor that does not turn never defrosts, and cools on.
    "timer:motor-open": "normal, none, none, normal, normal, none, normal, normal, none",
    "timer:gears": "normal, none, none, normal, normal, none, normal, normal, none",
}
CONTROL_FIRST = (
    ("  - black plug.L timer.3\n", "  - black plug.L cold control.1\n  - black cold control.2 timer.3\n"),
    ("  - orange timer.4 cold control.1\n", "  - orange timer.4 compressor.1\n"),
    ("  - red cold control.2 compressor.1\n", ""),
)
"""The same refrigerator with its cold control before the timer: the timer counts only the hours of the compressor."""


def test_every_fault_shows_as_written_down_where_the_timer_counts_all_hours() -> None:
    assert symptoms(machine("defrosttimer"), "timer") == SYMPTOMS


def test_behind_the_cold_control_it_counts_only_while_it_cools_and_else_shows_the_same() -> None:
    never = {fault: f"{seen.rpartition(', ')[0]}, none" for fault, seen in SYMPTOMS.items()}
    assert symptoms(machine("defrosttimer", *CONTROL_FIRST), "timer") == never


def test_a_feed_that_is_lost_stops_the_timer_where_it_stands() -> None:
    found = machine("defrosttimer")
    at = settled(found, "due", "timer.1-plug.N:open")
    assert (position(at, "timer:turns"), position(at, "timer:went-over")) == ("no", "no")


def test_a_motor_fed_behind_the_compressor_contact_has_nothing_to_bring_it_back_from_defrost() -> None:
    # Between 1 and 4 it has current only while 3-4 is closed.
    found = machine(
        "defrosttimer",
        ("    motor power: 3 W at 120 V\n", "    motor power: 3 W at 120 V\n    motor terminals: [1, 4]\n"),
    )
    assert position(settled(found, "due"), "timer:turns") == "no"
    assert position(settled(found, "over"), "timer:came-back") == "no"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            (("    by hand to cooling: knob turned to cooling\n", ""),),
            "'timer' can be turned by hand only one way. Give `by hand to defrost` and `by hand to cooling`.",
        ),
        (
            (("    motor power: 3 W", "    motor terminals: [1, 5]\n    motor power: 3 W"),),
            "The motor of 'timer' is not between two of its terminals. "
            "Write two of its terminals 1 to 4, as in [1, 3].",
        ),
        (
            (("    due: hours defrost due", "    due: hours defrost do"),),
            "'hours' has no position 'defrost do'. Did you mean 'defrost due'?",
        ),
        (
            (("    over: hours defrost over\n", ""),),
            "'timer' has no 'over'. Add it. State in which its minutes of "
            "defrost are over, as in `hours defrost over`.",
        ),
    ],
)
def test_what_makes_no_sense_is_told(changes: tuple[tuple[str, str], ...], said: str) -> None:
    assert told("defrosttimer", *changes)[0] == said


def test_one_that_cannot_be_turned_by_hand_needs_no_knob() -> None:
    found = machine(
        "defrosttimer",
        ("    by hand to defrost: knob turned to defrost\n", ""),
        ("    by hand to cooling: knob turned to cooling\n", ""),
    )
    assert symptoms(found, "timer")["sound"] == "normal, none, normal, none, normal, normal, none, none, normal"

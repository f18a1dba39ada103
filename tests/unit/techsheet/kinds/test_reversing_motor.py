"""A motor of two speeds turned round by its start winding: which way it goes is told by its currents."""

import pytest

from tests.unit.techsheet.kinds.tiny import amps, machine, position, settled, symptoms, told

#                     agitate gentle  spin  backwards turn    hum     breaker
SYMPTOMS = {
    "sound": "normal, normal, normal, none, normal, none, normal",
    "motor:fast-open": "none, normal, none, none, none, none, normal",
    "motor:slow-open": "normal, none, normal, none, normal, none, normal",
    "motor:start-open": "none, none, none, none, none, normal, normal",
    "motor:overload-open": "none, none, none, none, none, none, normal",
    "motor:start-switch-open": "none, none, none, none, none, normal, normal",
    # It turns for some seconds, until the overload opens.
    "motor:start-switch-welded": "none, none, none, none, none, none, normal",
    "motor:seized": "none, none, none, none, none, normal, normal",
    "motor:grounded": "none, normal, none, none, none, none, none",
    # A start winding with one end off, either way round.
    "timer:V-S1-open": "none, none, normal, none, normal, normal, normal",
    "timer:S2-P-open": "none, none, normal, none, normal, normal, normal",
    "timer:V-S2-open": "normal, normal, none, none, none, none, normal",
    "timer:S1-P-open": "normal, normal, none, none, none, none, normal",
    "timer:V-H-open": "none, normal, none, none, none, none, normal",
    "timer:V-L-open": "normal, none, normal, none, normal, none, normal",
    # Fed without its start winding as soon as the plug is in, it hums until its overload opens.
    "timer:V-H-welded": "none, none, none, none, none, normal, normal",
    "timer:V-L-welded": "none, none, none, none, none, normal, normal",
    # One end fed and joined to neutral at once is a short circuit.
    "timer:V-S1-welded": "normal, normal, none, none, none, none, normal",
    "timer:S1-P-welded": "none, none, normal, none, normal, none, none",
    "timer:V-S2-welded": "none, none, normal, none, normal, none, none",
    "timer:S2-P-welded": "normal, normal, none, none, none, none, normal",
    "drum:jammed": "none, none, none, none, none, normal, normal",
}
CROSSED = (
    ("  - yellow timer.S1 motor.S1\n", "  - yellow timer.S1 motor.S2\n"),
    ("  - red timer.S2 motor.S2\n", "  - red timer.S2 motor.S1\n"),
)
"""The two leads of the start winding swapped."""


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("reversing"), "motor", "timer", "drum") == SYMPTOMS


def test_with_the_start_leads_swapped_it_turns_the_other_way_round() -> None:
    assert symptoms(machine("reversing", *CROSSED), "drum")["sound"] == (
        "none, none, none, normal, normal, none, normal"
    )


@pytest.mark.parametrize("setup", ["wash", "gentle", "spin"])
def test_running_it_takes_its_running_current_at_either_speed_and_either_way_round(setup: str) -> None:
    assert amps(settled(machine("reversing"), setup), "motor.C-plug.N") == pytest.approx(6.0, abs=0.2)


def test_low_volts_still_turn_it_the_right_way_round() -> None:
    at = settled(machine("reversing"), "spin", "house:low-voltage")
    assert (position(at, "motor:turns-reverse"), position(at, "motor:turns-forward")) == ("yes", "no")


def test_a_start_winding_that_leaves_nothing_for_the_others_is_told() -> None:
    said = (
        "The start winding of 'motor' (5 Ω takes 21.6 A by itself) leaves too little for the others. "
        "The locked current is the whole line current: well above that and the running current together."
    )
    assert told("reversing", ("locked current: 45 A", "locked current: 25 A")) == [said]

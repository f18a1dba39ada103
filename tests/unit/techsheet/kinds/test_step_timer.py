"""The timer by its step chart, its motor, and the water valve."""

import pytest

from halfsplit.circuit import read_ohms
from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told

#                     fill    wash    drain   advance leak    cold    dark    stop
SYMPTOMS = {
    "sound": "normal, normal, normal, normal, none, none, none, none",
    "timer:1-2-open": "none, normal, normal, normal, none, none, none, none",
    "timer:1-2-welded": "normal, normal, normal, normal, normal, none, none, none",
    "timer:5-6-open": "normal, normal, normal, none, none, none, none, none",
    "timer:5-6-welded": "normal, normal, normal, normal, none, none, none, normal",
    "timer:1-3-open": "normal, none, normal, normal, none, none, none, none",
    "timer:1-3-welded": "normal, normal, normal, normal, none, normal, none, none",
    "timer:1-4-open": "normal, normal, none, normal, none, none, none, none",
    "timer:1-4-welded": "normal, normal, normal, normal, none, none, normal, none",
    "timer:motor-open": "normal, normal, normal, none, none, none, none, none",
    "timer:gears": "normal, normal, normal, none, none, none, none, none",
    "valve:coil-open": "none, normal, normal, normal, none, none, none, none",
    "valve:stuck-shut": "none, normal, normal, normal, none, none, none, none",
    # Water runs in whatever the timer says: the plunger does not shut.
    "valve:stuck-open": "normal, normal, normal, normal, normal, none, none, none",
    "tap:shut": "none, normal, normal, normal, none, none, none, none",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("steptimer"), "timer", "valve", "tap") == SYMPTOMS


def test_the_chart_says_which_contacts_are_closed_whichever_way_round_they_are_written() -> None:
    found = machine("steptimer")
    named = ("1-2", "1-3", "1-4", "5-6")
    rows = [[branch.name for branch in found.network.branches].index(f"timer:{contact}") for contact in named]
    closed = {
        step: [
            contact
            for contact, row in zip(named, rows, strict=True)
            if settled(found, step).solution.admittance[row, 0]
        ]
        for step in ("off", "fill", "wash", "drain")
    }
    assert closed == {"off": [], "fill": ["1-2", "5-6"], "wash": ["1-3", "5-6"], "drain": ["1-4", "5-6"]}


def test_the_valve_takes_its_current_from_the_mains_and_its_ohms_from_a_meter() -> None:
    found = machine("steptimer")
    assert amps(settled(found, "fill"), "valve:coil") == pytest.approx(0.07, rel=0.005)
    assert read_ohms(settled(found, "dead"), (("valve.1", "valve.2"),))[0, 0] == pytest.approx(800, rel=0.001)


def test_a_timer_without_a_motor_is_only_its_contacts() -> None:
    found = machine(
        "steptimer",
        ("    motor terminals: [TM1, TM2]\n", ""),
        ("    motor power: 3 W at 120 V\n", ""),
        ("    motor current: 0.04 A\n", ""),
        ("    motor winding: 2.4 kΩ\n", ""),
        ("  - yellow timer.6 timer.TM1\n", ""),
        ("  - white timer.TM2 plug.N\n", ""),
        ('  advance: {ask: "Does the timer advance?", setup: wash, shows: advance of timer}\n', ""),
        ('  stop: {ask: "Does the timer advance at off?", setup: "off", shows: advance of timer}\n', ""),
    )
    assert found.parts["timer"].terminals == ("1", "2", "5", "6", "3", "4")
    assert "timer:motor-open" not in found.faults


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("      fill: [1-2, 5-6]", "      fil: [1-2, 5-6]"),
            ["'timer' has no position 'fil'. Did you mean 'fill'?"],
        ),
        (
            ("      fill: [1-2, 5-6]", "      fill: 1-2"),
            [
                "The step 'fill' must be a list of contacts. "
                "Write it as in [1-2, 3-4]; a step that closes no contact is left out."
            ],
        ),
        (
            ("      fill: [1-2, 5-6]", "      fill: [1, 5-6]"),
            [
                "'1' is not a contact. "
                "Write two terminals with a dash, as in `COM-NO`, or ` - ` where their names have dashes."
            ],
        ),
        (
            ("      fill: [1-2, 5-6]", "      fill: [1-2, 2-1]"),
            ["The contact '2-1' stands twice in one step. Write it once."],
        ),
        (
            ("    motor winding: 2.4 kΩ\n", ""),
            ["'timer' tells of a motor without its motor winding. Add `motor winding`."],
        ),
        (
            ("motor terminals: [TM1, TM2]", "motor terminals: [TM1]"),
            ["The motor of 'timer' has not two terminals. Write both, as in [TM1, TM2]."],
        ),
        (
            ("motor winding: 2.4 kΩ", "motor winding: 24 kΩ"),
            [
                "A winding of 24 kΩ cannot pass that much current: the whole is only 3 kΩ. "
                "Check the winding's ohms and its current."
            ],
        ),
        (
            ("coil: 800 Ω, current: 70 mA", "coil: 800 Ω, current: 700 mA"),
            [
                "A winding of 800 Ω cannot pass that much current: the whole is only 171 Ω. "
                "Check the winding's ohms and its current."
            ],
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: list[str]) -> None:
    assert told("steptimer", change)[: len(said)] == said

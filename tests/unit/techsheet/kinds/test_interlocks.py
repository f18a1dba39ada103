"""An interlock chain with a monitor switch needs no kind of its own: a welded interlock blows the fuse, for good."""

import pytest

from tests.unit.techsheet.kinds.tiny import machine, position, settled, symptoms, told

#                         heat    open    again   later   fuse    breaker
SYMPTOMS = {
    "sound": "normal, none, normal, normal, normal, normal",
    "fuse:blown": "none, none, none, none, none, normal",
    "primary:COM-NO-open": "none, none, none, none, normal, normal",
    # It heats until the door is opened; then the monitor shorts the line through the fuse, which stays blown.
    "primary:COM-NO-welded": "normal, none, none, none, none, normal",
    "secondary:COM-NO-open": "none, none, none, none, normal, normal",
    # Not seen by anybody: the other interlock still opens. Only ohms with the door open tell.
    "secondary:COM-NO-welded": "normal, none, normal, normal, normal, normal",
    "monitor:COM-NC-open": "normal, none, normal, normal, normal, normal",
    "monitor:COM-NC-welded": "none, none, none, none, none, normal",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("interlocks"), "fuse", "primary", "secondary", "monitor") == SYMPTOMS


@pytest.mark.parametrize("setup", ["opened", "again", "next day"])
def test_the_fuse_stays_blown_whatever_is_done_afterwards(setup: str) -> None:
    assert position(settled(machine("interlocks"), setup, "primary:COM-NO-welded"), "fuse:blown") == "yes"


def test_with_both_interlocks_welded_only_the_monitor_stops_it_with_the_door_open() -> None:
    found = machine("interlocks")
    welded = ("primary:COM-NO-welded", "secondary:COM-NO-welded")
    with_monitor = settled(found, "opened", *welded)
    without = settled(found, "opened", *welded, "monitor:COM-NC-open")
    assert (position(with_monitor, "fuse:blown"), position(without, "fuse:blown")) == ("yes", "no")
    assert abs(without.solution.through("heater:upper")[0]) == pytest.approx(9.8, abs=0.2)


def test_a_monitor_on_a_door_that_is_not_there_is_told() -> None:
    assert told("interlocks", ("{COM-NC: door open}", "{COM-NC: dor open}")) == [
        "'dor open' begins with no setting or mechanical part of this sheet. Did you mean 'door'?"
    ]

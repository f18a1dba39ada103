"""Level, float, flow and reed switches need no kind of their own: a `switch` moved by a setting says it all."""

from tests.unit.techsheet.kinds.tiny import machine, symptoms

#                     fill    heat    high    open    tap
SYMPTOMS = {
    "sound": "normal, normal, none, none, none",
    "level:11-12-open": "none, normal, none, none, none",
    "level:11-12-welded": "normal, normal, none, none, none",
    "level:11-14-open": "normal, none, none, none, none",
    "level:11-14-welded": "normal, normal, none, none, none",
    "float:1-2-open": "none, none, none, none, none",
    "float:1-2-welded": "normal, normal, normal, none, none",
    "flow:1-2-open": "none, normal, none, none, none",
    "flow:1-2-welded": "normal, normal, none, none, normal",
    "reed:1-2-open": "none, none, none, none, none",
    "reed:1-2-welded": "normal, normal, none, normal, none",
}


def test_every_fault_of_a_switch_moved_by_water_shows_as_written_down() -> None:
    assert symptoms(machine("waterswitches"), "level", "float", "flow", "reed") == SYMPTOMS

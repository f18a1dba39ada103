"""A flame sensor is yes or no, through the board that senses it, and its wires count as it does."""

from tests.unit.techsheet.kinds.tiny import machine, symptoms

#                     sees    code    ghost
SYMPTOMS = {
    "sound": "normal, none, none",
    "rod:dirty": "none, normal, none",
    "rod:grounded": "normal, none, normal",
    "board.FS-rod.1:open": "none, normal, none",
    "rod.2-case.H:open": "none, normal, none",
    "board.0V-case.H:open": "none, normal, none",
}


def test_every_fault_shows_as_written_down() -> None:
    wires = ("board.FS-rod.1", "rod.2-case.H", "board.0V-case.H")
    assert symptoms(machine("flamesense"), "rod", *wires) == SYMPTOMS


def test_the_board_s_end_of_its_wire_is_not_read_live_either() -> None:
    assert {"board.FS", "rod.1"} <= set(machine("flamesense").dead_only)

"""The drawing reads back as the same netlist: by where its strokes end, not by what it says it drew."""

import pytest

from halfsplit.drawing import draw_machine, draw_rungs, rungs
from tests.unit.drawing.machines import NAMES, machine
from tests.unit.drawing.read_back import netlist_of_drawing, netlist_of_machine


@pytest.mark.parametrize("name", NAMES)
def test_the_whole_drawing_reads_back_as_the_sheet(name: str) -> None:
    assert netlist_of_drawing(draw_machine(machine(name))) == netlist_of_machine(machine(name))


def test_a_false_circuit_would_be_noticed() -> None:
    drawn = draw_machine(machine("dryer"))
    swapped = drawn.replace('data-point="heater.1"', 'data-point="?"').replace(
        'data-point="heater.2"', 'data-point="heater.1"'
    )
    assert netlist_of_drawing(swapped) != netlist_of_machine(machine("dryer"))


@pytest.mark.parametrize("name", NAMES)
def test_what_a_folded_drawing_shows_is_true_too(name: str) -> None:
    for rung in rungs(machine(name)):
        for a, b in zip(rung.points[:-1], rung.points[1:], strict=True):
            shown = netlist_of_drawing(draw_rungs(machine(name), (a, b)))
            assert shown <= netlist_of_machine(machine(name))
            assert frozenset((a, b)) in {ends for _, ends in shown}

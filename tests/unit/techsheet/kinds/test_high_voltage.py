"""The high-voltage side of a microwave oven: what its faults show, what an ohmmeter finds, and nothing is read live."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest

from halfsplit.call import Case, Engine, Node, advise, caution_of, compile_tree, read_case
from halfsplit.circuit import read_ohms
from halfsplit.errors import InputError, SheetError
from halfsplit.predict import Predictor, candidates, expected
from halfsplit.predict.readings import AS_GOOD_AS_OPEN_OHM
from halfsplit.techsheet import Machine
from halfsplit.techsheet.kinds.high_voltage import CAUTION
from halfsplit.trade import NOTHING_WRONG, Action, Measure, Mode, Reading
from tests.unit.techsheet.kinds.tiny import machine, settled, symptoms, told

#                         heat    hum     fuse
SYMPTOMS = {
    "sound": "normal, none, normal",
    "transformer:primary-open": "none, none, normal",
    "transformer:secondary-open": "none, none, normal",
    "transformer:secondary-grounded": "none, normal, normal",
    "transformer:filament-open": "none, none, normal",
    "capacitor:open": "none, none, normal",
    "capacitor:shorted": "none, normal, normal",
    "diode:open": "none, none, normal",
    "diode:shorted": "none, normal, normal",
    "magnetron:filament-open": "none, none, normal",
    "magnetron:shorted": "none, normal, normal",
    "magnetron:worn": "weak, none, normal",
    # Its wires count as its parts do.
    "capacitor.2-joint.J:open": "none, none, normal",
    "transformer.F2-magnetron.FA:open": "none, none, normal",
    "transformer.G-case.H:open": "none, none, normal",
    # A diode with one lead off is an open diode.
    "joint.J-diode.1:open": "none, none, normal",
    "diode.2-case.H:open": "none, none, normal",
}
HIGH = ("transformer.S", "capacitor.1", "capacitor.2", "joint.J", "diode.1", "magnetron.F", "magnetron.FA")
FILAMENT = ("transformer.F1", "transformer.F2")


def predictor(found: Machine) -> Predictor:
    """The sound machine."""
    return Predictor(found, (NOTHING_WRONG,))


def test_every_fault_shows_as_written_down() -> None:
    parts = ("transformer", "capacitor", "diode", "magnetron")
    wires = ("capacitor.2-joint.J", "transformer.F2-magnetron.FA", "transformer.G-case.H")
    leads = ("joint.J-diode.1", "diode.2-case.H")
    assert symptoms(machine("highvoltage"), *parts, *wires, *leads) == SYMPTOMS


def test_dead_ohms_are_those_of_the_windings_and_open_where_the_trade_reads_open() -> None:
    found = machine("highvoltage")
    pairs = (("transformer.P1", "transformer.P2"), ("transformer.S", "transformer.G"))
    assert read_ohms(settled(found, "dead"), pairs)[:, 0] == pytest.approx([0.4, 80], rel=0.01)
    # The filament and its winding lie side by side: far below an ohm either way.
    assert read_ohms(settled(found, "dead"), (("magnetron.F", "magnetron.FA"),))[0, 0] < 0.1
    for pair in (
        ("diode.1", "diode.2"),
        ("diode.2", "diode.1"),
        ("magnetron.F", "magnetron.G"),
        ("capacitor.1", "capacitor.2"),
    ):
        assert read_ohms(settled(found, "dead"), (pair,))[0, 0] > AS_GOOD_AS_OPEN_OHM, pair
    for fault, pair in (
        ("diode:shorted", ("diode.1", "diode.2")),
        ("magnetron:shorted", ("magnetron.F", "magnetron.G")),
        ("capacitor:shorted", ("capacitor.1", "capacitor.2")),
    ):
        assert read_ohms(settled(found, "dead", fault), (pair,))[0, 0] < 6, fault


def test_all_that_carries_high_voltage_is_for_dead_checks_and_a_joint_in_its_wire_too() -> None:
    assert set(machine("highvoltage").dead_only) == {*HIGH, *FILAMENT, "transformer.P1", "transformer.P2"}


def test_the_primary_beside_it_is_not_read_live_either_but_the_wire_to_it_is_at_its_other_end() -> None:
    found = machine("highvoltage")
    for red, black in (("transformer.P1", "transformer.P2"), ("transformer.P1", "interlock.2")):
        with pytest.raises(InputError, match="sits a finger's breadth from kilovolts"):
            expected(predictor(found), ((red, black),), "volts", found.setups["cooking"])
    value = expected(predictor(found), (("interlock.2", "plug.N"),), "volts", found.setups["cooking"])
    assert value.mean[0, 0] == pytest.approx(117, abs=2)


@pytest.mark.parametrize("point", [*HIGH, *FILAMENT])
@pytest.mark.parametrize(
    ("mode", "setup"),
    [
        ("volts", "cooking"),
        ("low-z", "cooking"),
        ("ohms", "cooking"),
        ("ohms", "door open"),
        ("continuity", "cooking"),
        ("dc", "cooking"),
        ("ac+dc", "dead"),
        ("volts", "dead"),
        ("amps", "cooking"),
    ],
)
def test_no_reading_is_worked_out_there_but_ohms_with_the_plug_out(point: str, mode: Mode, setup: str) -> None:
    found = machine("highvoltage")
    with pytest.raises(InputError) as caught:
        expected(predictor(found), ((point, "case.G"),), mode, found.setups[setup])
    assert caught.value.what == f"{point} is never read on a live machine: it carries kilovolts that kill."
    assert caught.value.right == "Read ohms there in a setup with the plug out."


def test_ohms_with_the_plug_out_are_worked_out_there() -> None:
    found = machine("highvoltage")
    value = expected(predictor(found), (("transformer.S", "transformer.G"),), "ohms", found.setups["dead"])
    assert value.mean[0, 0] == pytest.approx(80, rel=0.01)


def test_no_live_check_is_proposed_there_and_dead_ones_are() -> None:
    found = machine("highvoltage")
    # Planted: without the mark, live checks would be proposed at these points.
    bare = candidates(predictor(replace(found, dead_only={})))
    assert "volts" in {action.mode for action in bare if isinstance(action, Measure) and is_high(action)}
    offered = [action for action in candidates(predictor(found)) if isinstance(action, Measure) and is_high(action)]
    assert {(action.mode, action.setup) for action in offered} == {("ohms", "dead")}


def is_high(action: Measure) -> bool:
    """Whether a check has a probe on the high-voltage side."""
    return bool({*HIGH, *FILAMENT} & set(action.points))


READ_LIVE = """
readings:
  - {points: [transformer.S, case.G], mode: volts, setup: cooking, reading: 900 V}
"""


def test_a_reading_that_somebody_took_there_live_is_not_taken() -> None:
    found = machine("highvoltage")
    with pytest.raises(SheetError) as caught:
        read_case(READ_LIVE, "case.yaml", found)
    assert [problem.what for problem in caught.value.problems] == [
        "transformer.S is never read on a live machine: it carries kilovolts that kill."
    ]
    with pytest.raises(InputError, match="never read on a live machine"):
        advise(found, Case().plus(Reading(("transformer.S", "case.G"), "volts", "cooking", 900.0)))


def test_a_whole_tree_of_checks_has_no_live_one_there_but_has_dead_ones() -> None:
    modes = {
        action.mode
        for action in _checks(compile_tree(machine("highvoltage"), "cold", depth=9, most=60))
        if isinstance(action, Measure) and is_high(action)
    }
    assert modes == {"ohms"}


def _checks(node: Node) -> Iterator[Action]:
    """Every check of a tree."""
    if node.check is not None:
        yield node.check.action
    for branch in node.branches:
        yield from _checks(branch.then)


def test_a_probe_that_goes_there_is_told_of_the_charge_first() -> None:
    engine = Engine(machine("highvoltage"))
    said = caution_of(engine, Measure(("capacitor.1", "capacitor.2"), "ohms", "dead"))
    assert said.startswith(CAUTION)
    assert said.removeprefix(CAUTION).startswith(" Unplug it, and prove it dead")
    assert (said.count("DANGER"), said.count("CAUTION")) == (1, 0)
    assert "discharge" not in caution_of(engine, Measure(("fuse.1", "fuse.2"), "ohms", "dead"))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("kV, diode: diode", "kV, diode: fuse"),
            "'fuse' is no high-voltage diode. Name the part of kind `high-voltage diode` that feeds this one.",
        ),
        (
            ("capacitor, case: case.H", "capacitor, case: case.X"),
            "'case' has no terminal 'X'. Known here: G, H.",
        ),
        (("    current: 12 A\n", ""), "'transformer' has no 'current'. Add it. Rated primary current."),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("highvoltage", change)[0] == said


def test_cabinet_metal_never_takes_the_mark() -> None:
    found = machine(
        "highvoltage",
        ("  - red joint.J diode.1\n  - green diode.2 case.H\n", "  - red joint.J diode.2\n  - green diode.1 case.H\n"),
    )
    assert not [point for point in found.dead_only if point.startswith("case.")]
    assert np.isfinite(expected(predictor(found), (("plug.L", "case.G"),), "volts", found.setups["cooking"]).mean).all()

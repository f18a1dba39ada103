"""Patches to columns, columns to solutions."""

from __future__ import annotations

import numpy as np
import pytest

from halfsplit.circuit import (
    NEVER,
    YES,
    Branch,
    Layout,
    Network,
    Patch,
    Pole,
    at_rest,
    columns,
    read_ohms,
    solve,
    when,
)
from halfsplit.errors import CircuitError
from tests.unit.circuit.small import LINE, NEUTRAL, network, relay, settle

LAMP = (
    Branch("switch", LINE, "top", 1.0, condition=when("switch", "on")),
    Branch("lamp", "top", NEUTRAL, 9.0, dc_ohm=0.9),
    Branch("ground fault", "top", NEUTRAL, 1.0, condition=NEVER),
)
SWITCH: dict[str, tuple[str, ...]] = {"switch": ("on", "off")}


def _lamp_volts(*variants: tuple[Patch, ...]) -> list[float]:
    settled = settle(network(LAMP, (), SWITCH), (), *variants)
    return [round(abs(volts), 6) for volts in settled.solution.across("lamp")]


def test_each_patch_changes_its_own_column_and_no_other() -> None:
    assert _lamp_volts(
        (),
        (Patch("open", "switch"),),
        (Patch("closed", "ground fault"),),
        (Patch("series", "switch", 2.0),),
        (Patch("pin", "switch", position="off"),),
        (Patch("scale", LINE, 0.5),),
    ) == [108.0, 0.0, round(120 * 0.9 / 1.9, 6), 90.0, 0.0, 54.0]


def test_two_faults_in_one_column_add_resistance_and_multiply_volts() -> None:
    series, scale = Patch("series", "switch", 1.0), Patch("scale", LINE, 0.5)
    assert _lamp_volts((series, series), (scale, scale)) == [90.0, 27.0]


def test_a_branch_both_open_and_welded_is_open() -> None:
    assert _lamp_volts((Patch("closed", "switch"), Patch("open", "switch"))) == [0.0]


@pytest.mark.parametrize(
    ("patch", "named"),
    [
        (Patch("open", "no such wire"), "'no such wire'"),
        (Patch("closed", "no such contact"), "'no such contact'"),
        (Patch("series", "no such joint", 3.0), "'no such joint'"),
        (Patch("pin", "no such setting", position="on"), "'no such setting' at 'on'"),
        (Patch("pin", "switch", position="half on"), "'switch' at 'half on'"),
        (Patch("scale", "top", 0.5), "'top'"),
    ],
)
def test_a_patch_with_an_unknown_name_is_refused_by_name(patch: Patch, named: str) -> None:
    with pytest.raises(CircuitError) as caught:
        columns(Layout(network(LAMP, (), SWITCH)), [(patch,)])
    assert str(caught.value) == f"A fault names {named}, which this network does not have."


def test_a_point_with_no_path_is_named() -> None:
    lonely = Network(
        60.0,
        (Branch("load", LINE, NEUTRAL, 10.0), Branch("wire", "here", "there", 1.0)),
        (Pole(LINE, 120.0), Pole(NEUTRAL, 0.0)),
    )
    with pytest.raises(CircuitError) as caught:
        settle(lonely)
    assert caught.value.what == "The points here and there hang together and nothing joins them to the rest."
    assert caught.value.right == "Give one of them a wire, or stray capacitance."


def test_a_point_that_loses_its_only_path_in_one_column_is_named() -> None:
    bare = Network(60.0, (Branch("wire", LINE, "end", 1.0),), (Pole(LINE, 120.0),))
    with pytest.raises(CircuitError, match=r"^The point end floats"):
        settle(bare, (), (), (Patch("open", "wire"),))


def test_the_dead_network_is_cold_without_capacitance_and_without_volts() -> None:
    made_of = network((Branch("element", LINE, "top", 9.0, 1.0, 1e-3, dc_ohm=0.5), Branch("rest", "top", NEUTRAL, 2.0)))
    made = columns(Layout(made_of), [(), (Patch("series", "element", 1.5),)])
    dead = read_ohms(at_rest(made), (("top", NEUTRAL),))  # 0.5 Ω or 2 Ω to one pole, 2 Ω to the other, both at 0 V
    assert dead[0].tolist() == pytest.approx([0.4, 1.0], rel=1e-9)  # a stray besides


def test_repeated_columns_stand_side_by_side_once_for_each_scale() -> None:
    layout = Layout(network(LAMP, (relay("relay", "lamp"),), SWITCH))
    variants = [(), (Patch("pin", "relay", position=YES), Patch("series", "switch", 2.0)), (Patch("open", "lamp"),)]
    made = columns(layout, variants)
    branch, pole = np.linspace(1.0, 2.0, len(layout.network.branches)), np.array([1.1, 1.0])
    twice = made.repeat([(np.ones_like(branch), np.ones(2)), (branch, pole)])
    assert twice.count == 6
    for field in ("forced_open", "forced_closed", "added_ohm", "pinned"):
        once = getattr(made, field)
        assert np.array_equal(getattr(twice, field), np.concatenate([once, once], axis=1))
    assert np.array_equal(twice.branch_scale[:, 3:], np.stack([branch] * 3, axis=1))
    assert np.array_equal(twice.pole_scale[:, 3:], np.stack([pole] * 3, axis=1))
    state = layout.start(6)
    scaled = solve(twice, state).volts[:, 3:]
    for column, variant in enumerate(variants):
        alone = columns(layout, [variant]).repeat([(branch, pole)])
        assert scaled[:, column] == pytest.approx(solve(alone, layout.start(1)).volts[:, 0], rel=1e-12)


def test_scaling_a_branch_scales_its_whole_impedance_but_not_a_burnt_joint_on_it() -> None:
    made_of = network((Branch("load", LINE, NEUTRAL, 10.0, 0.1, 1e-6), Branch("other", LINE, NEUTRAL, 1.0)))
    layout = Layout(made_of)
    made = columns(layout, [(Patch("series", "load", 5.0),)]).repeat([(np.array([2.0, 1.0]), np.ones(2))])
    omega = 2.0 * np.pi * 60.0
    expected = 1.0 / (2.0 * (10.0 + 0.1j * omega) + 5.0) + 1j * omega * 0.5e-6
    assert solve(made, layout.start(1)).admittance[:, 0] == pytest.approx([expected, 1.0], rel=1e-15)


def test_taken_columns_keep_everything_in_the_order_asked() -> None:
    layout = Layout(network(LAMP, (), SWITCH))
    variants = (
        (Patch("open", "lamp"), Patch("pin", "switch", position="off")),
        (Patch("series", "lamp", 1.0), Patch("scale", LINE, 0.5)),
        (Patch("closed", "ground fault"),),
    )
    taken, made = columns(layout, variants).take(np.array([2, 0])), columns(layout, (variants[2], variants[0]))
    assert taken.count == 2
    for name in ("forced_open", "forced_closed", "added_ohm", "branch_scale", "pinned", "pole_scale"):
        assert np.array_equal(getattr(taken, name), getattr(made, name))


def test_a_condition_holds_by_any_of_its_alternatives_and_all_of_each() -> None:
    both = (("door", frozenset({"shut"})), ("timer", frozenset({"dry", "cool"})))
    layout = Layout(network(LAMP, (), {"door": ("open", "shut"), "timer": ("off", "dry", "cool"), **SWITCH}))
    state = np.array([[0, 1, 1, 1, 0, 0], [1, 0, 1, 2, 0, 0], [0, 0, 0, 0, 1, 0]], dtype=np.int8)
    condition = (both, (("switch", frozenset({"off"})),))
    assert layout.holds(condition, state).tolist() == [False, False, True, True, True, False]


def test_current_through_a_branch_flows_from_its_first_point_to_its_second() -> None:
    settled = settle(network(LAMP, (), SWITCH))
    assert settled.solution.through("lamp")[0].real == pytest.approx(12.0)
    assert settled.solution.through("switch")[0].real == pytest.approx(12.0)


def test_a_branch_with_both_ends_on_one_point_carries_nothing_and_changes_nothing() -> None:
    settled = settle(network((*LAMP, Branch("loop", "top", "top", 1.0)), (), SWITCH))
    assert abs(settled.solution.across("lamp")[0]) == pytest.approx(108.0)
    assert settled.solution.through("loop")[0] == 0.0

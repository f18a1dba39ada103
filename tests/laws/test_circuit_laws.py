"""What holds for every network, whatever is in it: Kirchhoff, Tellegen, reciprocity, superposition, Rayleigh.

Networks are small and random: 2 to 6 free points, each with a stray to earth so that none floats, two live poles and
earth, and up to 12 branches between any of them, milliohm to megohm, some with inductance or capacitance.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from halfsplit.circuit import (
    NEVER,
    Branch,
    Layout,
    Network,
    Patch,
    Pole,
    Settled,
    at_rest,
    columns,
    read_ohms,
    read_volts,
    replay,
)
from halfsplit.techsheet import load_machine

# The same examples on every machine and every day, and no clock.
law = settings(derandomize=True, deadline=None, max_examples=100, database=None)

EARTH, LIVE, OTHER = "earth", "live", "other"
POLES = (Pole(LIVE, 120.0), Pole(OTHER, -120.0 + 0.0j), Pole(EARTH, 0.0))


def _log(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(np.log10(low), np.log10(high)).map(lambda power: float(10.0**power))


@st.composite
def networks(draw: st.DrawFn, inductive: bool = True) -> Network:
    """A random network, every point of it with a stray to earth."""
    free = [f"p{number}" for number in range(draw(st.integers(2, 6)))]
    points = [*free, LIVE, OTHER, EARTH]
    branches = [Branch(f"stray {point}", point, EARTH, 1e10, farad=30e-12) for point in free]
    for number in range(draw(st.integers(3, 12))):
        a, b = draw(st.lists(st.sampled_from(points), min_size=2, max_size=2, unique=True))
        henry = draw(st.sampled_from([0.0, 1e-3, 0.05])) if inductive else 0.0
        farad = draw(st.sampled_from([0.0, 0.0, 1e-9])) if inductive else 0.0
        branches.append(Branch(f"b{number}", a, b, draw(_log(1e-3, 1e6)), henry, farad))
    return Network(60.0, tuple(branches), POLES)


def _solved(network: Network, *variants: tuple[Patch, ...]) -> Settled:
    return at_rest(columns(Layout(network), variants or ((),)))


def _point(settled: Settled, point: str) -> NDArray[np.complex128]:
    return np.asarray(settled.solution.volts[settled.columns.layout.point_index[point]])


def _amps_out_of(settled: Settled, point: str) -> NDArray[np.complex128]:
    """Amps that leave a point through all its branches, shape (S,)."""
    total = np.zeros(settled.columns.count, dtype=np.complex128)
    for branch in settled.columns.layout.network.branches:
        sign = (branch.a == point) - (branch.b == point)
        total += sign * settled.solution.through(branch.name)
    return total


def _flow_scale(settled: Settled, point: str = "") -> float:
    """Largest admittance (of those that meet at `point`) by the largest volts: what rounding in a current goes with."""
    branches = settled.columns.layout.network.branches
    here = [row for row, branch in enumerate(branches) if point in (branch.a, branch.b, "")]
    return float(np.abs(settled.solution.admittance[here]).max() * np.abs(settled.solution.volts).max())


@law
@given(networks())
def test_currents_sum_to_zero_at_every_point_that_is_not_a_pole(network: Network) -> None:
    settled = _solved(network)
    for point in network.points():
        if point not in (LIVE, OTHER, EARTH):
            assert abs(_amps_out_of(settled, point)[0]) <= 1e-13 * _flow_scale(settled, point)


@law
@given(networks())
def test_what_the_poles_give_is_what_the_branches_take(network: Network) -> None:
    settled = _solved(network)
    given_va = sum(pole.volts * np.conj(_amps_out_of(settled, pole.point)[0]) for pole in POLES)
    across = np.array([settled.solution.across(branch.name)[0] for branch in network.branches])
    taken_va = (np.abs(across) ** 2 * np.conj(settled.solution.admittance[:, 0])).sum()
    assert abs(given_va - taken_va) <= 1e-12 * _flow_scale(settled) * 120.0
    assert taken_va.real >= 0.0


@law
@given(networks())
def test_what_one_pole_sends_into_another_the_other_would_send_back(network: Network) -> None:
    """Reciprocity: volts at one pole, amps into the other held at zero, and the other way round."""
    settled = _solved(network, (Patch("scale", OTHER, 0.0),), (Patch("scale", LIVE, 0.0),))
    there = -_amps_out_of(settled, OTHER)[0] / 120.0
    back = -_amps_out_of(settled, LIVE)[1] / -120.0
    assert abs(there - back) <= 1e-12 * _flow_scale(settled) / 120.0


@law
@given(networks(), st.data())
def test_a_meter_reads_the_same_with_its_leads_swapped(network: Network, data: st.DataObject) -> None:
    a, b = data.draw(st.lists(st.sampled_from(network.points()), min_size=2, max_size=2, unique=True))
    settled = _solved(network)
    assert np.array_equal(read_volts(settled, ((a, b),), 10e6), read_volts(settled, ((b, a),), 10e6))
    assert np.array_equal(read_ohms(settled, ((a, b),)), read_ohms(settled, ((b, a),)))


@law
@given(networks(), st.data(), st.sampled_from([3e3, 10e6]))
def test_a_meter_reads_what_stands_across_the_same_resistance_wired_in(
    network: Network, data: st.DataObject, meter_ohm: float
) -> None:
    a, b = data.draw(st.lists(st.sampled_from(network.points()), min_size=2, max_size=2, unique=True))
    wired = _solved(replace(network, branches=(*network.branches, Branch("meter", a, b, meter_ohm))))
    expected = np.abs(wired.solution.across("meter"))
    assert read_volts(_solved(network), ((a, b),), meter_ohm)[0] == pytest.approx(expected, rel=1e-9, abs=1e-9)


@law
@given(networks())
def test_two_sources_at_once_do_what_each_does_alone_added_up(network: Network) -> None:
    settled = _solved(network, (), (Patch("scale", OTHER, 0.0),), (Patch("scale", LIVE, 0.0),))
    both, first, second = settled.solution.volts.T
    assert np.abs(both - first - second).max() <= 1e-11 * np.abs(settled.solution.volts).max()


@law
@given(networks(), st.data())
def test_a_wire_that_leads_nowhere_changes_nothing(network: Network, data: st.DataObject) -> None:
    at = data.draw(st.sampled_from(network.points()))
    wired = _solved(replace(network, branches=(*network.branches, Branch("spare", at, "nowhere", 0.01))))
    before = _solved(network)
    for point in network.points():
        assert _point(wired, point) == pytest.approx(_point(before, point), rel=1e-9, abs=1e-9)
    assert _point(wired, "nowhere") == pytest.approx(_point(wired, at), rel=1e-12, abs=1e-12)


@law
@given(networks(), st.data())
def test_an_open_branch_is_the_network_without_it(network: Network, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from([branch.name for branch in network.branches if branch.name.startswith("b")]))
    opened = _solved(network, (Patch("open", name),))
    left = _solved(replace(network, branches=tuple(branch for branch in network.branches if branch.name != name)))
    for point in left.columns.layout.points:
        assert _point(opened, point) == pytest.approx(_point(left, point), rel=1e-9, abs=1e-9)
    assert opened.solution.through(name)[0] == 0.0


@law
@given(networks(), st.data(), _log(1e-3, 1e4))
def test_resistance_added_by_a_fault_is_resistance_written_in_the_branch(
    network: Network, data: st.DataObject, ohm: float
) -> None:
    branch = data.draw(st.sampled_from(network.branches))
    written = tuple(replace(one, ohm=one.ohm + ohm) if one is branch else one for one in network.branches)
    faulty, rewritten = (
        _solved(network, (Patch("series", branch.name, ohm),)),
        _solved(replace(network, branches=written)),
    )
    assert faulty.solution.volts == pytest.approx(rewritten.solution.volts, rel=1e-12, abs=1e-12)


@law
@given(networks(), st.data())
def test_a_contact_welded_shut_is_a_contact_always_closed(network: Network, data: st.DataObject) -> None:
    branch = data.draw(st.sampled_from([branch for branch in network.branches if branch.name.startswith("b")]))
    dormant = tuple(replace(one, condition=NEVER) if one is branch else one for one in network.branches)
    welded = _solved(replace(network, branches=dormant), (Patch("closed", branch.name),))
    assert np.array_equal(welded.solution.volts, _solved(network).solution.volts)


@law
@given(networks(inductive=False), st.data(), st.floats(1.0, 100.0))
def test_raising_any_resistance_never_lowers_an_ohms_reading(
    network: Network, data: st.DataObject, times: float
) -> None:
    """Rayleigh's monotonicity, on which predicted spreads of ohms rest."""
    a, b = data.draw(st.lists(st.sampled_from(network.points()), min_size=2, max_size=2, unique=True))
    branch = data.draw(st.sampled_from(network.branches))
    ones = np.ones(len(network.branches))
    raised = np.where([one is branch for one in network.branches], times, 1.0)
    made = columns(Layout(network), [()]).repeat([(ones, np.ones(3)), (raised, np.ones(3))])
    before, after = read_ohms(at_rest(made), ((a, b),))[0]
    assert after >= before * (1.0 - 1e-12)


@law
@given(networks(), st.data())
def test_columns_side_by_side_are_the_same_columns_one_by_one(network: Network, data: st.DataObject) -> None:
    names = st.sampled_from([branch.name for branch in network.branches if branch.name.startswith("b")])
    patch = st.one_of(
        st.builds(Patch, st.just("open"), names),
        st.builds(Patch, st.just("series"), names, _log(1e-3, 1e4)),
        st.builds(Patch, st.just("scale"), st.sampled_from([LIVE, OTHER]), st.floats(0.0, 2.0)),
    )
    variants = data.draw(st.lists(st.lists(patch, max_size=3).map(tuple), min_size=1, max_size=6))
    together = _solved(network, *variants)
    pairs = ((LIVE, "p0"), ("p0", "p1"), ("p1", EARTH))
    volts, ohms = read_volts(together, pairs, 10e6), read_ohms(together, pairs)
    for column, variant in enumerate(variants):
        alone = _solved(network, variant)
        assert together.solution.volts[:, column] == pytest.approx(alone.solution.volts[:, 0], rel=1e-12, abs=1e-12)
        assert volts[:, column] == pytest.approx(read_volts(alone, pairs, 10e6)[:, 0], rel=1e-10, abs=1e-10)
        assert ohms[:, column] == pytest.approx(read_ohms(alone, pairs)[:, 0], rel=1e-10)


@pytest.mark.parametrize("setup", ["running medium", "door opened", "dead auto"])
def test_the_dryers_faults_side_by_side_settle_as_they_do_one_by_one(setup: str) -> None:
    machine = load_machine("dryer")
    layout = Layout(machine.network)
    variants = [(), *(fault.patches for fault in machine.faults.values())]
    steps = machine.setups[setup].steps
    together = replay(columns(layout, variants), steps)
    for column, variant in enumerate(variants):
        alone = replay(columns(layout, [variant]), steps)
        assert np.array_equal(together.state[:, column], alone.state[:, 0])
        assert together.chatters.get(column) == alone.chatters.get(0)
        assert together.solution.volts[:, column] == pytest.approx(alone.solution.volts[:, 0], rel=1e-12, abs=1e-12)

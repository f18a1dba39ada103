"""What holds for every reading: a way more never raises ohms, a way less never lowers them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfsplit.circuit import (
    Branch,
    Layout,
    Network,
    Patch,
    Pole,
    Source,
    at_rest,
    columns,
    measuring_paths,
    read_ohms,
    read_waves,
)

law = settings(derandomize=True, deadline=None, max_examples=100, database=None)
FREE = tuple(f"p{number}" for number in range(6))


@st.composite
def dead_networks(draw: st.DrawFn) -> Network:
    """A random network of resistances, some with a diode, every point with a stray to earth."""
    branches = [Branch(f"stray {point}", point, "earth", 1e10) for point in FREE]
    diodes = draw(st.integers(0, 3))
    for number in range(draw(st.integers(3, 12))):
        a, b = draw(st.lists(st.sampled_from(FREE), min_size=2, max_size=2, unique=True))
        ohm = 10.0 ** draw(st.floats(-2, 5))
        branches.append(Branch(f"b{number}", a, b, ohm, one_way=number < diodes))
    return Network(60.0, tuple(branches), (Pole("earth", 0.0),))


def _ohms(network: Network, *patches: Patch) -> float:
    return float(read_ohms(at_rest(columns(Layout(network), [patches])), (("p0", "p1"),))[0, 0])


@law
@given(dead_networks(), st.floats(-2, 5))
def test_a_parallel_path_never_raises_ohms(network: Network, power: float) -> None:
    more = Network(60.0, (*network.branches, Branch("beside", "p0", "p1", 10.0**power)), network.poles)
    assert _ohms(more) <= min(_ohms(network), 10.0**power) * (1 + 1e-9)


@law
@given(dead_networks(), st.data())
def test_lifting_a_lead_never_lowers_ohms(network: Network, data: st.DataObject) -> None:
    lead = data.draw(st.sampled_from([branch.name for branch in network.branches if branch.name[0] == "b"]))
    assert _ohms(network, Patch("open", lead)) >= _ohms(network) * (1 - 1e-9)


@law
@given(dead_networks())
def test_the_ways_of_the_measuring_current_carry_all_of_it_and_each_has_all_the_volts(network: Network) -> None:
    settled = at_rest(columns(Layout(network), [()]))
    if not np.isfinite(read_ohms(settled, (("p0", "p1"),))[0, 0]):
        return
    paths = measuring_paths(settled, ("p0", "p1"))
    assert sum(path.share for path in paths) == pytest.approx(1.0, abs=2e-3)
    for path in paths:
        assert sum(path.drops) == pytest.approx(1.0, abs=1e-6)


@law
@given(dead_networks(), st.floats(1.0, 300.0), st.floats(-50.0, 50.0))
def test_what_is_ac_coupled_and_what_is_direct_add_up_to_the_true_rms_and_turn_as_they_should(
    network: Network, volts: float, direct: float
) -> None:
    supply = Branch("supply", "p2", "live", 1.0)
    rail = Branch("rail", "p3", "high", 10.0)
    tie = Branch("tie", "low", "earth", 1.0)
    made = Network(
        60.0,
        (*network.branches, supply, rail, tie, Branch("stray live", "live", "earth", 1e10)),
        (*network.poles, Pole("live", complex(volts))),
        sources=(Source("battery", "high", "low", direct=direct),),
    )
    settled = at_rest(columns(Layout(made), [()]))
    (wave,) = read_waves(settled, (settled.solution,), (("p0", "p1"), ("p1", "p0")), 10e6)
    assert wave.ac[0, 0] ** 2 + wave.mean[0, 0] ** 2 == pytest.approx(wave.rms[0, 0] ** 2, rel=1e-6, abs=1e-9)
    assert wave.mean[0, 0] == pytest.approx(-wave.mean[1, 0], rel=1e-6, abs=1e-9)
    assert wave.ac[0, 0] == pytest.approx(wave.ac[1, 0], rel=1e-6, abs=1e-6)


@law
@given(dead_networks())
def test_without_diodes_ohms_are_the_same_both_ways(network: Network) -> None:
    plain = Network(60.0, tuple(branch for branch in network.branches if not branch.one_way), network.poles)
    settled = at_rest(columns(Layout(plain), [()]))
    there, back = read_ohms(settled, (("p0", "p1"), ("p1", "p0")))[:, 0]
    assert there == pytest.approx(back, rel=1e-9)

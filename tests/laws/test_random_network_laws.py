"""What holds for every network of the kinds drawn for ngspice, with sources and transformers that float.

The plain ones have more laws in `test_circuit_laws`.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from halfsplit.circuit import Branch, Patch
from tests.oracle.networks import LIVE, OTHER, Case, cases

law = settings(derandomize=True, deadline=None, max_examples=100, database=None)
Flows = dict[str, NDArray[np.complex128]]


def _flows(case: Case) -> tuple[Flows, Flows, Flows]:
    """Of every point, shape (2, S) for alternating and direct: volts, amps that leave it, what rounding goes with."""
    settled = case.settled()
    half, layout = settled.solution.halves[0], settled.columns.layout
    nothing = np.zeros(half.volts.shape)
    volts = np.stack([half.volts, nothing if half.steady is None else half.steady])
    conductance = np.zeros(half.admittance.shape) if half.conductance is None else half.conductance
    amps = (volts[:, layout.a] - volts[:, layout.b]) * np.stack([half.admittance, conductance])
    sizes = np.abs(np.stack([half.admittance, conductance])) * np.abs(volts).max(axis=1, keepdims=True)
    out, scale = np.zeros_like(volts), np.zeros(volts.shape)
    for row in range(len(layout.a)):
        out[:, layout.a[row]] += amps[:, row]
        out[:, layout.b[row]] -= amps[:, row]
        for end in (layout.a[row], layout.b[row]):
            scale[:, end] = np.maximum(scale[:, end], sizes[:, row])
    names = {point: layout.point_index[point] for point in layout.points}
    return tuple({point: table[:, row] for point, row in names.items()} for table in (volts, out, scale))


@law
@given(cases())
def test_currents_sum_to_zero_wherever_nothing_is_held(case: Case) -> None:
    _, out, scale = _flows(case)
    held = {pole.point for pole in case.network.poles} | set(case.network.held_pairs())
    for point in case.network.points():
        if point not in held:
            assert (np.abs(out[point]) <= 1e-12 * scale[point] + 1e-30).all(), point


@law
@given(cases())
def test_what_leaves_a_source_or_a_winding_comes_back_to_it(case: Case) -> None:
    _, out, scale = _flows(case)
    points = case.network.held_pairs()
    for high, low in zip(points[::2], points[1::2], strict=True):
        assert (np.abs(out[high] + out[low]) <= 1e-9 * np.maximum(scale[high], scale[low])).all()


@law
@given(cases())
def test_a_transformer_takes_no_power_and_holds_its_volts_by_its_turns(case: Case) -> None:
    volts, out, scale = _flows(case)
    for core in case.network.transformers:
        across = [(volts[winding.high] - volts[winding.low])[0] for winding in core.windings]
        taken = sum(one * out[winding.high][0].conj() for one, winding in zip(across, core.windings, strict=True))
        size = max(float(np.abs(one).max()) for one in across) * max(
            float(scale[w.high][0].max()) for w in core.windings
        )
        assert (np.abs(taken) <= 1e-9 * size + 1e-30).all()
        a_turn = np.stack([one / winding.turns for one, winding in zip(across, core.windings, strict=True)])
        assert (np.abs(a_turn - a_turn[0]) <= 1e-9 * max(float(np.abs(one).max()) for one in volts.values())).all()


@law
@given(cases())
def test_what_one_pole_sends_into_another_the_other_would_send_back_through_transformers_too(case: Case) -> None:
    variants = ((Patch("scale", OTHER, 0.0),), (Patch("scale", LIVE, 0.0),))
    source = tuple(Patch("scale", one.name, 0.0) for one in case.network.sources)
    _, out, scale = _flows(replace(case, variants=tuple((*one, *source) for one in variants)))
    live, other = (next(pole.volts for pole in case.network.poles if pole.point == point) for point in (LIVE, OTHER))
    if other:
        there, back = out[OTHER][0, 0] / live, out[LIVE][0, 1] / other
        assert abs(there - back) <= 1e-9 * max(scale[OTHER].max(), scale[LIVE].max()) / abs(other)


@law
@given(cases(), st.data())
def test_a_wire_that_leads_nowhere_changes_nothing_with_supplies_that_float(case: Case, data: st.DataObject) -> None:
    at = data.draw(st.sampled_from(case.network.points()))
    spare = (*case.network.branches, Branch("spare", at, "nowhere", 0.01))
    before, after = _flows(case)[0], _flows(replace(case, network=replace(case.network, branches=spare)))[0]
    for point, volts in before.items():
        assert after[point] == pytest.approx(volts, rel=1e-8, abs=1e-8)
    assert after["nowhere"] == pytest.approx(after[at], rel=1e-8, abs=1e-8)

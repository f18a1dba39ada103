"""What holds for every network of bodies: heat is neither made nor lost, and flows from warm to cold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from scipy.linalg import expm  # type: ignore[import-untyped]  # scipy ships no types

from halfsplit.heat import Body, HeatNetwork, Link
from halfsplit.heat.curve import steady, warm
from tests.oracle.heated import Heated, heated

law = settings(derandomize=True, deadline=None, max_examples=60, database=None)


def _both_ways(network: HeatNetwork) -> HeatNetwork:
    """Without streams, whose air carries heat out of the network."""
    return HeatNetwork(network.bodies, tuple(link for link in network.links if isinstance(link, Link)))


@law
@given(heated())
def test_what_is_put_in_is_stored(case: Heated) -> None:
    network, watts, seconds = case
    plain = _both_ways(network)
    bodies = tuple(replace(body, joule_per_kelvin=body.joule_per_kelvin or 1e5) for body in plain.bodies)
    after = warm(HeatNetwork(bodies, plain.links), watts, seconds).network.bodies
    stored = sum(
        float(body.joule_per_kelvin or 0.0) * (end.celsius - body.celsius)
        for body, end in zip(bodies, after, strict=True)
    )
    given_joule = sum(watts.values()) * seconds
    # A thousandth of a kelvin in all of them together is what following them is allowed to lose.
    assert stored == pytest.approx(given_joule, abs=1e-3 * sum(body.joule_per_kelvin or 0.0 for body in bodies))


@law
@given(heated())
def test_curves_are_those_of_the_matrix_exponential(case: Heated) -> None:
    network, watts, seconds = case
    names = network.free()
    held = {body.name: body.celsius for body in network.bodies}
    capacity = np.array([body.joule_per_kelvin for body in network.bodies if body.name in names])
    zero = dict.fromkeys(held, 0.0)
    base = network.gains({**zero, "room": held["room"]}, watts)
    slope = np.zeros((len(names) + 1, len(names) + 1))
    for column, name in enumerate(names):
        gains = network.gains({**zero, name: 1.0}, {})
        slope[:-1, column] = [gains[row] for row in names] / capacity
    slope[:-1, -1] = [base[row] for row in names] / capacity
    start = np.array([*(held[name] for name in names), 1.0])
    exact = expm(slope * seconds) @ start
    found = warm(network, watts, seconds).celsius
    rise = max(1.0, float(np.abs(exact[:-1] - start[:-1]).max()))
    assert [found[name][-1] for name in names] == pytest.approx(exact[:-1], abs=1e-5 * rise)


@law
@given(heated())
def test_unheated_bodies_stay_between_the_coldest_and_the_warmest(case: Heated) -> None:
    network, _, seconds = case
    starts = [body.celsius for body in network.bodies]
    for curve in warm(network, {}, seconds).celsius.values():
        assert curve.min() >= min(starts) - 1e-4
        assert curve.max() <= max(starts) + 1e-4


@law
@given(heated())
def test_where_it_comes_to_rest_the_room_gets_what_is_put_in(case: Heated) -> None:
    network, watts, _ = case
    plain = _both_ways(network)
    rest = steady(plain, watts)
    assert plain.gains(rest, watts)["room"] == pytest.approx(sum(watts.values()), rel=1e-6)


@law
@given(heated())
def test_a_body_that_nothing_links_keeps_its_temperature(case: Heated) -> None:
    network, watts, seconds = case
    alone = HeatNetwork((*network.bodies, Body("alone", 55.0, 100.0)), network.links)
    found = warm(alone, watts, seconds).celsius
    assert found["alone"][-1] == pytest.approx(55.0, abs=1e-9)
    before = warm(network, watts, seconds).celsius
    rise = max(float(np.ptp(curve)) for curve in before.values())
    for name, curve in before.items():
        assert found[name][-1] == pytest.approx(curve[-1], abs=1e-5 * max(1.0, rise))

"""Near a threshold both contact states are carried, in readings, evidence, outcomes and what a person would see."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from halfsplit.circuit import Branch, Layout, Network, Pole, columns, replay
from halfsplit.predict import Predictor, expected, is_dead, levels, outcomes, row
from halfsplit.predict.carried import SUPPLY_SPREAD, Carried, carry
from halfsplit.trade import NOTHING_WRONG, Look, Measure, Reading, Suspect
from tests.unit.circuit.small import network, relay
from tests.unit.techsheet.kinds.tiny import machine

law = settings(derandomize=True, deadline=None, max_examples=40, database=None)
DECIDING = float(np.hypot(SUPPLY_SPREAD, 0.04))
COIL = Branch("coil", "L", "N", 1200.0)
HEATER, RUNNING = ("heater.1", "heater.2"), "pressing"


def _carried(pull_in: float) -> Carried:
    made_of = network([COIL], [relay("pulled", "coil", pull_in=pull_in)])
    return carry((replay(columns(Layout(made_of), [()]), ()),), ())


def _near(*, pulls_in_at: str = "118 V") -> Predictor:
    found = machine("holdin", ("    coil current: 40 mA\n", f"    pulls in at: {pulls_in_at}\n"))
    return Predictor(found, (NOTHING_WRONG, Suspect(("heater:open",))))


def test_far_from_its_threshold_a_relay_stands_one_way() -> None:
    for pull_in in (80.0, 108.0, 135.0):
        found = _carried(pull_in)
        assert (found.owner.tolist(), found.weight.tolist()) == ([0], [1.0])


@law
@given(st.floats(110.0, 130.0))
def test_the_weight_is_the_share_of_supplies_on_the_other_side(pull_in: float) -> None:
    found = _carried(pull_in)
    assert found.weight.sum() == pytest.approx(1.0)
    pulled = found.settled.state[0]
    chance = norm.cdf((120.0 - pull_in) / 120.0 / DECIDING)
    assert float(found.weight[pulled == 1].sum()) == pytest.approx(chance, abs=0.04)


def test_a_supply_at_two_deviations_keeps_what_it_never_moves() -> None:
    plain = Network(60.0, (COIL, Branch("stray", "x", "N", 1e10, farad=1e-11)), (Pole("L", 120.0), Pole("N", 0.0)))
    found = carry((replay(columns(Layout(plain), [(), ()]), ()),), ())
    assert found.owner.tolist() == [0, 1]


def test_a_reading_behind_a_doubtful_relay_has_both_means_and_both_weights() -> None:
    predictor = _near()
    value = expected(predictor, (HEATER,), "volts", predictor.machine.setups[RUNNING])
    likely, other = value.columns_of(0)
    assert value.mean[0, likely] == pytest.approx(119.0, abs=2.0)
    assert value.mean[0, other] < 1.0
    assert value.carried is not None
    assert 0.2 < value.carried.weight[other] < 0.5
    assert value.carried.moved(other) == ("relay:pulled-in",)


def test_neither_reading_contradicts_and_each_is_worth_its_weight() -> None:
    predictor = _near()
    setup = predictor.machine.setups[RUNNING]
    full, nothing, half = (row(predictor, Reading(HEATER, "volts", RUNNING, v), setup) for v in (118.5, 0.0, 60.0))
    assert [found.contradicts[0] for found in (full, nothing, half)] == [False, False, True]
    firm = _near(pulls_in_at="80 V")
    sure = row(firm, Reading(HEATER, "volts", RUNNING, 118.5), firm.machine.setups[RUNNING])
    assert full.fits[0] < 0.8 * sure.fits[0]
    assert row(firm, Reading(HEATER, "volts", RUNNING, 0.0), firm.machine.setups[RUNNING]).contradicts[0]


def test_its_outcomes_and_what_a_person_sees_share_out_alike() -> None:
    predictor = _near()
    weights = predictor.carried(predictor.machine.setups[RUNNING]).weight
    heat, look = outcomes((predictor,), (Measure(HEATER, "volts", RUNNING), Look("press", RUNNING)))
    np.testing.assert_allclose(heat.chances.sum(axis=0), 1.0)
    least = heat.chances[:, 0].min()
    assert least == pytest.approx(weights[2], abs=0.04)
    seen = levels(predictor, predictor.machine.functions["press"], predictor.machine.setups[RUNNING])
    assert seen[0, 0] == pytest.approx(weights[2], abs=0.01)
    assert seen[2, 0] == pytest.approx(1.0 - weights[2], abs=0.02)
    assert look.chances.shape == (4, 2)


def test_a_machine_that_may_stand_live_is_not_dead() -> None:
    predictor = _near()
    assert not is_dead(predictor, predictor.machine.setups[RUNNING])

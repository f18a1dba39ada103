"""What is suspected before anything is seen."""

import pytest

from halfsplit.belief import make_prior
from halfsplit.belief.prior import FAULTY, LEAST_PAIR_SHARE, NOT_ON_SHEET_SHARE, NOTHING_WRONG_SHARE
from halfsplit.trade import NOTHING_WRONG, Suspect

RATES = {"heater:open": 30.0, "heater:grounded": 10.0, "lamp:open": 20.0, "wire:open": 0.001}
THINGS = {name: name.partition(":")[0] for name in RATES}
PRIOR = make_prior(RATES, THINGS)


def test_all_shares_add_up_to_one() -> None:
    assert PRIOR.shares.sum() + PRIOR.not_on_sheet == pytest.approx(1.0, abs=1e-12)


def test_nothing_wrong_comes_first_then_the_singles_then_the_pairs() -> None:
    assert PRIOR.suspects[0] == NOTHING_WRONG
    assert [suspect.faults for suspect in PRIOR.suspects[1 : PRIOR.singles]] == [(name,) for name in RATES]
    assert all(len(suspect.faults) == 2 for suspect in PRIOR.suspects[PRIOR.singles :])
    assert PRIOR.shares[0] == NOTHING_WRONG_SHARE


def test_single_faults_stand_in_proportion_to_their_rates() -> None:
    shares = dict(zip((suspect.name for suspect in PRIOR.suspects), PRIOR.shares, strict=True))
    assert shares["heater:open"] / shares["lamp:open"] == pytest.approx(1.5)


def test_a_pair_is_as_likely_as_its_two_odds_together() -> None:
    # Odds of all faults add up to FAULTY = 0.1: heater open has 0.1 * 30/60, the lamp 0.1 * 20/60.
    shares = dict(zip((suspect.name for suspect in PRIOR.suspects), PRIOR.shares, strict=True))
    pair = shares["heater:open + lamp:open"]
    assert pair / shares["heater:open"] == pytest.approx(FAULTY * 20.0 / 60.001, rel=1e-9)


def test_two_faults_of_one_thing_are_no_pair() -> None:
    assert Suspect(("heater:open", "heater:grounded")) not in PRIOR.suspects


def test_pairs_too_rare_to_list_are_handed_to_not_on_this_sheet() -> None:
    assert not any("wire:open" in suspect.faults for suspect in PRIOR.suspects[PRIOR.singles :])
    assert 0.0 < PRIOR.dropped < LEAST_PAIR_SHARE * len(RATES)
    assert PRIOR.not_on_sheet == pytest.approx(NOT_ON_SHEET_SHARE + PRIOR.dropped)


def test_about_one_call_in_twenty_has_two_faults() -> None:
    many = {f"part {number}:open": 1.0 for number in range(20)}
    prior = make_prior(many, {name: name for name in many})
    singles, pairs = prior.shares[1 : prior.singles].sum(), prior.shares[prior.singles :].sum()
    assert pairs / (singles + pairs) == pytest.approx(0.05, abs=0.005)


def test_a_pair_linked_by_cause_is_as_likely_as_the_link_says_and_all_still_adds_up() -> None:
    # Of the calls with a grounded heater a third have the lamp open too, not FAULTY times a third.
    prior = make_prior(RATES, THINGS, {("heater:grounded", "lamp:open"): 0.3})
    shares = dict(zip((suspect.name for suspect in prior.suspects), prior.shares, strict=True))
    assert shares["heater:grounded + lamp:open"] / shares["heater:grounded"] == pytest.approx(0.3)
    assert prior.shares.sum() + prior.not_on_sheet == pytest.approx(1.0, abs=1e-12)


def test_a_link_the_other_way_round_weighs_by_its_own_cause() -> None:
    prior = make_prior(RATES, THINGS, {("lamp:open", "heater:grounded"): 0.3})
    shares = dict(zip((suspect.name for suspect in prior.suspects), prior.shares, strict=True))
    assert shares["heater:grounded + lamp:open"] / shares["lamp:open"] == pytest.approx(0.3)


def test_a_link_weaker_than_chance_and_one_to_a_fault_that_is_not_there_change_nothing() -> None:
    weak = {
        ("heater:open", "lamp:open"): 1e-6,
        ("heater:open", "gone:open"): 0.5,
        ("heater:open", "heater:grounded"): 0.5,
    }
    assert make_prior(RATES, THINGS, weak).shares == pytest.approx(PRIOR.shares)

"""Faults that come and go: where they show and how often, what share 1 and 0 come to, and what is told of slips."""

import numpy as np
import pytest

from halfsplit.call import Case, Engine
from halfsplit.call.ask import meter_reading
from halfsplit.predict import Predictor, expected, levels
from halfsplit.predict.evidence import density
from halfsplit.techsheet import Machine
from halfsplit.trade import NOTHING_WRONG, Reading, Seen, Suspect
from tests.unit.techsheet.kinds.tiny import machine, symptoms, told

#                          heat    heat warm  stops
SYMPTOMS = {
    "sound": "normal, normal, none",
    "limit:open": "none, none, none",
    "limit:welded": "normal, normal, normal",
    # Sound while cold; warm, it is open more often than not.
    "limit:open-at-times": "normal, none, none",
    "limit:welded-at-times": "normal, normal, normal",
}
OPEN, AT_TIMES = Suspect(("limit:open",)), Suspect(("limit:open-at-times",))
SHARE = "plate warm or too hot, 60 %"


def _warm(found: Machine, *suspects: Suspect) -> np.ndarray:
    """Chance of each level of "heat warm", shape (4, S)."""
    return levels(Predictor(found, suspects), found.functions["heat warm"], found.setups["warm"])


def test_faults_that_come_and_go_show_as_written_down() -> None:
    shown = symptoms(machine("comesandgoes"), "limit")
    assert {name: shown[name] for name in SYMPTOMS} == SYMPTOMS


def test_the_sentence_says_when_and_how_often() -> None:
    faults = machine("comesandgoes").faults
    plain = faults["limit:open"].says
    assert faults[AT_TIMES.name].says == f"{plain}, but only with plate warm or too hot, and then 60 % of the time"
    assert faults["limit:welded-at-times"].says.endswith(", but only with plate too hot")


def test_a_level_is_that_of_the_fault_and_of_the_sound_machine_by_its_share() -> None:
    mixed, plain, sound = _warm(machine("comesandgoes"), AT_TIMES, OPEN, NOTHING_WRONG).T
    assert mixed == pytest.approx(0.6 * plain + 0.4 * sound)


def test_where_its_state_does_not_hold_it_is_the_sound_machine() -> None:
    found = machine("comesandgoes")
    shown = levels(Predictor(found, (AT_TIMES, NOTHING_WRONG)), found.functions["heat"], found.setups["cold"])
    assert shown[:, 0] == pytest.approx(shown[:, 1])


@pytest.mark.parametrize(("share", "same_as"), [("100 %", OPEN), ("0 %", NOTHING_WRONG)])
def test_share_one_is_the_plain_fault_and_share_nothing_the_sound_machine(share: str, same_as: Suspect) -> None:
    shown = _warm(machine("comesandgoes", ("60 %", share)), AT_TIMES, same_as)
    assert shown[:, 0] == pytest.approx(shown[:, 1])


def test_a_reading_fits_by_both_and_contradicts_only_what_neither_gives() -> None:
    found = machine("comesandgoes")
    pair = ("heater.1", "heater.2")
    value = expected(Predictor(found, (AT_TIMES, OPEN, NOTHING_WRONG)), (pair,), "volts", found.setups["warm"])
    mixed, plain, sound = density(Reading(pair, "volts", "warm", 118.0), value)
    assert sound > 0.0
    assert mixed == pytest.approx(0.6 * plain + 0.4 * sound)


def test_two_that_come_and_go_are_all_four_ways_together() -> None:
    twice = ("heater: {kind: heater,", 'heater: {kind: heater, intermittent: {open: "plate warm, 50 %"},')
    both = Suspect(("limit:open-at-times", "heater:open-at-times"))
    mixed, plain, sound = _warm(machine("comesandgoes", twice), both, OPEN, NOTHING_WRONG).T
    assert mixed[3 - 1] == pytest.approx(0.2 * sound[2] + 0.8 * plain[2], abs=1e-3)


def test_seen_to_heat_when_warm_and_later_not_it_is_the_one_that_comes_and_goes() -> None:
    found = machine("comesandgoes")
    case = Case().plus(Seen("heat warm", "normal", "technician", "warm"))
    case = case.plus(Reading(("heater.1", "heater.2"), "volts", "warm", 0.0))
    weighed = Engine(found).weigh(case)
    assert weighed.belief.shares.sum() + weighed.belief.not_on_sheet == pytest.approx(1.0)
    share = dict(zip(weighed.suspects, weighed.belief.shares, strict=True))
    assert share[AT_TIMES] > 3.0 * share[OPEN]
    consistent = dict(zip(weighed.suspects, weighed.consistent(), strict=True))
    assert (consistent[AT_TIMES], consistent[OPEN], consistent[NOTHING_WRONG]) == (True, False, False)


def test_the_meter_tells_of_the_looks_without_the_fault() -> None:
    found = machine("comesandgoes")
    (other,) = meter_reading(found, "warm", ("heater.1", "heater.2"), "volts", AT_TIMES.faults).others
    assert other.away
    assert other.share == pytest.approx(0.4)
    assert other.value == pytest.approx(117.1, abs=0.1)


@pytest.mark.parametrize(
    ("written", "said"),
    [
        (
            "plate warm",
            "'plate warm' does not say when it is there. "
            "Write the state, a comma and the share of the time, as in `air warm, 60 %`.",
        ),
        ("plate wram, 60 %", "'plate' has no position 'wram'. Did you mean 'warm'?"),
    ],
)
def test_each_slip_is_told(written: str, said: str) -> None:
    assert told("comesandgoes", (SHARE, written)) == [said]


def test_a_fault_that_is_none_and_one_that_cannot_come_and_go_are_told() -> None:
    assert told("comesandgoes", ('{open: "', '{opne: "')) == ["'limit' has no fault 'opne'. Did you mean 'open'?"]
    drifted = ("heater: {kind: heater,", 'heater: {kind: heater, intermittent: {drifted: "plate warm, 50 %"},')
    assert told("comesandgoes", drifted) == [
        "The fault 'heater:drifted' cannot come and go. Name one that only opens or closes a way for the current."
    ]

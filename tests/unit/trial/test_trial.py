"""Blind trials: the same seed gives the same calls, clean people tell the truth, costs add up, ours beats the peers."""

from dataclasses import replace

import numpy as np
import pytest

from halfsplit.call import Case, engine_for
from halfsplit.nextcheck import Rates, plan
from halfsplit.predict import levels
from halfsplit.techsheet import load_machine
from halfsplit.trade import LEVELS, Look, Measure, Reading, Seen, Suspect
from halfsplit.trial import CLEAN, NOISY, STRATEGIES, Noise, Outcome, against_exact, run_case, score, trial
from halfsplit.trial.people import answer, complaint, draw_truth, mistaken_sheet, world
from halfsplit.trial.strategies import HAND_BACK, Move

ENGINE = engine_for(load_machine("dryer"), Case())
MACHINE = ENGINE.machine


def test_the_same_seed_draws_the_same_calls_and_another_seed_other_ones() -> None:
    first = trial(ENGINE, 4, 7, NOISY, ("halfsplit",))
    assert trial(ENGINE, 4, 7, NOISY, ("halfsplit",)) == first
    assert [it.truth for it in trial(ENGINE, 12, 8, NOISY, ("halfsplit",))][:4] != [it.truth for it in first]


def test_every_strategy_meets_the_same_hidden_faults() -> None:
    outcomes = trial(ENGINE, 2, 3, CLEAN, ("halfsplit", "share over cost"))
    by_strategy = {
        name: [it.truth for it in outcomes if it.strategy == name] for name in ("halfsplit", "share over cost")
    }
    assert by_strategy["halfsplit"] == by_strategy["share over cost"]


def test_clean_customers_tell_what_is_so_and_wrong_ones_tell_something_else() -> None:
    rng = np.random.default_rng(1)
    for _ in range(30):
        hidden = world(ENGINE, draw_truth(ENGINE, rng))
        if not hidden.truth.faults:
            continue
        for seen in complaint(ENGINE, hidden, CLEAN, rng):
            assert seen.by == "customer"
            assert seen.level == hidden.level(seen.function, MACHINE.setups[seen.setup])
        for seen in complaint(ENGINE, hidden, Noise(1.0, 0, 0, 0), rng):
            assert seen.level in LEVELS
    lies = complaint(ENGINE, world(ENGINE, Suspect(("heater:open",))), Noise(1.0, 0, 0, 0), rng)
    truths = {"drum turns": "normal", "heat": "none"}
    assert all(seen.level != truths[seen.function] for seen in lies if seen.function in truths)


def test_a_hidden_truth_is_one_that_somebody_would_call_about() -> None:
    rng = np.random.default_rng(2)
    sound = {
        f.name: int(levels(ENGINE.singles, f, MACHINE.setups[f.setup])[:, 0].argmax())
        for f in MACHINE.functions.values()
    }
    for _ in range(20):
        truth = draw_truth(ENGINE, rng)
        hidden = world(ENGINE, truth)
        shown = {
            f.name: LEVELS.index(hidden.level(f.name, MACHINE.setups[f.setup])) for f in MACHINE.functions.values()
        }
        assert (shown != sound) == bool(truth.faults)


def test_a_clean_technician_reads_within_the_meters_spread_and_a_mistaken_one_does_not() -> None:
    hidden = world(ENGINE, Suspect(("heater:open",)))
    across = Measure(("heater.1", "heater.2"), "ohms", "dead")
    supply = Measure(("TB.L1", "TB.L2"), "volts", "resting")
    rng = np.random.default_rng(3)
    assert answer(hidden, across, CLEAN, rng) == Reading(across.points, "ohms", "dead", np.inf)
    read = [answer(hidden, supply, CLEAN, rng) for _ in range(50)]
    assert all(isinstance(it, Reading) and abs(it.value - 240) < 6 * 6.5 for it in read)
    mistaken = [answer(hidden, supply, Noise(0, 0, 1.0, 0), rng) for _ in range(50)]
    assert sum(isinstance(it, Reading) and it.value == 0.0 for it in mistaken) > 20
    looked = answer(hidden, Look("heat", "running"), CLEAN, rng)
    assert looked == Seen("heat", "none", "technician", "running")


def _played(monkeypatch: pytest.MonkeyPatch, truth: Suspect, *changes: str | None) -> Outcome:
    """A call on which these things are changed one after the other, whatever is seen; None hands it on."""
    moves = iter([Move(change=change, share=0.9) for change in changes])
    monkeypatch.setitem(STRATEGIES, "scripted", lambda engine, case, rng: next(moves))
    told = Case(evidence=(Seen("drum lamp", "none", "customer", "door open"),))
    return run_case(ENGINE, world(ENGINE, truth), told, "scripted", CLEAN, np.random.default_rng(5))


LAMP = Suspect(("lamp:open",))


def test_changing_the_right_part_first_costs_its_price_and_time_and_no_more(monkeypatch: pytest.MonkeyPatch) -> None:
    rates, end = Rates(), _played(monkeypatch, LAMP, "lamp", HAND_BACK)
    minutes = 2.0 + rates.test_run_minutes  # the sheet: 2 min for the lamp, its zone needs no opening
    assert (end.first_right, end.wrong_parts, end.cured, end.minutes) == (True, 0, True, minutes)
    assert end.money == pytest.approx(6.0 + minutes * rates.minute)


def test_a_part_changed_in_vain_costs_more(monkeypatch: pytest.MonkeyPatch) -> None:
    plain = _played(monkeypatch, LAMP, "lamp", HAND_BACK)
    vain = _played(monkeypatch, LAMP, "door", "lamp", HAND_BACK)
    assert (vain.first_right, vain.wrong_parts, vain.cured) == (False, 1, True)
    assert vain.money > plain.money + Rates().wrong_part


def test_a_sick_machine_handed_back_is_called_back_for_and_can_still_be_cured(monkeypatch: pytest.MonkeyPatch) -> None:
    plain = _played(monkeypatch, LAMP, "lamp", HAND_BACK)
    handed = _played(monkeypatch, LAMP, HAND_BACK, "lamp", HAND_BACK)
    assert (handed.first_right, handed.cured, handed.callbacks) == (False, True, 1)
    assert handed.money == pytest.approx(plain.money + Rates().callback)


def test_two_faults_are_cured_only_when_both_are_changed(monkeypatch: pytest.MonkeyPatch) -> None:
    both = Suspect(("lamp:open", "heater:open"))
    half = _played(monkeypatch, both, "lamp", None)
    assert (half.cured, half.left) == (False, ("heater:open",))
    whole = _played(monkeypatch, both, "lamp", "heater", HAND_BACK)
    assert (whole.cured, whole.left, whole.wrong_parts) == (True, (), 0)


def test_a_fault_that_nobody_sees_may_stay_and_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    end = _played(monkeypatch, Suspect(("lamp:open", "belt switch:1-2-welded")), "lamp", HAND_BACK)
    assert (end.cured, end.left) == (True, ("belt switch:1-2-welded",))


def test_a_call_that_is_handed_on_is_not_cured(monkeypatch: pytest.MonkeyPatch) -> None:
    end = _played(monkeypatch, LAMP, None)
    assert (end.first_right, end.cured, end.money) == (False, False, Rates().refer)


def test_after_the_first_of_two_faults_is_mended_ours_looks_on_and_finds_the_second() -> None:
    told = (Seen("drum turns", "none", "customer", "running"),)
    hidden = world(ENGINE, Suspect(("belt switch:1-2-open", "heater:open")))
    end = run_case(ENGINE, hidden, Case(evidence=told), "halfsplit", CLEAN, np.random.default_rng(5))
    assert (end.cured, end.left, end.wrong_parts) == (True, (), 0)


def test_ours_is_right_first_oftener_and_cheaper_than_a_fixed_order_on_clean_calls() -> None:
    outcomes = trial(ENGINE, 12, 1, CLEAN, ("halfsplit", "fixed order"))
    ours, fixed = (score([it for it in outcomes if it.strategy == name]) for name in ("halfsplit", "fixed order"))
    assert ours.first_right > fixed.first_right
    assert ours.money < fixed.money
    assert ours.live < fixed.live


def test_every_strategy_comes_to_an_end() -> None:
    for name in STRATEGIES:
        hidden = world(ENGINE, Suspect(("thermal cut-off:open",)))
        told = (Seen("heat", "none", "customer", "running"),)
        end = run_case(ENGINE, hidden, Case(evidence=told), name, NOISY, np.random.default_rng(5))
        assert isinstance(end, Outcome)
        assert end.checks <= 30


def test_two_faults_are_hidden_when_asked_for() -> None:
    rng = np.random.default_rng(4)
    assert all(len(draw_truth(ENGINE, rng, two=True).faults) == 2 for _ in range(10))


def test_a_mistaken_sheet_differs_from_the_machine_in_the_ohms_of_one_part_and_nothing_else() -> None:
    real = mistaken_sheet(ENGINE, np.random.default_rng(6))
    pairs = list(zip(MACHINE.network.branches, real.network.branches, strict=True))
    (there,) = [(one, other) for one, other in pairs if one != other]
    assert there[1].ohm / there[0].ohm in (pytest.approx(0.6), pytest.approx(1.7))
    assert replace(real, network=MACHINE.network) == MACHINE


def test_the_planner_is_set_beside_the_least_cost_there_is() -> None:
    found = against_exact(8, plan)
    assert found.repairs == 8
    assert 1.0 - 1e-9 <= found.mean <= found.worst < 1.06

"""The answer to "what now?": suspects, reasons, the next check, and the end."""

import pytest

from halfsplit.call import BY_HAND, DEAD, LIVE, LOOKING, Case, advise, told
from halfsplit.call.engine import engine_for
from halfsplit.nextcheck import Rates
from halfsplit.techsheet import load_machine
from halfsplit.trade import Look, Measure, Reading, Seen

DRYER = load_machine("dryer")
NO_HEAT = Case().plus(*told(DRYER, "no heat"))
HEATER = ("heater.1", "heater.2")
CUT_OFF = ("thermal cut-off.1", "thermal cut-off.2")
HEATS_NOT = Seen("heat", "none", "technician", "running")
TURNS = Seen("drum turns", "normal", "technician", "running")
PROVED = NO_HEAT.plus(
    HEATS_NOT, TURNS, Reading(HEATER, "ohms", "dead", 10.7), Reading(CUT_OFF, "ohms", "dead", float("inf"))
)


def test_before_anything_is_seen_the_commonest_faults_lead() -> None:
    advice = advise(DRYER, Case())
    assert [view.suspect.name for view in advice.suspects[:2]] == ["heater:open", "thermal cut-off:open"]
    assert advice.ending == "keep looking"
    assert advice.next is not None


def test_shares_of_all_suspects_and_of_none_add_up_to_one() -> None:
    advice = advise(DRYER, NO_HEAT, most=10_000)
    listed = sum(view.share for view in advice.suspects)
    assert listed + advice.idle_pairs + advice.not_on_sheet == pytest.approx(1.0, abs=1e-9)


def test_a_proved_part_ends_the_search_once_its_reading_was_taken_again() -> None:
    again = advise(DRYER, PROVED).next
    assert again is not None
    assert (again.action, again.title.endswith("once more")) == (Measure(CUT_OFF, "ohms", "dead"), True)
    advice = advise(DRYER, PROVED.plus(Reading(CUT_OFF, "ohms", "dead", float("inf"))))
    assert (advice.ending, advice.blamed, advice.next) == ("one part", ("thermal cut-off",), None)
    assert advice.says == (
        "It is the thermal cut-off: the thermal cut-off has opened, so something let it get too hot."
    )
    assert advice.others == ()


def test_reasons_name_every_item_for_and_against() -> None:
    heater = next(view for view in advise(DRYER, PROVED, most=10_000).suspects if view.suspect.name == "heater:open")
    assert [reason.supports for reason in heater.reasons] == [True, True, True, True, False, False]
    read = heater.reasons[4]
    assert read.contradicts
    assert str(read) == (
        "heater.1 to heater.2 reads 10.7 Ω, unplugged, door shut, timer on timed dry, high: cannot be (it would be OL)."
    )
    assert not heater.consistent


def test_bits_say_how_strongly_an_item_speaks() -> None:
    lead = advise(DRYER, PROVED).suspects[0]
    assert lead.reasons[1].bits >= 0.0
    against = next(view for view in advise(DRYER, PROVED, most=10_000).suspects if view.suspect.name == "heater:open")
    assert against.reasons[4].bits < -5.0


def test_the_outcomes_of_a_check_say_what_they_would_mean() -> None:
    advice = advise(DRYER, NO_HEAT.plus(HEATS_NOT, TURNS))
    check = advice.next
    assert check is not None
    assert sum(view.chance for view in check.outcomes) == pytest.approx(1.0, abs=0.03)
    assert all(view.label for view in check.outcomes)
    assert "USD" in check.why or check.why.startswith("Nothing splits")


def test_what_was_skipped_or_cannot_be_reached_is_not_proposed_again() -> None:
    case = NO_HEAT.plus(HEATS_NOT, TURNS)
    first = advise(DRYER, case).next
    assert first is not None
    skipped = advise(DRYER, case.skip(first.action)).next
    assert skipped is not None and skipped.action != first.action
    if isinstance(first.action, Measure):
        blocked = advise(DRYER, case.cannot_reach(*first.action.points))
        proposed = [check for check in (blocked.next, *blocked.others) if check is not None]
        assert not any(
            isinstance(check.action, Measure) and set(check.action.points) & set(first.action.points)
            for check in proposed
        )


def test_what_the_customer_said_may_still_be_looked_at() -> None:
    asked = {check.action for check in (advise(DRYER, NO_HEAT).next, *advise(DRYER, NO_HEAT).others) if check}
    assert Look("heat", "running") in asked
    seen = advise(DRYER, NO_HEAT.plus(HEATS_NOT))
    assert Look("heat", "running") not in {check.action for check in (seen.next, *seen.others) if check}


def test_every_check_carries_the_caution_that_belongs_to_it() -> None:
    from halfsplit.call import caution_of

    engine = engine_for(DRYER, Case())
    assert caution_of(engine, Look("heat", "running")) == LOOKING
    assert caution_of(engine, Look("vent is clear", "dead timer off")) == BY_HAND
    assert caution_of(engine, Measure(HEATER, "ohms", "dead")) == DEAD
    assert caution_of(engine, Measure(HEATER, "volts", "running")) == LIVE


def test_dear_time_asks_for_fewer_checks() -> None:
    case = NO_HEAT.plus(HEATS_NOT, TURNS)
    cheap, dear = (advise(DRYER, case, Rates(minute=rate)) for rate in (0.2, 60.0))
    assert cheap.next is not None
    assert dear.cost > cheap.cost
    assert dear.next is None or dear.next.minutes <= cheap.next.minutes


def test_two_symptoms_with_nothing_in_common_call_for_two_faults() -> None:
    lamp = (
        Seen("drum lamp", "none", "technician", "door open"),
        Reading(("lamp.1", "lamp.2"), "ohms", "dead", float("inf")),
    )
    advice = advise(DRYER, NO_HEAT.plus(HEATS_NOT, TURNS, *lamp))
    assert all(len(view.suspect.faults) == 2 for view in advice.suspects if view.consistent)
    assert [view.suspect.name for view in advice.suspects[:2]] == [
        "lamp:open + heater:open",
        "lamp:open + thermal cut-off:open",
    ]
    # The lamp is known, so the next check is about the heat.
    assert advice.next is not None
    assert advice.next.action not in {Look("drum lamp", "door open")}


def test_a_pair_of_which_one_fault_explains_all_is_counted_but_not_listed() -> None:
    advice = advise(DRYER, PROVED, most=10_000)
    assert advice.idle_pairs > 0.01
    assert "thermal cut-off:open + heater:open" not in {view.suspect.name for view in advice.suspects}


def test_a_group_may_hold_nothing_wrong_and_says_so() -> None:
    # The customer complains of a contact that closes only hot; nothing else is amiss.
    case = Case().plus(*told(DRYER, "auto never ends"))
    for function, level in {"heat": "normal", "drum turns": "normal", "timer advances": "normal"}.items():
        case = case.plus(Seen(function, level, "technician", "running"))  # type: ignore[arg-type]
    for function in DRYER.functions:
        case = case.skip(Look(function, DRYER.functions[function].setup))
    case = case.cannot_reach(*DRYER.points)
    advice = advise(DRYER, case)
    assert advice.ending == "group"
    assert "auto thermostat" in advice.blamed
    assert advice.says.startswith("No check worth its time can part these: ")

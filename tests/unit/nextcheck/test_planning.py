"""Time, hazard, remedies and proofs on the dryer."""

import numpy as np
import pytest

from halfsplit.call import Case
from halfsplit.call.engine import engine_for
from halfsplit.nextcheck import (
    TO_ELECTRICIAN,
    Rates,
    act_minutes,
    check_minutes,
    is_live,
    looked_at_first,
    mend_of,
    proofs,
    remedies,
    remedy_name,
    zone_minutes,
    zones_of,
    zones_opened,
)
from halfsplit.predict import Outcomes
from halfsplit.techsheet import load_machine
from halfsplit.trade import NOT_ON_SHEET, NOTHING_WRONG, Look, Measure, Suspect

DRYER = load_machine("dryer")
HEATER = Measure(("heater.1", "heater.2"), "ohms", "dead timer off")
STRING = Measure(("TB.L1", "heater.1"), "ohms", "dead timer off")


def test_a_check_takes_its_act_its_setup_and_its_covers() -> None:
    # 2 min of ohms, one step; rear panel 5 + 5, terminal cover 2 + 2.
    assert act_minutes(DRYER, HEATER) == pytest.approx(2.1)
    assert check_minutes(DRYER, HEATER, frozenset()) == pytest.approx(12.1)
    assert check_minutes(DRYER, STRING, frozenset({"rear panel"})) == pytest.approx(6.1)
    assert zone_minutes(DRYER, ["cabinet"]) == 16.0


def test_waiting_for_warm_air_is_time_too() -> None:
    assert act_minutes(DRYER, Look("overheats", "running warm")) > 15.0


def test_a_look_is_made_with_the_covers_on() -> None:
    assert zones_of(DRYER, Look("heat", "running")) == frozenset()
    assert zones_opened(DRYER, [Look("heat", "running"), STRING]) == {"rear panel", "terminal cover"}


def test_a_clamp_goes_round_a_wire_at_the_end_that_is_quicker_to_reach() -> None:
    # Terminal cover 2 + 2 min, cabinet 8 + 8.
    wire = ("motor.2", "TB.L2")
    assert zones_of(DRYER, Measure(wire, "volts", "running")) == {"cabinet", "terminal cover"}
    assert zones_of(DRYER, Measure(wire, "amps", "running")) == {"terminal cover"}


def test_only_probes_on_a_live_machine_are_live() -> None:
    assert not is_live(Look("heat", "running"))
    assert not is_live(HEATER)
    assert is_live(Measure(("TB.L1", "TB.L2"), "volts", "running"))
    assert is_live(Measure(("motor.2", "TB.L2"), "amps", "running"))


def test_a_remedy_is_what_is_done_not_what_it_is_done_to() -> None:
    # A tripped breaker is reset, an open pole is not cured by that: it is fixed wiring, and handed on.
    suspects = (Suspect(("breaker:tripped",)), Suspect(("breaker:pole-1-open",)), NOTHING_WRONG, NOT_ON_SHEET)
    made = remedies(DRYER, suspects, frozenset(), Rates())
    assert made.names == ("breaker", "house", "")
    assert made.cured_by.tolist() == [0, 1, 2, -1]
    reset, hand_on, hand_back = made.costs
    assert reset == pytest.approx((2 + 5) * 1.5)
    assert hand_on == pytest.approx((15 + 5) * 1.5)
    assert hand_back == pytest.approx(5 * 1.5)
    assert made.failing.tolist() == [15.0, 15.0, 120.0]


def test_faults_of_one_part_are_one_remedy_until_each_can_be_looked_at() -> None:
    suspects = (Suspect(("selector:S-H-open",)), Suspect(("selector:S-D-open",)), NOT_ON_SHEET)
    looks = {"selector:S-H-open": HEATER, "selector:S-D-open": STRING}
    assert remedies(DRYER, suspects, frozenset(), Rates()).cured_by.tolist() == [0, 0, -1]
    looked = looked_at_first(DRYER, suspects, looks, frozenset(), Rates())
    assert looked.cured_by.tolist() == [0, 1, -1]
    assert looked.looks == ((HEATER,), (STRING,))
    assert looked.looking == pytest.approx([2.1 * 1.5, 2.1 * 1.5])


def test_a_pair_is_looked_at_by_looking_at_both() -> None:
    pair = Suspect(("heater:open", "selector:S-H-open"))
    looks = {"heater:open": HEATER, "selector:S-H-open": STRING}
    both = looked_at_first(DRYER, (pair, NOT_ON_SHEET), looks, frozenset(), Rates())
    one = looked_at_first(DRYER, (pair, NOT_ON_SHEET), {"heater:open": HEATER}, frozenset(), Rates())
    assert both.looks == ((HEATER, STRING),)
    assert one.looks == ((),)
    assert np.isinf(one.looking[0])
    assert remedy_name(DRYER, pair) == "heater + selector"


def test_open_covers_cost_nothing_more() -> None:
    shut, opened = (remedies(DRYER, (NOTHING_WRONG, NOT_ON_SHEET), it, Rates()) for it in (set(), {"rear panel"}))
    place = list(DRYER.zones).index("rear panel")
    assert shut.opening[place] == 15.0
    assert opened.opening[place] == 0.0


def test_a_check_proves_a_thing_when_no_other_gives_that_outcome() -> None:
    suspects = (NOTHING_WRONG, *(Suspect((name,)) for name in ("heater:open", "heater:grounded", "lamp:open")))
    # OL for both faults of the heater and nothing else; 0 for the lamp, and for a sound machine too.
    told = Outcomes(HEATER, ("0", "OL"), np.array([[0.97, 0.03, 0.03, 0.97], [0.03, 0.97, 0.97, 0.03]]))
    unsure = Outcomes(STRING, ("0", "OL"), np.array([[0.97, 0.97, 0.97, 0.4], [0.03, 0.03, 0.03, 0.6]]))
    assert proofs(DRYER, suspects, (told, unsure)) == {"heater:open": (HEATER,), "heater:grounded": (HEATER,)}


def test_the_quickest_proof_comes_first() -> None:
    proved = engine_for(DRYER, Case()).proofs
    assert proved["heater:open"][0] == HEATER
    for actions in proved.values():
        minutes = [check_minutes(DRYER, action, frozenset()) for action in actions]
        assert minutes == sorted(minutes)


def test_most_faults_of_the_dryer_can_be_proved_by_one_check() -> None:
    assert len(engine_for(DRYER, Case()).proofs) > 80


def test_the_fixed_wiring_of_the_house_is_one_thing_for_a_licensed_person() -> None:
    house = ["house:lost-L2", "breaker:pole-2-open", "house.L2-breaker.2:joint-2", "breaker.4-outlet.L2:open"]
    mends = [mend_of(DRYER, name) for name in house]
    assert {mend.thing for mend in mends} == {"house"}
    assert {mend.says for mend in mends} == {TO_ELECTRICIAN}
    assert {mend.price for mend in mends} == {0.0}


def test_what_the_supplier_must_do_at_once_is_said_as_the_sheet_says_it() -> None:
    assert mend_of(DRYER, "house:open-service-neutral").says == DRYER.faults["house:open-service-neutral"].mend


@pytest.mark.parametrize("name", ["breaker:tripped", "plug:L1-open", "plug.L1-TB.L1:open", "heater:open"])
def test_a_reset_and_everything_from_the_plug_on_is_the_technicians(name: str) -> None:
    fault, mend = DRYER.faults[name], mend_of(DRYER, name)
    assert (mend.thing, mend.says, mend.price, mend.minutes) == (fault.thing, fault.mend, fault.price, fault.minutes)

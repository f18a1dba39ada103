"""Degrees of one fault are one suspect, with its degree."""

import pytest

from halfsplit.call import Case, advise, told
from halfsplit.call.degrees import by_whole, says_in_degrees
from halfsplit.call.engine import engine_for
from halfsplit.techsheet import load_machine
from halfsplit.trade import Reading

DRYER = load_machine("dryer")
WIRE = "high limit.2-heater.1"
ALONG = ("high limit.2", "heater.1")


def _after(ohm: float) -> Case:
    return Case().plus(*told(DRYER, "weak heat"), Reading(ALONG, "ohms", "dead", ohm))


def test_a_joint_is_one_suspect_whatever_its_degree() -> None:
    views = advise(DRYER, Case().plus(*told(DRYER, "weak heat")), most=10_000).suspects
    alone = [view for view in views if view.things == (WIRE,) and len(view.suspect.faults) == 1]
    assert sorted(view.suspect.faults[0].partition(":")[2][:5] for view in alone) == ["joint", "open"]


def test_its_share_is_that_of_all_degrees() -> None:
    case = Case().plus(*told(DRYER, "weak heat"))
    weighed = engine_for(DRYER, case).weigh(case)
    degrees = [
        float(share)
        for suspect, share in zip(weighed.suspects, weighed.belief.shares, strict=True)
        if len(suspect.faults) == 1 and suspect.faults[0].startswith(f"{WIRE}:joint")
    ]
    (view,) = (
        view
        for view in advise(DRYER, case, most=10_000).suspects
        if len(view.suspect.faults) == 1 and view.suspect.faults[0].startswith(f"{WIRE}:joint")
    )
    assert view.share == pytest.approx(sum(degrees))


@pytest.mark.parametrize(("ohm", "degree"), [(2.0, "2 Ω"), (1.1, "2 Ω"), (4.0, "2 Ω"), (20.0, "20 Ω"), (35.0, "20 Ω")])
def test_a_joint_between_two_degrees_is_taken_for_the_nearer_one(ohm: float, degree: str) -> None:
    best = advise(DRYER, _after(ohm)).suspects[0]
    assert best.things == (WIRE,)
    assert best.says.endswith(f"has a loose or burnt joint, about {degree}")
    assert best.consistent


def test_degrees_that_are_both_likely_are_both_named() -> None:
    weighed = engine_for(DRYER, Case()).weigh(Case())
    joints = [
        place
        for place, suspect in enumerate(weighed.suspects)
        if len(suspect.faults) == 1 and suspect.faults[0].startswith(f"{WIRE}:joint")
    ]
    (group,) = by_whole(DRYER, weighed.suspects, joints)
    said = says_in_degrees(DRYER, weighed.suspects, group, weighed.belief.shares)
    assert (
        said
        == "the yellow/red wire high limit.2 to heater.1 has a loose or burnt joint, about 0.2 Ω or 2 Ω or 20 Ω or 1 kΩ"
    )


def test_mending_is_the_same_for_every_degree_and_the_rates_say_where_they_come_from() -> None:
    joints = [fault for fault in DRYER.faults.values() if fault.whole == f"{WIRE}:joint"]
    assert len(joints) == 4
    assert len({(fault.mend, fault.price, fault.minutes) for fault in joints}) == 1
    assert {fault.origin for fault in joints} == {"common practice, from memory"}

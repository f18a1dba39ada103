"""What is on the truck, what a second trip costs, what the customer will spend; and all of it in a case file."""

from dataclasses import replace

import pytest

from halfsplit.call import Case, advise, read_case, write_case
from halfsplit.errors import SheetError
from halfsplit.nextcheck import Rates, remedies
from halfsplit.techsheet import load_machine
from halfsplit.trade import NOT_ON_SHEET, Reading, Seen, Suspect

DRYER = load_machine("dryer")
COLD = Seen("heat", "none", "technician", "running")
OPEN = Reading(("thermal cut-off.1", "thermal cut-off.2"), "ohms", "dead", float("inf"))
FOUND = Case().plus(COLD, OPEN)


def test_a_part_that_is_not_on_the_truck_costs_its_return_trip_and_a_mend_without_a_part_does_not() -> None:
    suspects = (Suspect(("heater:open",)), Suspect(("breaker:tripped",)), NOT_ON_SHEET)
    there = remedies(DRYER, suspects, frozenset(), Rates())
    away = remedies(DRYER, suspects, frozenset(), Rates(missing=frozenset({"heater", "breaker"}), return_minutes=40.0))
    assert away.costs - there.costs == pytest.approx([40.0 * 1.5, 0.0])


def test_a_case_that_says_nothing_of_the_truck_has_every_part_on_it() -> None:
    full = replace(FOUND, truck=frozenset(DRYER.parts))
    empty = replace(FOUND, truck=frozenset())
    assert advise(DRYER, FOUND).cost == advise(DRYER, full).cost
    assert advise(DRYER, empty).cost > advise(DRYER, full).cost + 30.0


def test_over_the_customers_limit_the_answer_says_to_stop_and_ask() -> None:
    cost = advise(DRYER, FOUND).cost
    assert "STOP" not in advise(DRYER, replace(FOUND, limit=cost + 1.0)).says
    says = advise(DRYER, replace(FOUND, limit=20.0)).says
    assert f"STOP: expect about {cost:.0f} USD to the end of the repair, over the customer's limit of 20." in says
    assert "Ask the customer before going on" in says


def test_a_case_file_keeps_what_was_changed_the_truck_and_the_limit() -> None:
    case = replace(
        FOUND.change("thermal cut-off").plus(COLD), truck=frozenset({"heater"}), return_minutes=45.0, limit=250.0
    )
    again = read_case(write_case(case, "dryer"), "case.yaml", DRYER)
    pairs = {(item, moment) for item, moment in zip(case.evidence, case.moments, strict=True)}
    assert {(item, moment) for item, moment in zip(again.evidence, again.moments, strict=True)} == pairs
    assert (again.changed, again.truck, again.return_minutes, again.limit) == (
        ("thermal cut-off",),
        frozenset({"heater"}),
        45.0,
        250.0,
    )


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("changed: [heeter]", "There is no 'heeter' to change"),
        ("truck: [heeter]", "There is no part 'heeter'"),
        ("seen: [{function: heat, level: none, after: heater}]", "'heater' is not among what was changed"),
    ],
)
def test_a_slip_in_them_is_one_sentence(line: str, said: str) -> None:
    with pytest.raises(SheetError) as caught:
        read_case(f"case: a slip\nsheet: dryer\n{line}\n", "case.yaml", DRYER)
    assert [problem.what for problem in caught.value.problems] == [f"{said}."]

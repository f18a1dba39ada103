"""The order of elimination, on integers alone. Points 0 and 1 are poles in all of these."""

from __future__ import annotations

from halfsplit.circuit.plan import Plan, make_plan


def _shape(plan: Plan) -> list[tuple[int, list[int], list[int]]]:
    """Point, neighbours and edges that take the fill, step by step."""
    return [(step.point, step.neighbours.tolist(), step.fill.tolist()) for step in plan.steps]


def test_a_string_between_two_poles_is_taken_point_by_point() -> None:
    plan = make_plan([(0, 2), (2, 3), (3, 1)], points=4, poles=2)
    assert _shape(plan) == [(2, [0, 3], [3]), (3, [0, 1], [])]
    assert plan.edges == 4


def test_the_point_with_fewest_neighbours_goes_first() -> None:
    plan = make_plan([(0, 2), (1, 2), (2, 3), (3, 4)], points=5, poles=2)
    assert [step.point for step in plan.steps] == [4, 3, 2]


def test_fill_lands_on_the_edge_that_is_there_already() -> None:
    plan = make_plan([(0, 2), (0, 3), (2, 3), (3, 1)], points=4, poles=2)
    assert _shape(plan)[0] == (2, [0, 3], [1])
    assert plan.edges == 4


def test_parallel_branches_share_an_edge_whichever_way_round_they_are_written() -> None:
    plan = make_plan([(0, 2), (2, 1), (2, 0), (1, 2), (0, 2)], points=3, poles=2)
    assert plan.branch_order.tolist() == [0, 2, 4, 1, 3]
    assert plan.edge_starts.tolist() == [0, 3]
    assert plan.edges == 2


def test_what_joins_two_poles_takes_no_part() -> None:
    plan = make_plan([(0, 1), (0, 2), (2, 1)], points=3, poles=2)
    assert _shape(plan) == [(2, [0, 1], [])]
    assert plan.edges == 3


def test_a_branch_from_a_point_to_itself_joins_nothing() -> None:
    plan = make_plan([(0, 2), (2, 2)], points=3, poles=2)
    assert _shape(plan) == [(2, [0], [])]

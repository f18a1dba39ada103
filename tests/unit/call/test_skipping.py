"""A check that was skipped is not offered again in another setup where it would tell just as much."""

from halfsplit.call import Case, action_of, advise, engine_for, offered_checks
from halfsplit.techsheet import load_machine
from halfsplit.trade import Measure, Reading

MACHINE = load_machine("dryer")


def test_the_same_points_are_not_offered_in_an_equal_setup_after_skip() -> None:
    engine = engine_for(MACHINE, Case())
    group = next(
        group
        for group in engine.checks
        if len({action.setup for action in group if isinstance(action, Measure)}) > 1
        and len({action.points for action in group if isinstance(action, Measure)}) == 1
    )
    offered = offered_checks(MACHINE, (group,), Case(), frozenset())
    assert len(offered) == 1
    assert offered_checks(MACHINE, (group,), Case().skip(offered[0]), frozenset()) == ()


def test_skipping_the_proposed_check_brings_another_place() -> None:
    case = Case()
    for _ in range(3):
        check = advise(MACHINE, case).next
        assert check is not None
        case = case.skip(check.action)
        following = advise(MACHINE, case).next
        assert following is not None
        assert following.action != check.action


def test_what_was_read_is_not_offered_at_the_same_points_again() -> None:
    engine = engine_for(MACHINE, Case())
    read = Reading(("heater.1", "heater.2"), "ohms", "dead", 10.7)
    group = next(group for group in engine.checks if action_of(read) in group)
    offered = offered_checks(MACHINE, (group,), Case(evidence=(read,)), frozenset())
    assert all(isinstance(action, Measure) and set(action.points) != {"heater.1", "heater.2"} for action in offered)

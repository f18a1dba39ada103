"""Suspects replayed in setups, kept so that nothing is solved twice."""

from halfsplit.predict import Predictor, candidates, is_dead, levels, lifted_wires, share, switch_steps
from halfsplit.techsheet import load_machine
from halfsplit.trade import LEVELS, NOTHING_WRONG, Look, Measure, Setup, Suspect

DRYER = load_machine("dryer")
LIFTS = Setup(
    "x", "x", (("plug", "out"), ("lift", "a-b"), ("timer", "timed dry"), ("lift", "c-d"), ("put back", "a-b"))
)


def test_lifts_are_told_apart_from_steps_that_move_settings() -> None:
    assert lifted_wires(LIFTS) == {"c-d"}
    assert switch_steps(LIFTS) == (("plug", "out"), ("timer", "timed dry"))


def test_an_answer_is_worked_out_once() -> None:
    predictor, asked = Predictor(DRYER, (NOTHING_WRONG,)), []
    for _ in range(3):
        assert predictor.kept("question", lambda: asked.append(1) or "answer") == "answer"
    assert asked == [1]
    assert predictor.has("question")


def test_setups_that_begin_alike_share_their_replay() -> None:
    predictor = Predictor(DRYER, (NOTHING_WRONG,))
    held, running = (predictor.settled(DRYER.setups[name]) for name in ("start held", "running"))
    assert predictor.settled(DRYER.setups["start held"]) is held
    assert predictor.settled(DRYER.setups["running"]) is running


def test_the_sound_machine_is_there_whatever_is_suspected() -> None:
    assert Predictor(DRYER, (Suspect(("heater:open",)),)).healthy.suspects == (NOTHING_WRONG,)
    alone = Predictor(DRYER, (NOTHING_WRONG,))
    assert alone.healthy is alone


def test_a_share_of_rated_power_becomes_a_level_with_soft_edges() -> None:
    # 69 % of rated power through a 2 ohm joint: (10.67 / 12.87)^2 of what the supply leaves.
    predictor = Predictor(
        DRYER, (NOTHING_WRONG, Suspect(("heater:open",)), Suspect(("high limit.2-heater.1:joint-2",)))
    )
    function = DRYER.functions["heat"]
    power = share(predictor, function, DRYER.setups["running"])
    assert 0.9 < power[0] < 1.0 and power[1] < 1e-9 and 0.6 < power[2] < 0.75
    chances = levels(predictor, function, DRYER.setups["running"])
    assert abs(chances.sum(axis=0) - 1.0).max() < 1e-12
    assert [LEVELS[place] for place in chances.argmax(axis=0)] == ["normal", "none", "weak"]


def test_what_a_function_needs_and_what_makes_it_weak() -> None:
    faults = ("blower wheel:loose", "vent:blocked")
    predictor = Predictor(DRYER, tuple(Suspect((fault,)) for fault in faults))
    chances = levels(predictor, DRYER.functions["air at the vent"], DRYER.setups["running"])
    assert [LEVELS[place] for place in chances.argmax(axis=0)] == ["none", "weak"]


def test_candidates_are_safe_and_within_reach() -> None:
    predictor = Predictor(DRYER, (NOTHING_WRONG,))
    actions = candidates(predictor)
    assert len(actions) == len(set(actions))
    for action in actions:
        dead = is_dead(predictor, DRYER.setups[action.setup])
        if isinstance(action, Measure):
            assert (action.mode == "ohms") == dead  # ohms dead, volts live, nothing else
            assert set(action.points) <= set(DRYER.points)
    assert {action.function for action in actions if isinstance(action, Look)} == set(DRYER.functions)


def test_candidates_hold_what_a_technician_would_think_of() -> None:
    ohms = {
        frozenset(action.points)
        for action in candidates(Predictor(DRYER, (NOTHING_WRONG,)))
        if isinstance(action, Measure) and action.mode == "ohms"
    }
    for pair in (
        ("heater.1", "heater.2"),  # across a part
        ("heater.2", "motor.1"),  # along a wire
        ("TB.L1", "high limit.2"),  # half a string
        ("heater.1", "chassis.G"),  # to the cabinet
    ):
        assert frozenset(pair) in ohms
    assert frozenset(("breaker.3", "outlet.L1")) not in ohms  # the house is live with the plug out


def test_a_row_of_the_papers_table_is_a_candidate_though_no_part_lies_between_its_points() -> None:
    predictor = Predictor(load_machine("front-load-washer"), (NOTHING_WRONG,))
    found = [it for it in candidates(predictor) if isinstance(it, Measure)]
    assert found.count(Measure(("motor board.RX", "motor board.0V"), "dc", "washing")) == 1
    at_the_board = [
        it for it in found if set(it.points) == {"main board.L", "main board.N"} and it.setup == "plugged in"
    ]
    assert len(at_the_board) == 1  # in the table and across a part: once

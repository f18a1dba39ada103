"""A case file: every mistake with its line, and nothing lost on the way out and in."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfsplit.call import Case, read_case, told, write_case
from halfsplit.errors import Problem, SheetError
from halfsplit.techsheet import load_machine
from halfsplit.trade import Look, Measure, Reading, Seen, Setup

DRYER = load_machine("dryer")
LIFTED = Setup("lifted", "unplugged, heater lead off", (("plug", "out"), ("lift", "heater.2-motor.1")))
law = settings(derandomize=True, deadline=None, max_examples=100, database=None)


def _problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(SheetError) as told_all:
        read_case(text, "case.yaml", DRYER)
    return told_all.value.problems


def test_everything_comes_back_as_it_went_out() -> None:
    case = Case(
        fixed=(("cord", "3-wire"),),
        setups={"lifted": LIFTED},
        evidence=(
            *told(DRYER, "no heat"),
            Seen("drum lamp", "too much", "technician", "door open"),
            Reading(("heater.1", "heater.2"), "ohms", "lifted", 10.66612345),
            Reading(("TB.L1", "TB.N"), "low-z", "plug in, door open", 1e-05),
            Reading(("thermal cut-off.1", "thermal cut-off.2"), "ohms", "dead", float("inf")),
            Reading(("heater.2", "motor.1"), "amps", "running", 21.9),
        ),
        skipped=frozenset({Look("heat", "running"), Measure(("motor.1", "motor.2"), "volts", "running")}),
        unreachable=frozenset({"motor.4", "motor.5"}),
    )
    assert read_case(write_case(case, "dryer", "no heat"), "case.yaml", DRYER) == case


@law
@given(st.sampled_from(["volts", "low-z", "amps"]), st.floats(0.0, 400.0))
def test_a_reading_keeps_every_digit(mode: str, value: float) -> None:
    points = ("heater.2", "motor.1")
    case = Case().plus(Reading(points, mode, "running", value))  # type: ignore[arg-type]
    assert read_case(write_case(case, "dryer"), "case.yaml", DRYER) == case


@law
@given(st.floats(0.0, 100e6))
def test_ohms_keep_every_digit(value: float) -> None:
    case = Case().plus(Reading(("heater.1", "heater.2"), "ohms", "dead", value))
    assert read_case(write_case(case, "dryer"), "case.yaml", DRYER) == case


def test_a_function_is_seen_in_its_own_setup_by_the_customer_if_nothing_else_is_said() -> None:
    case = read_case("seen:\n  - {function: heat, level: none}\n", "case.yaml", DRYER)
    assert case.evidence == (Seen("heat", "none", "customer", "running"),)


def test_an_empty_case_is_a_case() -> None:
    assert read_case("case: nothing yet\n", "case.yaml", DRYER) == Case()


MISTAKES = """\
case: wrong in every line
sheet: washer
fixed: [cord 5-wire]
setups:
  mine: {steps: [plug sideways]}
seen:
  - {function: haet, level: none}
  - {function: heat, level: nothing}
  - {function: heat, level: none, by: neighbour}
  - {function: heat, level: none, setup: runing}
readings:
  - {points: [heater.1], mode: ohms, setup: dead, reading: OL}
  - {points: [heater.1, heater.1], mode: ohms, setup: dead, reading: OL}
  - {points: [heater.1, heater.9], mode: ohms, setup: dead, reading: OL}
  - {points: [heater.1, heater.2], mode: ohm, setup: dead, reading: OL}
  - {points: [heater.1, heater.2], mode: volts, setup: running, reading: OL}
  - {points: [heater.1, heater.2], mode: volts, setup: running, reading: 12 ohm}
  - {points: [heater.1, heater.2], mode: ohms, setup: running, reading: 12}
  - {points: [heater.1, TB.N], mode: amps, setup: running, reading: 12}
skipped:
  - {function: haet}
  - {points: [heater.1, heater.2], mode: ohm, setup: dead}
unreachable: [motor.44]
"""
TOLD = {
    2: "This case is about the sheet 'washer'.",
    3: "'cord' has no position '5-wire'.",
    5: "'plug' has no position 'sideways'.",
    7: "There is no function 'haet'.",
    8: "'nothing' is not a level.",
    9: "'neighbour' is not an observer.",
    10: "There is no setup 'runing'.",
    12: "A reading is between two points, and 1 are given.",
    13: "Both probes are on heater.1.",
    14: "'heater' has no terminal '9'.",
    15: "'ohm' is not a meter mode.",
    16: "'OL' is an ohms reading, but this check reads V.",
    17: "'12 ohm' is in Ω, but this check reads V.",
    18: "heater.1 is live when it is timed dry, high, start pressed and let go, drum cold: "
    "ohms there would harm the meter or you.",
    19: "No one wire or part joins heater.1 and TB.N.",
    21: "There is no function 'haet'.",
    22: "'ohm' is not a meter mode.",
    23: "'motor' has no terminal '44'.",
}


def test_every_mistake_is_told_at_once_each_at_its_line() -> None:
    found = {problem.line: problem.what for problem in _problems(MISTAKES)}
    assert found == TOLD


def test_every_mistake_says_what_would_be_right() -> None:
    assert all(problem.right for problem in _problems(MISTAKES))
    (heat,) = [problem for problem in _problems(MISTAKES) if problem.line == 7]
    assert heat.right == "Did you mean 'heat'?"


def test_a_key_nobody_knows_and_text_that_is_no_yaml() -> None:
    (problem,) = _problems("case: x\nreadngs: []\n")
    assert problem.line == 2
    assert "readngs" in problem.what
    assert _problems("case: [x\n")[0].file == "case.yaml"

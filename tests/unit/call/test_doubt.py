"""The reading that a part would be changed on is taken once more where it is in doubt, and only once."""

from functools import cache

from halfsplit.call import Advice, Case, advise
from halfsplit.techsheet import load_machine
from halfsplit.trade import Level, Measure, Observer, Reading, Seen

DRYER = load_machine("dryer")
ACROSS = Measure(("timer.B", "timer.U"), "ohms", "dead auto")


def _seen(function: str, level: Level, by: Observer = "technician") -> Seen:
    return Seen(function, level, by, DRYER.functions[function].setup)


def _read(value: float) -> Reading:
    return Reading(ACROSS.points, ACROSS.mode, ACROSS.setup, value)


# A call of the blind trials: the thermostat beside this contact had failed, and the one OL was a bad touch.
CALL = Case().plus(
    _seen("timer advances on auto", "none", "customer"),
    _seen("timer advances", "normal", "customer"),
    *(_seen(function, "normal") for function in ("heat", "air at the vent", "drum lamp", "heat on delicate")),
    _seen("heat with door open", "none"),
    Reading(("start.1", "start.2"), "ohms", "dead medium", 1720.0),
    _read(float("inf")),
)


@cache
def _asked() -> Advice:
    return advise(DRYER, CALL)


def test_before_a_part_is_changed_on_one_reading_it_is_taken_once_more() -> None:
    check = _asked().next
    assert check is not None
    assert check.action == ACROSS
    assert check.title == "Read ohms from timer.B to timer.U once more"
    assert check.why.startswith("Before anything is changed: that reading is mistaken with a share of ")
    assert (_asked().ending, _asked().blamed) == ("keep looking", ())


def test_the_same_again_ends_the_search() -> None:
    again = advise(DRYER, CALL.plus(_read(float("inf"))))
    assert (again.ending, again.blamed, again.next) == ("one part", ("timer",), None)


def test_another_value_opens_it_again() -> None:
    other = advise(DRYER, CALL.plus(_read(0.1)))
    assert other.blamed != ("timer",)


def test_whoever_skips_it_is_not_asked_again() -> None:
    skipped = advise(DRYER, CALL.skip(ACROSS))
    assert (skipped.ending, skipped.blamed) == ("one part", ("timer",))

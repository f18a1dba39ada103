"""Which reading cleared a thing, and on which one the answer hangs."""

from halfsplit.call import Case, told
from halfsplit.call.cleared import Cleared, Turn, cleared, origins, turns
from halfsplit.techsheet import load_machine
from halfsplit.trade import Reading, Seen

DRYER = load_machine("dryer")
SOUND_LAMP = Seen("drum lamp", "normal", "technician", "door open")
CUT_OFF = Reading(("thermal cut-off.1", "thermal cut-off.2"), "ohms", "dead", float("inf"))
NO_HEAT = Case().plus(*told(DRYER, "no heat"))


def test_what_a_customer_says_clears_nothing() -> None:
    assert cleared(DRYER, NO_HEAT) == ()


def test_a_lamp_that_lights_clears_the_lamp_and_the_sentence_says_so() -> None:
    found = cleared(DRYER, NO_HEAT.plus(SOUND_LAMP))
    assert Cleared("lamp", ("Technician: drum lamp is normal, plugged in, door open",)) in found
    assert "heater" not in {it.thing for it in found}


def test_nothing_is_cleared_that_still_has_a_fault_which_fits() -> None:
    # Its contact for the lamp is good; that the other is too, nobody has seen.
    assert "door" not in {it.thing for it in cleared(DRYER, NO_HEAT.plus(SOUND_LAMP))}


def test_the_answer_hangs_on_the_reading_that_gave_it() -> None:
    case = NO_HEAT.plus(CUT_OFF, SOUND_LAMP)
    (turn,) = turns(DRYER, case)
    assert (
        turn.item == "thermal cut-off.1 to thermal cut-off.2 reads OL, unplugged, door shut, timer on timed dry, high"
    )
    assert turn == Turn(turn.item, turns_without(case))


def turns_without(case: Case) -> str:
    """What leads when the reading of the cut-off is taken back, by its own evidence."""
    from halfsplit.call import advise

    place = case.evidence.index(CUT_OFF)
    return " + ".join(advise(DRYER, case.without(place)).suspects[0].things)


def test_rates_say_where_they_come_from() -> None:
    found = origins(DRYER, NO_HEAT)
    assert set(found) == {"common practice, from memory"}
    assert "heater" in found["common practice, from memory"]

"""Things changed on a call: what was seen before is of what was wrong then, what is seen after of what is left."""

import numpy as np
import pytest

from halfsplit.call import Case, advise, engine_for, things_of
from halfsplit.errors import InputError
from halfsplit.techsheet import load_machine
from halfsplit.trade import Reading, Seen

DRYER = load_machine("dryer")
COLD = Seen("heat", "none", "technician", "running")
WARM = Seen("heat", "normal", "technician", "running")
OPEN = Reading(("thermal cut-off.1", "thermal cut-off.2"), "ohms", "dead", float("inf"))
FOUND = Case().plus(COLD, OPEN)


def _things(case: Case) -> dict[str, float]:
    engine = engine_for(DRYER, case)
    return things_of(engine, engine.weigh(case))


def test_nothing_changed_leaves_every_suspect_as_it_was() -> None:
    weighed = engine_for(DRYER, FOUND).weigh(FOUND)
    assert (weighed.now == np.arange(len(weighed.suspects))).all()
    assert (weighed.shares == weighed.belief.shares).all()


def test_a_thing_that_was_changed_is_no_longer_at_fault_and_its_share_goes_to_what_is_left() -> None:
    before, after = _things(FOUND), _things(FOUND.change("thermal cut-off"))
    assert before["thermal cut-off"] > 0.9
    assert "thermal cut-off" not in {name for name, share in after.items() if share > 0.0}
    assert after[""] == pytest.approx(before["thermal cut-off"] + before[""], abs=0.02)
    assert sum(after.values()) == pytest.approx(sum(before.values()))


def test_warm_after_the_change_means_that_it_was_that_and_nothing_else() -> None:
    advice = advise(DRYER, FOUND.change("thermal cut-off").plus(WARM))
    assert advice.ending == "nothing wrong"
    assert advice.says.startswith("With thermal cut-off changed, the machine does what a sound one does.")
    assert advice.blamed == ()


def test_still_cold_after_the_change_clears_the_part_and_goes_on_looking() -> None:
    advice = advise(DRYER, FOUND.change("thermal cut-off").plus(COLD))
    assert advice.next is not None
    assert "thermal cut-off" not in {thing for view in advice.suspects[:8] for thing in view.things}
    assert advice.ending == "keep looking"
    assert sum(view.share for view in advice.suspects if not view.things) < 0.3  # it was 0.9 for the cut-off


def test_the_same_place_may_be_read_again_once_something_was_changed() -> None:
    case = Case().plus(COLD, Reading(("heater.1", "heater.2"), "ohms", "dead", 10.7))
    assert case.latest == case.evidence
    assert case.change("thermal cut-off").latest == ()


def test_taking_an_item_back_leaves_the_others_at_their_moments() -> None:
    case = FOUND.change("thermal cut-off").plus(WARM)
    assert case.moments == (0, 0, 1)
    assert case.without(0).moments == (0, 1)
    assert case.without(2).moments == (0, 0)


def test_a_thing_is_changed_once_and_must_be_one_of_the_machine() -> None:
    with pytest.raises(InputError, match="'heater' has been changed on this call already"):
        Case().change("heater").change("heater")
    with pytest.raises(InputError, match="There is no 'heeter' to change") as caught:
        advise(DRYER, FOUND.change("heeter"))
    assert "heater" in caught.value.right

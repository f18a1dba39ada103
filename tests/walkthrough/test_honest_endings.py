"""Where no single answer is honest: evidence at odds with itself, and faults that the sheet does not know."""

from __future__ import annotations

from dataclasses import replace

from halfsplit.call import Case, advise, told
from halfsplit.techsheet import Machine, load_machine, machine_from_text, sheet_text
from halfsplit.trade import Reading, Seen
from tests.walkthrough.technician import HiddenTruth, follow

DRYER = load_machine("dryer")
NO_CONTINUITY = Reading(("heater.1", "heater.2"), "ohms", "dead", float("inf"))
SOUND = Reading(("heater.1", "heater.2"), "ohms", "dead door open", 10.7)
HEATS = Seen("heat", "normal", "technician", "running")


def test_readings_at_odds_fit_nothing_and_are_named() -> None:
    # It heats, and yet the heater is open: both cannot be, whatever is wrong in the machine.
    case = Case().plus(NO_CONTINUITY, HEATS, Seen("heat on delicate", "normal", "technician", "running delicate"))
    visit = follow(DRYER, case, HiddenTruth(DRYER, ()))
    assert visit.end.ending == "nothing fits"
    assert visit.end.blamed == ()
    assert visit.end.conflicts[0].startswith("heater.1 to heater.2 reads OL")


def test_taking_the_wrong_reading_back_ends_the_conflict() -> None:
    case = Case().plus(NO_CONTINUITY, HEATS, Seen("heat on delicate", "normal", "technician", "running delicate"))
    doubted = follow(DRYER, case, HiddenTruth(DRYER, ())).case
    visit = follow(DRYER, doubted.without(0).plus(SOUND), HiddenTruth(DRYER, ()))
    assert visit.end.ending in ("nothing wrong", "group")
    assert visit.end.conflicts == ()


def test_a_false_nothing_is_believed_less_than_a_false_voltage() -> None:
    # A probe that does not touch shows 0 V; nothing shows 119 V by mistake.
    outlet = ("outlet.L1", "outlet.N")
    both = Case().plus(Reading(outlet, "volts", "resting", 0.0), Reading(outlet, "volts", "resting", 119.0))
    one = Case().plus(Reading(outlet, "volts", "resting", 119.0))
    dead = dict.fromkeys(("both", "one", "zero"), 0.0)
    for name, case in {"both": both, "one": one, "zero": Case().plus(both.evidence[0])}.items():
        lost = [view for view in advise(DRYER, case, most=10_000).suspects if view.suspect.faults == ("house:lost-L1",)]
        dead[name] = lost[0].share
    assert dead["one"] < dead["both"] < 0.1 * dead["zero"]


def _with_three_times_the_heater() -> Machine:
    """A heater of three times its resistance: somebody has fitted the wrong one."""
    branches = tuple(
        replace(branch, ohm=3 * branch.ohm) if branch.name in ("heater:upper", "heater:lower") else branch
        for branch in DRYER.network.branches
    )
    return replace(DRYER, network=replace(DRYER.network, branches=branches))


def test_the_wrong_heater_is_not_on_the_sheet_and_nothing_is_blamed_for_it() -> None:
    case = Case().plus(*told(DRYER, "weak heat"))
    visit = follow(DRYER, case, HiddenTruth(_with_three_times_the_heater(), ()))
    assert visit.end.ending == "nothing fits"
    assert visit.end.blamed == ()
    assert visit.end.not_on_sheet > 0.5
    assert visit.end.conflicts


def test_a_wire_on_the_wrong_terminal_is_not_on_the_sheet_either() -> None:
    # The lamp's return on L2: 240 V across a 120 V lamp, which no fault of the sheet gives.
    text, _ = sheet_text("dryer")
    rewired = machine_from_text(text.replace("white lamp.2 TB.N", "white lamp.2 TB.L2"), "rewired.yaml")
    case = Case().plus(Seen("drum lamp", "too much", "customer", "door open"))
    visit = follow(DRYER, case, HiddenTruth(rewired, ()))
    assert visit.end.ending == "nothing fits"
    assert visit.end.blamed == ()
    assert "Technician: drum lamp is too much, plugged in, door open" in visit.end.conflicts

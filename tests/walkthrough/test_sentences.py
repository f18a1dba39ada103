"""What every technician knows before touching the machine, and the program must know too."""

from __future__ import annotations

from halfsplit.call import Advice, Case, advise
from halfsplit.predict import Predictor, levels
from halfsplit.techsheet import load_machine
from halfsplit.trade import LEVELS, Level, Seen, Suspect

DRYER = load_machine("dryer")

# By hand from the wiring: what the heater's 240 V comes through, and the drum and lamp do not.
HEATER_ALONE = {
    *("heater", "thermal cut-off", "high limit", "cycling thermostat", "selector", "timer", "motor"),
    *("house", "plug"),  # their L2 side: a leg with all its fixed wiring, a blade
    *("TB.L1-timer.H1", "timer.H2-selector.S", "selector.H-cycling thermostat.1"),
    *("cycling thermostat.2-thermal cut-off.1", "thermal cut-off.2-high limit.1", "high limit.2-heater.1"),
    *("heater.2-motor.1", "motor.2-TB.L2"),
    "plug.L2-TB.L2",
}
# A joint of 2 Ω in the cord: the motor may start on it or not, so the drum may turn and it may not heat.
MAY_START = {"plug.L1-TB.L1", "plug.N-TB.N"}


def _seen(**shown: Level) -> Case:
    items = ((name.replace("_", " "), level) for name, level in shown.items())
    return Case().plus(*(Seen(name, level, "technician", DRYER.functions[name].setup) for name, level in items))


def _things(advice: Advice) -> dict[str, float]:
    """Share of each thing that nothing contradicts and one fault explains."""
    held: dict[str, float] = {}
    for view in advice.suspects:
        if view.consistent and len(view.things) == 1:
            held[view.things[0]] = held.get(view.things[0], 0.0) + view.share
    return held


def test_lamp_and_drum_but_no_heat_leaves_the_heater_circuit_and_the_l2_side() -> None:
    advice = advise(DRYER, _seen(drum_lamp="normal", drum_turns="normal", heat="none"), most=10_000)
    held = _things(advice)
    assert set(held) == HEATER_ALONE | MAY_START
    assert sum(held[thing] for thing in MAY_START) < 0.001
    assert sum(held.values()) > 0.85


def test_lamp_and_drum_but_no_heat_is_never_the_door_switch() -> None:
    # One contact of it feeds the lamp, the other the motor; neither feeds the heater.
    advice = advise(DRYER, _seen(drum_lamp="normal", drum_turns="normal", heat="none"), most=10_000)
    door = [view for view in advice.suspects if view.things == ("door",)]
    assert len(door) == 4
    assert not any(view.consistent for view in door)
    assert sum(view.share for view in door) < 0.01


def _levels(fault: str) -> dict[str, str]:
    """What one fault alone leaves of every function."""
    predictor = Predictor(DRYER, (Suspect((fault,)),))
    shown = {
        name: levels(predictor, function, DRYER.setups[function.setup])[:, 0]
        for name, function in DRYER.functions.items()
    }
    return {name: LEVELS[int(chances.argmax())] for name, chances in shown.items()}


def test_drum_and_heat_dead_together_with_the_lamp_on_point_at_what_they_share() -> None:
    dead_but_lamp: dict[str, Level] = {"drum lamp": "normal", "drum turns": "none", "heat": "none"}
    shared = {fault for fault in DRYER.faults if dead_but_lamp.items() <= _levels(fault).items()}
    advice = advise(DRYER, _seen(drum_lamp="normal", drum_turns="none", heat="none"), most=10_000)
    found = [view for view in advice.suspects if view.suspect.faults and view.suspect.faults[0] in shared]
    alone = [view for view in found if len(view.suspect.faults) == 1]
    assert {DRYER.faults[view.suspect.faults[0]].whole for view in alone} == {DRYER.faults[it].whole for it in shared}
    assert all(view.consistent for view in alone)
    assert {view.things for view in advice.suspects[:10]} <= {view.things for view in alone}
    assert sum(view.share for view in alone) > 0.8


def test_two_loads_that_die_together_did_not_both_fail() -> None:
    advice = advise(DRYER, _seen(drum_lamp="normal", drum_turns="none", heat="none"), most=10_000)
    assert sum(view.share for view in advice.suspects if len(view.suspect.faults) == 2) < 0.05
    for part in ("heater", "thermal cut-off", "high limit", "selector"):
        assert not any(view.consistent for view in advice.suspects if view.things == (part,))

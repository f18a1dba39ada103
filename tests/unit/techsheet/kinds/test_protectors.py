"""Fuse, overload protector, one-pole breaker and ground-fault breaker: what opens, and what a person sees then."""

import pytest

from tests.unit.techsheet.kinds.tiny import SOUND, amps, machine, position, settled, symptoms, told, volts

#                      heat    turn    breaker guard   fuse    protector
SYMPTOMS = {
    "sound": "normal, normal, normal, normal, normal, normal",
    "breaker:tripped": "none, none, none, normal, normal, normal",
    "breaker:open": "none, none, normal, normal, normal, normal",
    "guard:tripped": "none, none, normal, none, normal, normal",
    "guard:open": "none, none, normal, normal, normal, normal",
    "guard:deaf": "normal, normal, normal, normal, normal, normal",
    "fuse:blown": "none, normal, normal, normal, none, normal",
    "protector:open": "normal, none, normal, normal, normal, normal",
    "protector:welded": "normal, normal, normal, normal, normal, normal",
    # Held still for seconds, its current opens the protector.
    "fan:open": "normal, none, normal, normal, normal, normal",
    "fan:seized": "normal, none, normal, normal, normal, none",
    "heater:open": "none, normal, normal, normal, normal, normal",
    # 1 / 1.4 = 71 % of its power.
    "heater:drifted": "weak, normal, normal, normal, normal, normal",
    # Six milliamperes to the case: the guard opens at five.
    "heater:leaky": "none, none, normal, none, normal, normal",
    # Ten amperes stray through the case: the guard sees them; breaker and fuse do not mind.
    "heater:grounded": "none, none, normal, none, normal, normal",
    "rotor:jammed": "normal, none, normal, normal, normal, none",
}
THINGS = ("breaker", "guard", "fuse", "protector", "fan", "heater", "rotor")


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("protectors"), *THINGS) == SYMPTOMS


def test_a_short_circuit_melts_the_fuse_before_a_breaker_opens_and_a_large_fuse_leaves_it_to_the_breakers() -> None:
    opened = ("breaker:tripped", "guard:tripped", "fuse:blown")
    found = machine("protectors")
    assert [position(settled(found, "bridged"), name) for name in opened] == ["no", "no", "yes"]
    large = machine("protectors", ("kind: fuse, rating: 10 A", "kind: fuse, rating: 100 A"))
    assert [position(settled(large, "bridged"), name) for name in opened] == ["yes", "yes", "no"]


def test_a_deaf_ground_fault_breaker_leaves_amperes_straying() -> None:
    at = settled(machine("protectors"), "on", "heater:grounded", "guard:deaf")
    assert amps(at, "guard:ground") == pytest.approx(9.5, abs=0.6)


def test_what_strays_by_another_way_than_its_ground_wire_trips_it_too() -> None:
    piped = machine("protectors", ("  - green plug.G case.G\n", "  - bare case.G house.G\n"))
    assert amps(settled(piped, "on", "heater:grounded", "guard:deaf"), "guard:ground") < 0.0001
    assert position(settled(piped, "on", "heater:grounded"), "guard:tripped") == "yes"
    assert position(settled(piped, "on"), "guard:tripped") == "no"


@pytest.mark.parametrize(("milliamps", "trips"), [(3.9, "no"), (6.0, "yes")])
def test_class_a_does_not_trip_below_4_ma_and_trips_from_6_ma(milliamps: float, trips: str) -> None:
    # S: UL 943 class A (edition not recorded). What strays here passes a resistance from the line to a pipe.
    leak = f"  leak: {{kind: heater, power: {120 * milliamps:g} mW at 120 V, zone: case}}\n"
    found = machine(
        "protectors",
        ("  bridge: {kind: switch", f"{leak}  bridge: {{kind: switch"),
        ("  - green plug.G case.G\n", "  - green plug.G case.G\n  - black plug.L leak.1\n  - bare leak.2 house.G\n"),
    )
    assert position(settled(found, "on"), "guard:tripped") == trips


def test_a_sound_machine_strays_far_less_than_trips_it() -> None:
    assert amps(settled(machine("protectors"), "on"), "guard:ground") < 0.0001


def test_without_ground_nothing_trips_and_the_case_is_live() -> None:
    at = settled(machine("protectors"), "on", "heater:grounded", "house:open-ground")
    assert position(at, "guard:tripped") == "no"
    assert volts(at, "case.G", "house.N") > 50


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("kind: ground-fault breaker", "kind: ground-fault breaker, trips at: 1 mA"),
            "'guard' would trip at 1 mA. From 5 mA to protect people up to 300 mA against fire.",
        ),
        (
            ("kind: one-pole breaker", "kind: one-pole breaker, setting: plug"),
            "The setting 'plug' has no position 'on'. Add it to that setting.",
        ),
        (("kind: fuse, rating: 10 A", "kind: fuse, rating: 10 W"), "'10 W' is not in A. Write it as in 5 A."),
        (
            ("kind: overload protector, trips at: 1.3 A", "kind: overload protector"),
            "'protector' has no 'trips at'. Add it. Current that opens it within seconds.",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("protectors", change) == [said]


def test_a_ground_fault_breaker_for_30_ma_is_one_too() -> None:
    found = machine("protectors", ("kind: ground-fault breaker", "kind: ground-fault breaker, trips at: 30 mA"))
    assert position(settled(found, "on", "heater:grounded"), "guard:tripped") == "yes"


def test_line_and_neutral_landed_on_each_others_screws_show_at_the_slots_and_trip_nothing() -> None:
    found = machine("protectors")
    at = settled(found, "on", "outlet:swapped")
    pairs = (("outlet.L", "outlet.G"), ("outlet.N", "outlet.G"), ("outlet.L", "outlet.N"))
    assert [volts(at, *pair) for pair in pairs] == pytest.approx([0, 120, 120], abs=1)
    assert symptoms(found, "outlet") == {SOUND: SYMPTOMS[SOUND], "outlet:swapped": SYMPTOMS[SOUND]}
    # The breaker still cuts it off, and a ground fault still trips the guard.
    assert position(settled(found, "on", "outlet:swapped", "heater:grounded"), "guard:tripped") == "yes"
    off = settled(found, "on", "outlet:swapped", "breaker:tripped")
    assert volts(off, "outlet.N", "outlet.G") < 1


def test_an_outlet_of_two_legs_has_no_such_fault() -> None:
    assert [name for name in machine("wye").faults if "swapped" in name] == []
    assert [name for name in machine("circuit120").faults if "swapped" in name] == ["house:swapped"]


def test_on_two_legs_of_a_wye_nothing_is_astray_until_a_heater_touches_its_case() -> None:
    # Written down before it was run. The legs' currents are 120 degrees apart and the lamp is on one of them only.
    found = machine("guardedlegs")
    assert symptoms(found, "breaker", "heater") == {
        "sound": "normal, normal",
        "breaker:tripped": "none, none",
        "breaker:open": "none, none",
        "breaker:deaf": "normal, normal",
        "heater:open": "none, normal",
        "heater:drifted": "weak, normal",
        "heater:grounded": "none, none",
        # 120 V over 20 kilohm is 6 mA, and it trips at 5.
        "heater:leaky": "none, none",
    }
    astray = settled(found, "on").solution
    total = sum(astray.through(f"breaker:{name}")[0] for name in ("line-1", "line-2", "neutral"))
    assert abs(total) < 0.0001
    assert amps(settled(found, "on"), "breaker:neutral") > 0.05

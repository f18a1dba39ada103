"""House supplies beyond split phase: what a person sees and a meter reads when the house is at fault."""

import math

import pytest

from halfsplit.drawing.graph import supply_points
from tests.unit.techsheet.kinds.tiny import amps, machine, position, settled, symptoms, told, volts

CIRCUIT = {
    "sound": "normal, normal",
    "house:lost-line": "none, normal",
    "house:open-neutral": "none, normal",
    "house:swapped": "normal, normal",
    "house:open-earth": "normal, normal",
    "house:low-voltage": "weak, normal",
    "house:high-voltage": "too much, normal",
    "house:tripped": "none, none",
}
# What the machine itself puts on its leg decides: 12 Ω beside the 144 Ω of the rest leave it 32 of 240 V. Without
# another leg nothing comes back at all, and neutral and case stand at the line.
FLOATING = {"circuit120": "weak, normal", "circuit230": "none, normal"}


@pytest.mark.parametrize("sheet", ["circuit120", "circuit230"])
def test_every_fault_of_a_circuit_shows_as_written_down(sheet: str) -> None:
    expected = {**CIRCUIT, "house:open-service-neutral": FLOATING[sheet]}
    assert symptoms(machine(sheet), "house") == expected


def test_a_wye_gives_208_v_between_its_legs_and_its_faults_show_as_written_down() -> None:
    # First written down with no light for a lost L1. The engine was right: L2 feeds the lamp back through the heater.
    found = machine("wye")
    assert volts(settled(found, "dead"), "outlet.L1", "outlet.L2") == pytest.approx(120 * math.sqrt(3), rel=1e-6)
    assert symptoms(found, "house") == {
        "sound": "normal, normal",
        "house:lost-L1": "none, normal",
        "house:lost-L2": "none, normal",
        "house:open-neutral": "normal, none",
        "house:open-ground": "normal, normal",
        "house:low-voltage": "weak, weak",
        "house:high-voltage": "too much, too much",
        # 288 Ω and 72 Ω on 208 V leave the lamp 160 V.
        "house:open-service-neutral": "normal, too much",
    }


def test_a_heater_made_for_240_v_gives_three_quarters_of_its_power_on_a_wye() -> None:
    found = machine("wye", ("4 kW at 208 V", "4 kW at 240 V"))
    at = settled(found, "on")
    heater = volts(at, "heater.1", "heater.2")
    share = (heater / 240) ** 2
    assert share == pytest.approx(0.75111, rel=0.02)  # 208²/240² = 0.75111 less what the conductors drop
    assert volts(settled(found, "dead"), "outlet.L1", "outlet.L2") ** 2 / 240**2 == pytest.approx(0.75, abs=0.0005)


@pytest.mark.parametrize(("sheet", "nominal", "earth"), [("circuit120", 120, "G"), ("circuit230", 230, "PE")])
def test_a_meter_tells_swapped_wires_and_a_missing_neutral_at_the_outlet(
    sheet: str, nominal: float, earth: str
) -> None:
    found = machine(sheet)
    slots = ("outlet.L", "outlet.N", f"outlet.{earth}")

    def reads(fault: tuple[str, ...]) -> list[int]:
        at = settled(found, "dead", *fault)
        return [round(volts(at, a, b)) for a, b in ((slots[0], slots[1]), (slots[0], slots[2]), (slots[1], slots[2]))]

    assert reads(()) == [nominal, nominal, 0]
    assert reads(("house:swapped",)) == [nominal, 0, nominal]
    assert reads(("house:tripped",)) == [0, 0, 0]


def test_an_open_neutral_makes_the_neutral_slot_live_through_the_load() -> None:
    at = settled(machine("circuit120"), "on", "house:open-neutral")
    assert volts(at, "outlet.N", "outlet.G") == pytest.approx(120, abs=0.1)
    assert volts(at, "outlet.L", "outlet.N") == pytest.approx(0, abs=0.1)


@pytest.mark.parametrize(
    ("sheet", "fault", "left"),
    [("circuit120", (), 0.0), ("circuit120", ("house:swapped",), 0.0), ("circuit230", (), 0)],
)
def test_a_breaker_that_is_off_makes_the_machine_dead_swapped_or_not(
    sheet: str, fault: tuple[str, ...], left: float
) -> None:
    at = settled(machine(sheet), "unpowered", *fault)
    assert volts(at, "heater.1", "case.G") == pytest.approx(left, abs=0.5)
    assert volts(at, "heater.2", "case.G") == pytest.approx(left, abs=0.5)


def test_one_pole_leaves_the_neutral_joined_and_two_poles_do_not() -> None:
    one, two = machine("circuit120"), machine("circuit120", ("title: house supply", "breaker poles: 2"))
    conducting = [
        float(
            abs(
                settled(found, "unpowered").solution.admittance[
                    settled(found, "on").columns.layout.branch_index["house:N"], 0
                ]
            )
        )
        for found in (one, two)
    ]
    assert conducting[0] > 1
    assert conducting[1] == 0


@pytest.mark.parametrize("more", [(), ("house:swapped",)])
def test_a_heater_that_touches_its_case_trips_the_breaker_and_without_earth_makes_the_case_live(
    more: tuple[str, ...],
) -> None:
    weak = machine("circuit120", ("title: house supply", "rating: 2 A"))  # lets go at 10 A; the sound heater takes 9.8
    assert position(settled(weak, "on", *more), "house:tripped") == "no"
    assert position(settled(weak, "on", "heater:grounded", *more), "house:tripped") == "yes"
    found = machine("circuit120")
    assert amps(settled(found, "on", "heater:grounded", *more), "house:G") > 10
    live = settled(found, "on", "heater:grounded", "house:open-earth", *more)
    assert volts(live, "case.G", "house.~G") == pytest.approx(60, abs=2)


def test_a_drawing_finds_line_and_neutral_where_a_sound_house_brings_them() -> None:
    found = machine("circuit120")
    assert {point: pole.volts for point, pole in supply_points(found).items()} == {
        "house.L": 120,
        "house.N": 0,
        "house.G": 0,
    }


def test_what_makes_no_sense_is_told() -> None:
    assert told("circuit120", ("title: house supply", "breaker poles: 3")) == [
        "'3' is not a number of breaker poles. Write 1 (line only) or 2 (line and neutral)."
    ]
    assert told("circuit120", ("title: house supply", "setting: plug")) == [
        "The setting 'plug' has no position 'on'. Add it to that setting."
    ]
    assert told("circuit120", ("title: house supply", "earth: N"))[0] == (
        "'house' has two terminals 'N'. Name its earth G or PE."
    )
    assert told("circuit120", ("title: house supply", "volts: 120 A")) == ["'120 A' is not in V. Write it as in 120 V."]
    assert told("wye", ("title: house supply", "frequency: 60 kHz"))[0].startswith("'60 kHz' is beyond anything")


def test_with_the_service_neutral_open_the_rest_of_the_house_shares_out_the_voltage() -> None:
    # C, by Ohm's law: 144 Ω and 72 Ω on 240 V stand at 160 V and 80 V.
    found = machine("protectors")
    sound, floating = (settled(found, "dead", *faults) for faults in ((), ("house:open-service-neutral",)))
    assert volts(sound, "house.L1", "house.N") == pytest.approx(120, abs=0.1)
    assert volts(floating, "house.L1", "house.N") == pytest.approx(160, abs=0.01)
    assert volts(floating, "house.~L2", "house.N") == pytest.approx(80, abs=0.01)
    assert volts(floating, "house.L1", "house.~L2") == pytest.approx(240, abs=0.01)
    # Every ground wire hangs on the same bar: the case of a plugged-in machine leaves earth with it.
    live = settled(found, "on", "house:open-service-neutral")
    assert volts(live, "case.G", "house.N") < 0.1
    assert volts(live, "case.G", "house.~G") > 40


def test_an_earth_electrode_keeps_the_bar_nearer_to_earth_and_hides_the_open_neutral() -> None:
    found = machine("protectors", ("kind: split-phase supply", "kind: split-phase supply, earth electrode: 5 Ω"))
    at = settled(found, "dead", "house:open-service-neutral")
    # By hand: 120/144 - 120/72 A into 1/144 + 1/72 + 1/5 S is -3.774 V.
    assert volts(at, "house.L1", "house.N") == pytest.approx(123.77, abs=0.01)


def test_the_cable_of_a_circuit_is_what_its_breaker_asks_for_over_its_run() -> None:
    # NEC chapter 9 table 8: 14 AWG is 3.07 and 12 AWG 1.93 Ω per 1000 ft; 40 ft there, 40 ft back, and the service.
    for rating, table in (("15 A", 3.07), ("20 A", 1.93)):
        found = machine("circuit120", ("title: house supply", f"rating: {rating}, run: 40 ft, title: house supply"))
        at = settled(found, "on")
        drop = 120 - volts(at, "house.L", "house.N")
        # One percent is what the rest of the house adds in the service neutral.
        assert drop / amps(at, "house:L") == pytest.approx(2 * (0.04 * table + 0.03), rel=0.015)


def test_a_circuit_of_230_v_has_a_cable_in_square_millimetres() -> None:
    # By hand: 2.5 mm² for 16 A, 8.39 mΩ/m at 75 °C, 12 m there and 12 m back, and the service.
    found = machine("circuit230", ("conductor resistance: 0.3 Ω, ", ""))
    at = settled(found, "on")
    drop = 230 - volts(at, "house.L", "house.N")
    drop -= 0.03 * 230 / 144  # what the rest of the house drops in the service neutral
    assert drop / amps(at, "house:L") == pytest.approx(2 * (12 * 8.39e-3 + 0.03), rel=0.002)


def test_what_cannot_be_a_circuit_is_told() -> None:
    assert told("circuit120", ("title: house supply", "rating: 100 A")) == [
        "A circuit of 100 A is beyond a house's outlets. Check the rating, or give its `conductor resistance`."
    ]
    assert told("circuit120", ("title: house supply", "other leg: behind")) == [
        "'behind' is not where another leg can stand. Write opposite (split phase), third (two legs of a wye) or none."
    ]
    assert told("circuit120", ("title: house supply", "run: 12")) == [
        "'12' has no length. Write it as in 12 m or 40 ft."
    ]

"""Every mode goes through a case file, a caution and a sentence, and old case files read as they did."""

import math

import pytest

from halfsplit.call import Case, advise, in_words, meter_reading, read_case, title_of, write_case
from halfsplit.call.checks import DEAD, LIVE, TESTER, caution_of
from halfsplit.call.engine import engine_for
from halfsplit.errors import InputError, SheetError
from halfsplit.techsheet import load_machine
from halfsplit.trade import MODES, Measure, Reading
from tests.unit.techsheet.kinds.tiny import machine

DRYER = load_machine("dryer")
HEATER, CASE = ("heater.1", "heater.2"), ("heater.1", "chassis.G")

READINGS = """
sheet: dryer
readings:
  - {points: [TB.L1, TB.N], mode: volts, setup: running, reading: 118 V}
  - {points: [TB.L1, TB.N], mode: low-z, setup: running, reading: 118}
  - {points: [heater.1, heater.2], mode: ohms, setup: dead, reading: OL}
  - {points: [heater.2, motor.1], mode: amps, setup: running, reading: 22 A}
  - {points: [TB.L1, TB.N], mode: dc, setup: running, reading: -0.2 V}
  - {points: [TB.L1, TB.N], mode: ac+dc, setup: running, reading: 118}
  - {points: [heater.1, heater.2], mode: continuity, setup: dead, reading: silent}
  - {mode: watts, setup: running, reading: 5.2 kW}
  - {points: [heater.1, chassis.G], mode: insulation-500, setup: dead, reading: "200"}
  - {points: [heater.1, chassis.G], mode: insulation-250, setup: dead, reading: OL}
"""


def test_a_case_file_takes_every_mode_and_writes_it_so_that_it_reads_back() -> None:
    case = read_case(READINGS, "all.yaml", DRYER)
    assert tuple(item.mode for item in case.evidence if isinstance(item, Reading)) == MODES
    assert case.evidence[7] == Reading(("plug.L1", "plug.N"), "watts", "running", 5200.0)
    assert read_case(write_case(case, "dryer"), "again.yaml", DRYER).evidence == case.evidence


def test_all_of_them_can_be_weighed_together() -> None:
    advise(DRYER, read_case(READINGS, "all.yaml", DRYER))


@pytest.mark.parametrize(
    ("item", "words"),
    [
        (Reading(("TB.L1", "TB.N"), "dc", "running", -0.2), "TB.L1 (red) to TB.N reads -0.2 V DC"),
        (Reading(("TB.L1", "TB.N"), "ac+dc", "running", 118.0), "TB.L1 to TB.N reads 118 V AC+DC"),
        (Reading(HEATER, "continuity", "dead", 0.0), "heater.1 to heater.2: the meter is silent"),
        (Reading(HEATER, "continuity", "dead", 1.0), "heater.1 to heater.2: the meter beeps"),
        (Reading(("plug.L1", "plug.L2"), "watts", "running", 5200.0), "the plug takes 5.2 kW"),
        (Reading(CASE, "insulation-500", "dead", 2e8), "heater.1 to chassis.G reads 200 MΩ at 500 V DC"),
        (Reading(CASE, "insulation-250", "dead", math.inf), "heater.1 to chassis.G reads over 20 MΩ at 250 V DC"),
    ],
)
def test_each_reading_is_a_sentence(item: Reading, words: str) -> None:
    assert in_words(DRYER, item) == f"{words}, {DRYER.setups[item.setup].says}"


def test_each_check_is_an_instruction_with_the_caution_of_its_meter() -> None:
    engine = engine_for(DRYER, Case())
    watts, beep, tester = (
        Measure(("plug.L1", "plug.L2"), "watts", "running"),
        Measure(HEATER, "continuity", "dead"),
        Measure(CASE, "insulation-500", "dead"),
    )
    assert [title_of(DRYER, action) for action in (watts, beep, tester)] == [
        "Read watts at the plug",
        "Try for a beep from heater.1 to heater.2",
        "Test the insulation at 500 V DC from heater.1 to chassis.G",
    ]
    assert [caution_of(engine, action) for action in (watts, beep, tester)] == [LIVE, DEAD, TESTER]


def test_a_reading_between_points_needs_two() -> None:
    with pytest.raises(SheetError, match="between two points, and 0 are given"):
        read_case("readings: [{mode: volts, setup: running, reading: 118}]", "x.yaml", DRYER)
    with pytest.raises(InputError, match="between two points, and 0 are given"):
        meter_reading(DRYER, "running", ("", ""), "volts", ())


def test_a_reading_tells_what_it_is_with_the_probes_the_other_way_round() -> None:
    halves = machine("halfwaves")
    diode, direct = (
        meter_reading(halves, "dead", ("diode.1", "diode.2"), "ohms", ()),
        meter_reading(halves, "low", ("warmer.1", "warmer.2"), "dc", ()),
    )
    assert (math.isfinite(diode.value), math.isinf(diode.turned)) == (True, True)
    assert direct.turned == pytest.approx(-direct.value)
    assert meter_reading(DRYER, "dead", HEATER, "ohms", ()).turned == pytest.approx(240**2 / 5400, rel=1e-3)


def test_near_a_threshold_the_other_way_is_told_in_the_reading_and_in_the_reasons() -> None:
    found = machine("holdin", ("    coil current: 40 mA\n", "    pulls in at: 118 V\n"))
    (other,) = meter_reading(found, "pressing", HEATER, "volts", ()).others
    assert other.moved == ("relay:pulled-in",)
    assert other.value < 1.0
    item = Reading(HEATER, "volts", "pressing", 60.0)
    told = [view.reasons[0].predicted for view in advise(found, Case(evidence=(item,)), most=200).suspects]
    assert "120 V or 0 V" in told


def test_a_silent_heater_convicts_it_as_ol_does() -> None:
    silent, opened = Reading(HEATER, "continuity", "dead", 0.0), Reading(HEATER, "ohms", "dead", math.inf)
    best = [advise(DRYER, Case(evidence=(item,))).suspects[0].suspect.name for item in (silent, opened)]
    assert best == ["heater:open", "heater:open"]

"""Boards: they wake, sense, decide, drive and show codes; a link is up only if every wire of it is good."""

from __future__ import annotations

import numpy as np
import pytest

from halfsplit.circuit import HIGH_IMPEDANCE_OHM, LOW_IMPEDANCE_OHM, read_volts, read_waves
from halfsplit.errors import InputError
from halfsplit.techsheet.kinds.boardwords import Board, read_code, read_input, read_output
from tests.unit.techsheet.kinds.tiny import machine, position, settled, symptoms, told

WORKS = "normal, normal, none, none, none, normal, none, none"
COLD = "normal, none, none, none, none, normal, none, none"
UNLIT = "none, none, none, none, none, normal, none, none"
# Written down before the sheet was run.
#    lit     bake    open    over    self    lamp    F1      F9
MAIN = {
    "sound": WORKS,
    "main board:dead": "none, none, none, none, none, none, none, none",
    # Nothing feeds the display; the main board still knows its door.
    "main board:rail 12V-0V-lost": UNLIT,
    # Without its pull-up the sensor's input stands at 0 V: it takes that for hot.
    "main board:rail 5V-0V-lost": COLD,
    "main board:line TX-0V-lost": "normal, normal, none, none, none, normal, none, normal",
    "main board:blind-door": COLD,
    "main board:blind-hot": "normal, normal, none, normal, none, normal, none, none",
    "main board:blind-missing": WORKS,
    "main board:heat-open": COLD,
    "main board:heat-shorted": "normal, normal, normal, normal, normal, normal, none, none",
    "main board:light-open": "normal, normal, none, none, none, none, none, none",
    "main board:light-shorted": WORKS,
}
OTHERS = {
    "sound": WORKS,
    "display:dead": UNLIT,
    # Its key's input falls to 0 V, which is what a pressed key looks like: it starts by itself.
    "display:rail 5R-0V-lost": "normal, normal, none, none, normal, normal, none, none",
    "display:blind-start": COLD,
    "display:blind-link": "normal, normal, none, none, none, normal, none, normal",
    "sensor:open": "normal, none, none, none, none, normal, normal, none",
    "sensor:shorted": COLD,
    # Half too much of next to nothing is still hot, of 10 kΩ still cold.
    "sensor:drifted": WORKS,
}


def test_every_fault_of_the_main_board_shows_as_written_down() -> None:
    assert symptoms(machine("boards"), "main board") == MAIN


def test_every_fault_of_display_and_sensor_shows_as_written_down() -> None:
    assert symptoms(machine("boards"), "display", "sensor") == OTHERS


@pytest.mark.parametrize(
    ("wire", "seen"),
    [
        ("main board.12V-display.12V", UNLIT),
        ("main board.0V-display.0V", UNLIT),
        ("main board.TX-display.RX", "normal, normal, none, none, none, normal, none, normal"),
        ("display.K1-start key.1", COLD),
    ],
)
def test_a_link_is_up_only_if_every_wire_of_it_is_good(wire: str, seen: str) -> None:
    found = symptoms(machine("boards"), wire)
    assert found[f"{wire}:open"] == seen


@pytest.mark.parametrize(("how", "after"), [("latched", "yes"), ("not latched", "no")])
def test_a_latched_code_stays_when_its_cause_is_gone_and_another_does_not(how: str, after: str) -> None:
    rule = "does not see door, after 2 s" + (", latched" if how == "latched" else "")
    found = machine("boards", ("sees missing, after 2 s, latched", rule))
    assert position(settled(found, "ajar"), "main board:code F1") == "yes"
    assert position(settled(found, "shut again"), "main board:code F1") == after


def test_a_program_is_forgotten_in_a_power_cut() -> None:
    found = machine("boards")
    assert position(settled(found, "baking"), "main board:program baking") == "yes"
    assert position(settled(found, "mended"), "main board:program baking") == "no"


def test_a_sensor_reads_by_its_pull_up_as_any_divider() -> None:
    """5 V · 10 kΩ / 12.2 kΩ less the input's own megohms in parallel (Ohm)."""
    at = settled(machine("boards"), "idle")
    wave = read_waves(at, (at.solution,), (("main board.T1", "main board.0V"),), HIGH_IMPEDANCE_OHM)[0]
    sensor = 1.0 / (1.0 / 10e3 + 2.0 / 1e6 + 1.0 / 10e6)
    assert wave.mean[0, 0] == pytest.approx(5.0 * sensor / (sensor + 2200.0), rel=1e-3)


def test_an_off_triac_without_its_load_reads_nearly_the_line_on_ten_megohms_and_little_on_three_kilohms() -> None:
    found = machine("boards")
    at = settled(found, "idle", "lamp:open")
    pair = (("main board.L2", "plug.N"),)
    assert read_volts(at, pair, HIGH_IMPEDANCE_OHM)[0, 0] > 115
    assert read_volts(at, pair, LOW_IMPEDANCE_OHM)[0, 0] < 10


def test_isolated_rails_are_quiet_against_earth_and_others_are_live() -> None:
    on_neutral = machine("boards", ("    sends: {TX-0V: 5 V}\n", "    low side on: L\n    sends: {TX-0V: 5 V}\n"))
    live = settled(on_neutral, "idle")
    index = live.columns.layout.point_index["main board.5V"]
    assert np.abs(live.solution.volts[index, 0]) == pytest.approx(120.0, rel=0.01)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (
            "door: DS-N above 60 V, through 220 kΩ",
            "door: DS above 60 V",
            "'DS' is not two terminals. Write them with a dash, as in `HR1-HR2`.",
        ),
        (
            "hot: T1-0V below 500 mV, 2.2 kΩ up to 5V",
            "hot: T1-0V below 500 mV, 2.2 kΩ up to 9V",
            "The input 'hot' is pulled up to no rail ('9V'). Its rails are at: 12V, 5V.",
        ),
        (
            "light: triac L1-L2 when does not see door",
            "light: triac L1-L2 when does not see dor",
            "'main board' has no input 'dor'. It has: door, hot, missing.",
        ),
        (
            "and does not show F1",
            "and does not show F2",
            "'main board' has no code 'F2'. It has: F1.",
        ),
        (
            "light: triac L1-L2 when does not see door",
            "light: lamp L1-L2 when does not see door",
            "'lamp L1-L2 when does not see door' is not an output. Write it as in `relay HR1-HR2 when cycle bake and "
            "sees door` or `source F-0V 12 V when fan on`.",
        ),
        (
            "starts when display sees start and",
            "starts when display sees stop and",
            "A rule of 'main board' asks what 'display' does not tell: whether it sees stop. Did you mean 'display "
            "sees start'?",
        ),
    ],
)
def test_a_slip_in_a_board_is_told_with_what_would_be_right(old: str, new: str, says: str) -> None:
    assert told("boards", (old, new)) == [says]


@pytest.mark.parametrize("text", ["", "DS-N over 60 V", "DS-N above sixty", "DS-N above 60 V, 10 kΩ"])
def test_what_is_no_input_is_refused(text: str) -> None:
    with pytest.raises(InputError):
        read_input(text, 1e6)


def test_phrases_are_read_as_they_stand() -> None:
    assert read_input("T-0V below 2 V, through 1 MΩ, 10 kΩ up to 5V", 5.0).pull_up == (10e3, "5V")
    assert read_output("source F-0V 12 V when fan on").volts == 12.0
    assert read_code("sees hot, after 60 s, latched").seconds == 60.0
    assert Board("b", (), {}).awake() == ("b:awake", frozenset({"yes"}))

"""Diodes: half waves, what each meter setting shows of them, and ohms both ways."""

from __future__ import annotations

import math

import pytest

from halfsplit.circuit import (
    HIGH_IMPEDANCE_OHM,
    NO,
    YES,
    Branch,
    Drive,
    Layout,
    Network,
    Patch,
    Pole,
    Settled,
    Threshold,
    at_rest,
    columns,
    read_amps,
    read_ohms,
    read_waves,
)
from halfsplit.errors import CircuitError
from tests.oracle.floating import EARTH, LINE, NEUTRAL, POLES, diode, rail, with_strays

HALF = with_strays((diode("valve", LINE, "top", 1e-6), Branch("heater", "top", NEUTRAL, 14.4)))
BRIDGE = with_strays(
    (
        diode("D1", LINE, "plus"),
        diode("D2", NEUTRAL, "plus"),
        diode("D3", "minus", LINE),
        diode("D4", "minus", NEUTRAL),
        Branch("load", "plus", "minus", 200.0),
    )
)


def _at_rest(network: Network, *patches: Patch) -> Settled:
    return at_rest(columns(Layout(network), [patches]))


def test_a_half_wave_has_the_mean_and_the_rms_of_any_textbook() -> None:
    """V/√2 true RMS, √2 V/π mean, what is left is the AC-coupled reading (any textbook of rectifiers)."""
    settled = _at_rest(HALF)
    wave = read_waves(settled, (settled.solution,), (("top", NEUTRAL),), HIGH_IMPEDANCE_OHM)[0]
    mean, rms = math.sqrt(2) * 120.0 / math.pi, 120.0 / math.sqrt(2)
    assert wave.mean[0, 0] == pytest.approx(mean, rel=1e-6)
    assert wave.rms[0, 0] == pytest.approx(rms, rel=1e-6)
    assert wave.ac[0, 0] == pytest.approx(math.sqrt(rms**2 - mean**2), rel=1e-6)


def test_half_waves_heat_half_as_much() -> None:
    assert _at_rest(HALF).solution.watts("heater")[0] == pytest.approx(500.0, rel=1e-6)


def test_probes_the_other_way_round_turn_the_sign_of_the_mean_only() -> None:
    settled = _at_rest(HALF)
    wave = read_waves(settled, (settled.solution,), (("top", NEUTRAL), (NEUTRAL, "top")), HIGH_IMPEDANCE_OHM)[0]
    assert wave.mean[1, 0] == -wave.mean[0, 0] < 0
    assert wave.rms[1, 0] == wave.rms[0, 0] > 0


def test_a_shorted_diode_gives_the_whole_wave_back() -> None:
    whole = with_strays((*HALF.branches[:2], Branch("short", LINE, "top", 1e-6)))
    solution = _at_rest(whole).solution
    assert solution.watts("heater")[0] == pytest.approx(1000.0, rel=1e-6)
    assert solution.volts_across("heater").mean[0] == pytest.approx(0.0, abs=1e-5)


def test_an_open_diode_gives_nothing() -> None:
    assert _at_rest(HALF, Patch("open", "valve")).solution.watts("heater")[0] == pytest.approx(0.0, abs=1e-9)


def test_a_clamp_does_not_see_the_direct_part() -> None:
    solution = _at_rest(HALF).solution
    amps = solution.amps_through("heater")
    assert read_amps(_at_rest(HALF), ("heater",))[0, 0] == pytest.approx(
        math.sqrt(amps.rms[0] ** 2 - amps.mean[0] ** 2)
    )


def test_behind_a_bridge_the_mean_is_nine_tenths() -> None:
    """2√2 V/π: any textbook of rectifiers."""
    wave = _at_rest(BRIDGE).solution.volts_across("load")
    assert wave.mean[0] == pytest.approx(2 * math.sqrt(2) * 120.0 / math.pi, rel=1e-3)
    assert wave.rms[0] == pytest.approx(120.0, rel=1e-3)


def test_ohms_pass_a_diode_one_way_only() -> None:
    lone = with_strays((diode("valve", "a", "b", 1.0), Branch("load", "b", "c", 20.0)))
    forward, backward = read_ohms(_at_rest(lone), (("a", "c"), ("c", "a")))[:, 0]
    assert (forward, backward) == (pytest.approx(21.0, rel=1e-6), math.inf)


def test_ohms_find_the_way_through_a_bridge_that_their_own_current_can_take() -> None:
    """From minus to plus two diodes in a row pass on either side; from plus to minus none does and the load is read."""
    forward, backward = read_ohms(_at_rest(BRIDGE), (("minus", "plus"), ("plus", "minus")))[:, 0]
    # Line and neutral are both held at 0 V in the dead network: the house joins them at the panel.
    assert forward == pytest.approx(0.02, rel=1e-3)
    assert backward == pytest.approx(200.0, rel=1e-3)


def test_more_diodes_than_can_be_tried_are_refused_in_words() -> None:
    many = with_strays(tuple(diode(f"D{n}", f"p{n}", f"p{n + 1}") for n in range(7)))
    with pytest.raises(CircuitError) as caught:
        read_ohms(_at_rest(many), (("p0", "p7"),))
    assert (caught.value.what, caught.value.right) == (
        "7 parts conduct one way only.",
        "Ohms are worked out for up to 6.",
    )


def test_a_relay_pulls_in_on_direct_current() -> None:
    pulled = Drive("pulled", ((Threshold("coil", "amps", 0.02),),), (Threshold("coil", "amps", 0.01),), 0.02)
    made = rail()
    asleep = Network(60.0, made.branches, made.poles, (pulled,), sources=made.sources)
    settled = at_rest(columns(Layout(asleep), [(), (Patch("open", "coil"),), (Patch("scale", "12 V", 0.5),)]))
    places = settled.columns.layout.positions["pulled"]
    assert [places[row] for row in settled.state[0]] == [YES, NO, NO]


def test_two_sources_on_one_point_fight_by_name() -> None:
    made = rail()
    twice = Network(60.0, made.branches, (*made.poles, Pole("~12+", 5.0)), sources=made.sources)
    with pytest.raises(CircuitError) as caught:
        Layout(twice)
    assert caught.value.what == "12 V and the pole at ~12+ both hold the point ~12+."


def test_a_source_that_nothing_joins_to_the_rest_floats_by_name() -> None:
    made = rail()
    bare = tuple(branch for branch in made.branches if not branch.name.startswith("stray"))
    with pytest.raises(CircuitError, match="floats: nothing joins it to the rest of the network"):
        _at_rest(Network(60.0, bare, made.poles, sources=made.sources))


def test_what_is_read_against_earth_of_a_floating_rail_goes_with_the_meter() -> None:
    """Both ends hang on insulation: against earth a meter's 10 MΩ pulls either of them near to it."""
    settled = _at_rest(rail())
    wave = read_waves(settled, (settled.solution,), (("12V", "0V"), ("12V", EARTH)), HIGH_IMPEDANCE_OHM)[0]
    assert wave.mean[0, 0] == pytest.approx(12.0, rel=1e-3)
    assert abs(wave.mean[1, 0]) < 1.0


def test_a_threshold_can_watch_what_two_branches_add_up_to_and_what_stays_below() -> None:
    """A ground-fault device adds what goes out by the line and comes back by the neutral."""
    branches = (
        Branch("out", LINE, "top", 0.01),
        Branch("load", "top", "bottom", 12.0),
        Branch("back", NEUTRAL, "bottom", 0.01),
        Branch("leak", "top", EARTH, 1e4),
    )
    astray = Drive("trips", ((Threshold("out", "amps", 0.006, beside=("back",)),),), None, 0.1)
    calm = Drive("calm", ((Threshold("leak", "amps", 0.006, above=False),),), (), 0.1)
    made = with_strays(branches)
    network = Network(60.0, made.branches, POLES, (astray, calm))
    settled = at_rest(columns(Layout(network), [(), (Patch("open", "leak"),)]))
    rows = {drive.name: settled.columns.layout.variable_index[drive.name] for drive in (astray, calm)}
    assert settled.state[rows["trips"]].tolist() == [1, 0]
    assert settled.state[rows["calm"]].tolist() == [0, 1]

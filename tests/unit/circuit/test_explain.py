"""Why a network cannot be solved, in whole sentences: what floats together, and what fights through what."""

from __future__ import annotations

import pytest

from halfsplit.circuit import Branch, Layout, Network, Patch, Pole, Source, at_rest, columns
from halfsplit.errors import CircuitError

from .small import LINE, NEUTRAL, settle

POLES = (Pole(LINE, 120.0), Pole(NEUTRAL, 0.0))
LOAD = Branch("load", LINE, NEUTRAL, 10.0)
RAIL = Source("the 12 V rail", "12+", "12-", 0j, 12.0)


def _fails(network: Network) -> str:
    with pytest.raises(CircuitError) as caught:
        at_rest(columns(Layout(network), [()]))
    return caught.value.what


def _joined(name: str, a: str, b: str, ohm: float = 0.0) -> Branch:
    return Branch(name, a, b, ohm)


def test_every_point_that_floats_together_is_named() -> None:
    island = (_joined("one", "a", "b", 5.0), _joined("two", "b", "c", 1.0))
    what = _fails(Network(60.0, (*island, LOAD), POLES))
    assert what == "The points a, b and c hang together and nothing joins them to the rest."


def test_one_island_of_two_is_told_without_the_points_of_the_other() -> None:
    islands = (_joined("one", "a", "b", 5.0), _joined("two", "c", "d", 1.0))
    assert _fails(Network(60.0, (*islands, LOAD), POLES)) in (
        "The points a and b hang together and nothing joins them to the rest.",
        "The points c and d hang together and nothing joins them to the rest.",
    )


def test_an_island_is_that_of_the_fault_that_makes_it() -> None:
    """Sound, a and b hang on the line; with the feed open they hang on nothing. The first column does not fail."""
    fed = Network(60.0, (_joined("feed", LINE, "a", 1.0), _joined("one", "a", "b", 5.0), LOAD), POLES)
    with pytest.raises(CircuitError) as caught:
        settle(fed, (), (), (Patch("open", "feed"),))
    assert caught.value.what == "The points a and b hang together and nothing joins them to the rest."


def test_a_floating_source_is_told_with_all_that_hangs_on_it() -> None:
    fan = _joined("fan", "12+", "tap", 40.0)
    assert _fails(Network(60.0, (fan, LOAD), POLES, sources=(RAIL,))) == (
        "the 12 V rail floats: nothing joins it to the rest of the network. The points 12+, 12- and tap hang together."
    )


def test_two_poles_that_fight_through_branches_of_nothing_are_named_with_them() -> None:
    chain = (_joined("strap", LINE, "mid"), _joined("jumper", "mid", NEUTRAL))
    assert _fails(Network(60.0, (*chain, LOAD), POLES)) == (
        "The pole at L and the pole at N fight: their volts differ, and strap and jumper, which have no resistance, "
        "join them."
    )


def test_a_source_shorted_by_one_branch_is_named() -> None:
    short = _joined("link", "12+", "12-")
    assert _fails(Network(60.0, (short, LOAD), POLES, sources=(RAIL,))) == (
        "the 12 V rail is shorted by link, which has no resistance."
    )


def test_a_source_that_only_hangs_on_a_pole_fights_nobody() -> None:
    """The rail's low side on neutral is where it hangs; its high side on the line as well is a fight of three."""
    low = _joined("low side", "12-", NEUTRAL)
    hung = _fails(Network(60.0, (low, LOAD), POLES, sources=(RAIL,)))
    assert hung == "low side has no resistance at all."
    both = (low, _joined("high side", "12+", LINE))
    assert _fails(Network(60.0, (*both, LOAD), POLES, sources=(RAIL,))) == (
        "The pole at L, the pole at N and the 12 V rail fight: their volts differ, and low side and high side, which "
        "have no resistance, join them."
    )


def test_poles_of_the_same_volts_do_not_fight() -> None:
    alike = (*POLES, Pole("N2", 0.0))
    assert _fails(Network(60.0, (_joined("bond", NEUTRAL, "N2"), LOAD), alike)) == "bond has no resistance at all."


def test_a_coil_without_resistance_can_be_solved() -> None:
    coil = Branch("coil", LINE, NEUTRAL, 0.0, henry=0.5, dc_ohm=1.0)
    assert at_rest(columns(Layout(Network(60.0, (coil, LOAD), POLES)), [()])).columns.count == 1

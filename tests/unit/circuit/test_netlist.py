"""The SPICE text, word for word."""

from __future__ import annotations

import numpy as np

from halfsplit.circuit import Branch, Layout, Network, Patch, Pole, at_rest, columns, spice, when
from tests.unit.circuit.small import settle

COIL = Network(
    50.0,
    (
        Branch("switch", "L", "top", 0.01, condition=when("switch", "on")),
        Branch("coil", "top", "N", 100.0, 0.5, 1e-9),
        Branch("never closed", "top", "N", 1.0, condition=when("switch", "off")),
    ),
    (Pole("L", 230.0), Pole("N", 0.0)),
    variables={"switch": ("on", "off")},
)
DECK = """\
* a coil
* n0 = L
* n1 = N
* n2 = top
V0 n0 0 DC 0 AC 230 0
V1 n1 0 DC 0 AC 0 0
* switch
R0 n0 n2 0.01
* coil
R1 n2 x1 100
L1 x1 n1 0.5
C1 n2 n1 1e-09
.ac lin 1 50 50
.print ac all
.end
"""


def test_a_deck_has_every_pole_and_every_branch_that_conducts() -> None:
    assert spice(settle(COIL), title="a coil") == DECK


def test_a_fault_is_in_the_deck_of_its_own_column() -> None:
    faults = (Patch("series", "coil", 20.0), Patch("closed", "never closed"), Patch("scale", "L", -0.5))
    faulty = (
        DECK.replace("AC 230 0", "AC 115 180")
        .replace("x1 100", "x1 120")
        .replace(".ac", "* never closed\nR2 n2 n1 1\n.ac")
    )
    settled = settle(COIL, (), (), faults)
    assert (spice(settled, 0, "a coil"), spice(settled, 1, "a coil")) == (DECK, faulty)


def test_a_part_at_the_edge_of_its_tolerance_is_scaled_in_the_deck() -> None:
    made = columns(Layout(COIL), [()]).repeat([(np.array([1.0, 1.25, 1.0]), np.array([1.1, 1.0]))])
    scaled = (
        DECK.replace("AC 230 0", "AC 253 0")
        .replace("x1 100", "x1 125")
        .replace("n1 0.5", "n1 0.625")
        .replace("1e-09", "8e-10")
    )
    assert spice(at_rest(made), title="a coil") == scaled

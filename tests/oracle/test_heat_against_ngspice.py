"""Heat over time against ngspice: a body is a capacitor, a link a resistor, heating a current, radiation a power.

Twenty random networks from one kept seed, followed for up to three hours, and one that radiates. Within 0.1 % of the
rise or 10 mK, which is ngspice's own step.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from halfsplit.heat import Body, HeatNetwork, Link, Radiant, Stream
from halfsplit.heat.bodies import STEFAN_BOLTZMANN
from halfsplit.heat.curve import steady, warm
from tests.oracle.heated import Heated, drawn_heated
from tests.oracle.ngspice import run_decks

SEED, COUNT = 20260421, 20


def _deck(network: HeatNetwork, watts: dict[str, float], seconds: float) -> str:
    """Volts for °C, amps for watts: held bodies are sources, the others begin at their temperature."""
    node = {body.name: f"t{number}" for number, body in enumerate(network.bodies)}
    lines = ["* heat"]
    for number, body in enumerate(network.bodies):
        if body.joule_per_kelvin is None:
            lines.append(f"V{number} {node[body.name]} 0 DC {body.celsius:.12g}")
        else:
            lines.append(f"C{number} {node[body.name]} 0 {body.joule_per_kelvin:.12g} IC={body.celsius:.12g}")
        lines.append(f"I{number} 0 {node[body.name]} DC {watts.get(body.name, 0.0):.12g}")
    for number, link in enumerate(network.links):
        a, b = node[link.a], node[link.b]
        if isinstance(link, Link):
            lines.append(f"R{number} {a} {b} {1.0 / link.watt_per_kelvin:.12g}")
        elif isinstance(link, Stream):
            lines.append(f"G{number} 0 {b} {a} {b} {link.watt_per_kelvin:.12g}")
        else:
            assert isinstance(link, Radiant)
            factor = STEFAN_BOLTZMANN * link.emissivity * link.square_metres
            lines.append(f"B{number} {a} {b} I={factor:.12g}*((V({a})+273.15)^4-(V({b})+273.15)^4)")
    step = seconds / 2000.0
    return "\n".join([*lines, f".tran {step:.12g} {seconds:.12g} 0 {step:.12g} UIC", ".end", ""])


def _compare(cases: list[Heated], ngspice: Path, folder: Path) -> None:
    answers = run_decks(ngspice, [_deck(*case) for case in cases], folder)
    for (network, watts, seconds), vectors in zip(cases, answers, strict=True):
        curve = warm(network, watts, seconds)
        for number, body in enumerate(network.bodies):
            if body.name not in curve.celsius:
                continue
            theirs = np.interp(curve.seconds, vectors["time"].real, vectors[f"v(t{number})"].real)
            rise = np.abs(theirs - body.celsius).max()
            assert curve.celsius[body.name][-1] == pytest.approx(theirs[-1], abs=max(0.01, 1e-3 * rise))


def test_random_networks_end_where_ngspice_ends(ngspice_path: Path, tmp_path: Path) -> None:
    cases = drawn_heated(SEED, COUNT)
    assert len(cases) == COUNT
    assert any(isinstance(link, Stream) for network, _, _ in cases for link in network.links)
    _compare(cases, ngspice_path, tmp_path)


def test_an_oven_that_radiates_warms_as_in_ngspice_and_comes_to_rest_there(ngspice_path: Path, tmp_path: Path) -> None:
    network = HeatNetwork(
        (Body("element", 20.0, 400.0), Body("cavity", 20.0, 6e3), Body("room", 20.0)),
        (Radiant("element", "cavity", 0.12, 0.8), Link("element", "cavity", 0.5), Link("cavity", "room", 6.0)),
    )
    watts = {"element": 2400.0}
    _compare([(network, watts, 900.0), (network, watts, 2e4)], ngspice_path, tmp_path)
    rest = warm(network, watts, 2e4).celsius
    end = steady(network, watts)
    assert (rest["element"][-1], rest["cavity"][-1]) == pytest.approx((end["element"], end["cavity"]), abs=0.01)
    assert end["cavity"] == pytest.approx(20.0 + 2400.0 / 6.0, abs=1e-3)

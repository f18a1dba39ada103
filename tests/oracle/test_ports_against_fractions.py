"""What floats, against exact rational arithmetic: sources and transformers on teraohms, wires of micro-ohms inside.

The reference is modified nodal analysis (Ho, Ruehli & Brennan 1975) in fractions: no digit is lost in it, so whatever
differs is ours alone. Real networks only, as fractions have no imaginary part; that is the algebra that could cancel.
"""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest

from halfsplit.circuit import Branch, Layout, Network, Pole, Source, Transformer, Winding, at_rest, columns, read_ohms

Row = dict[str, Fraction]
"""A linear form: unknown to factor; the key "" is the constant."""


def _exact(network: Network, *, direct: bool) -> dict[str, Fraction]:
    """Volts of every point."""
    held = {pole.point: Fraction(0 if direct else pole.volts.real) for pole in network.poles}
    rows: dict[str, Row] = {point: {} for point in network.points() if point not in held}
    for branch in network.branches:
        siemens = 1 / Fraction(branch.ohm)
        for here, there in ((branch.a, branch.b), (branch.b, branch.a)):
            if here in rows:
                _add(rows[here], here, siemens, held)
                _add(rows[here], there, -siemens, held)
    for source in network.sources:
        name, volts = f"amps {source.name}", source.direct if direct else source.volts.real
        rows[source.high][name], rows[source.low][name] = Fraction(1), Fraction(-1)
        rows[name] = {source.high: Fraction(1), source.low: Fraction(-1), "": -Fraction(volts)}
    for made in network.transformers:
        _wind(rows, made, direct=direct)
    return {**held, **{name: value for name, value in _solved(rows).items() if not name.startswith("amps")}}


def _wind(rows: dict[str, Row], made: Transformer, *, direct: bool) -> None:
    """Volts by turns, ampere-turns that add up to nothing; for direct current every winding is bare wire."""
    first, balance = made.windings[0], Row()
    for number, winding in enumerate(made.windings):
        name = f"amps {made.name} {number}"
        rows[winding.high][name], rows[winding.low][name] = Fraction(1), Fraction(-1)
        balance[name] = Fraction(winding.turns)
        if direct:
            rows[name] = {winding.high: Fraction(1), winding.low: Fraction(-1)}
        elif number:
            ratio = Fraction(winding.turns) / Fraction(first.turns)
            rows[name] = {winding.high: Fraction(1), winding.low: Fraction(-1), first.high: -ratio, first.low: ratio}
    if not direct:
        rows[f"amps {made.name} 0"] = balance


def _add(row: Row, point: str, siemens: Fraction, held: dict[str, Fraction]) -> None:
    name, factor = ("", siemens * held[point]) if point in held else (point, siemens)
    row[name] = row.get(name, Fraction(0)) + factor


def _solved(rows: dict[str, Row]) -> dict[str, Fraction]:
    """Gaussian elimination on forms that are all nothing."""
    waiting, order = [dict(row) for row in rows.values()], []
    for unknown in rows:
        pivot = next(row for row in waiting if row.get(unknown))
        waiting.remove(pivot)
        order.append((unknown, pivot))
        for row in waiting:
            factor = row.get(unknown, Fraction(0)) / pivot[unknown]
            if factor:
                for name, value in pivot.items():
                    row[name] = row.get(name, Fraction(0)) - factor * value
                row.pop(unknown, None)
    found: dict[str, Fraction] = {"": Fraction(1)}
    for unknown, pivot in reversed(order):
        rest = sum((value * found[name] for name, value in pivot.items() if name != unknown), Fraction(0))
        found[unknown] = -rest / pivot[unknown]
    del found[""]
    return found


def _drawn(seed: int) -> Network:
    """Strings of micro-ohm wires and loads behind a source and a transformer, tied to the rest by 1e9 to 1e15 Ω."""
    rng = np.random.default_rng(seed)
    poles = (Pole("L", 120.0), Pole("N", 0.0), Pole("G", 0.0))
    source = Source("rail", "~r+", "~r-", volts=float(rng.uniform(0, 5)), direct=float(rng.uniform(3, 24)))
    core = Transformer("core", (Winding("~p+", "~p-", 120.0), Winding("~s+", "~s-", float(rng.uniform(6, 300)))))
    branches = [
        Branch("feed", "L", "~p+", 10 ** rng.uniform(-6, 2)),
        Branch("back", "~p-", "N", 10 ** rng.uniform(-6, 0)),
    ]
    branches.append(Branch("core loss", "~p+", "~p-", 10 ** rng.uniform(2, 4)))
    for name in ("r", "s"):
        string = [f"~{name}+", *(f"{name}{number}" for number in range(4)), f"~{name}-"]
        for number, (a, b) in enumerate(pairwise(string)):
            ohm = 10 ** rng.uniform(-6, -2) if number != 2 else 10 ** rng.uniform(0, 9)
            branches.append(Branch(f"{name} wire {number}", a, b, ohm))
        branches += [Branch(f"{name} stray {p}", p, "G", 10 ** rng.uniform(9, 15)) for p in string[1:-1]]
    if seed % 3 == 0:
        branches.append(Branch("tie", "r1", "s2", 10 ** rng.uniform(-6, 6)))
    if seed % 4 == 0:
        branches.append(Branch("on line", "s3", "L", 10 ** rng.uniform(-6, 12)))
    return Network(60.0, tuple(branches), poles, sources=(source,), transformers=(core,))


@pytest.mark.parametrize("seed", range(24))
def test_volts_of_what_floats_are_exact_to_the_last_digits(seed: int) -> None:
    network = _drawn(seed)
    solution = at_rest(columns(Layout(network), [()])).solution
    steady = solution.halves[0].steady
    assert steady is not None
    for ours, direct in ((solution.volts[:, 0].real, False), (steady[:, 0], True)):
        exact = _exact(network, direct=direct)
        worst = max(
            abs(Fraction(float(volts)) - exact[point]) for point, volts in zip(network.points(), ours, strict=True)
        )
        assert worst < Fraction(1, 10**11)  # rounding, beside 120 V and up to 300


@pytest.mark.parametrize("seed", range(12))
def test_ohms_across_a_floating_string_are_exact_to_a_part_in_ten_million(seed: int) -> None:
    """A battery behind 1 kΩ across the pair, in fractions, against the impedance; both ends hang on strays."""
    network = _drawn(seed)
    (ohms,) = read_ohms(at_rest(columns(Layout(network), [()])), (("r0", "r3"),))
    quiet = tuple(Source(source.name, source.high, source.low) for source in network.sources)
    battery = (Branch("meter", "r0", "~m+", 1e3), Branch("lead", "~m-", "r3", 1e-6))
    driven = Network(
        60.0,
        (*network.branches, *battery),
        network.poles,
        sources=(*quiet, Source("battery", "~m+", "~m-", direct=1.0)),
        transformers=network.transformers,
    )
    exact = _exact(driven, direct=True)
    theirs = float((exact["r0"] - exact["r3"]) / (exact["~m+"] - exact["r0"]) * 1000)
    assert ohms[0] == (pytest.approx(theirs, rel=1e-7) if theirs < 40e6 else math.inf)

"""Random networks, drawn by Hypothesis from seeds that are kept: the same ones on every machine and every day.

What may live here: drawing networks of every kind of thing the engine holds, in one state, with faults. Values are
those of a machine's wiring: 5 mΩ to 1 MΩ, strays of 30 pF, coils up to 1 H, capacitors up to 100 µF.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass, replace

import numpy as np
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from halfsplit.circuit import (
    Branch,
    Layout,
    Network,
    Patch,
    Pole,
    Settled,
    Source,
    Step,
    Transformer,
    Winding,
    columns,
    replay,
    when,
)

LIVE, OTHER, EARTH = "live", "other", "earth"
LEGS = {"opposite": -1 + 0j, "wye": cmath.rect(1.0, math.radians(-120.0)), "none": 0j}
SWITCHES = ("first", "second")
OFF, ON = "off", "on"


@dataclass(frozen=True, slots=True)
class Case:
    """A network, what a person does with it, and the faults it is solved under, one column each."""

    network: Network
    steps: tuple[Step, ...] = ()
    variants: tuple[tuple[Patch, ...], ...] = ((),)

    def settled(self) -> Settled:
        """All columns after the steps."""
        return replay(columns(Layout(self.network), self.variants), self.steps)


def drawn(strategy: st.SearchStrategy[Case], fixed: int, count: int) -> list[Case]:
    """So many different cases from a fixed seed; they are collected first, because one ngspice takes them all."""
    found: dict[str, Case] = {}
    quiet = settings(
        max_examples=2 * count,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )

    @seed(fixed)
    @quiet
    @given(strategy)
    def collect(case: Case) -> None:
        found.setdefault(repr(case), case)

    collect()
    return list(found.values())[:count]


def between(low: float, high: float) -> st.SearchStrategy[float]:
    """A number whose logarithm is drawn evenly."""
    return st.floats(np.log10(low), np.log10(high)).map(lambda power: float(10.0**power))


def two_of(points: list[str]) -> st.SearchStrategy[list[str]]:
    """Two different points."""
    return st.lists(st.sampled_from(points), min_size=2, max_size=2, unique=True)


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """Any network, with contacts, faults, and in two of three what floats: a source, a transformer."""
    network = draw(networks())
    steps = tuple((name, draw(st.sampled_from((OFF, ON)))) for name in SWITCHES)
    return Case(network, steps, ((), *draw(st.lists(_faults(network), min_size=2, max_size=2))))


@st.composite
def networks(draw: st.DrawFn) -> Network:
    """Poles, free points with a stray each, and branches between any of them."""
    volts = draw(st.sampled_from((120.0, 230.0)))
    beside = volts * LEGS[draw(st.sampled_from(sorted(LEGS)))]
    poles = (Pole(LIVE, volts), Pole(OTHER, beside), Pole(EARTH, 0.0))
    free = [f"p{number}" for number in range(draw(st.integers(2, 8)))]
    points = [*free, LIVE, OTHER, EARTH]
    branches = [Branch(f"stray {point}", point, EARTH, 1e10, farad=30e-12) for point in free]
    branches += [draw(_branch(f"b{number}", points)) for number in range(draw(st.integers(3, 16)))]
    network = Network(
        draw(st.sampled_from((50.0, 60.0))),
        tuple(branches),
        poles,
        variables=dict.fromkeys(SWITCHES, (OFF, ON)),
    )
    if not draw(st.sampled_from((True, True, False))):
        return network
    return draw(_with_transformer(draw(_with_source(network, points)), points))


@st.composite
def _branch(draw: st.DrawFn, name: str, points: list[str]) -> Branch:
    a, b = draw(two_of(points))
    henry = draw(st.sampled_from([0.0, 0.0, 1.0])) and draw(between(1e-3, 1.0))
    farad = draw(st.sampled_from([0.0, 0.0, 0.0, 1.0])) and draw(between(1e-9, 1e-4))
    condition = draw(st.sampled_from([((),), ((),), *(when(name, ON) for name in SWITCHES), when(SWITCHES[0], OFF)]))
    return Branch(name, a, b, draw(between(5e-3, 1e6)), henry, farad, condition=condition)


@st.composite
def _with_source(draw: st.DrawFn, network: Network, points: list[str]) -> Network:
    """A source behind a resistance at each end: direct, alternating, or both."""
    a, b = draw(two_of(points))
    inside = (Branch("source out", "~high", a, draw(between(0.01, 10.0))), Branch("source back", "~low", b, 0.01))
    volts = draw(st.sampled_from([0j, 0j, 12 + 0j, 24j]))
    source = Source("source", "~high", "~low", volts, draw(st.sampled_from([5.0, 12.0, -24.0])))
    return replace(network, branches=(*network.branches, *inside), sources=(source,))


@st.composite
def _with_transformer(draw: st.DrawFn, network: Network, points: list[str]) -> Network:
    """Two or three windings, each behind its resistance, and a magnetising coil on the first."""
    windings, branches = [], [Branch("magnetising", "~high 0", "~low 0", 40.0, draw(between(0.5, 10.0)))]
    for number in range(draw(st.integers(2, 3))):
        high, low = f"~high {number}", f"~low {number}"
        a, b = draw(two_of(points))
        windings.append(Winding(high, low, draw(st.sampled_from([120.0, 26.0, 13.0, -13.0]))))
        branches += [Branch(f"w{number}", high, a, draw(between(0.1, 50.0))), Branch(f"back {number}", low, b, 0.01)]
    core = Transformer("core", tuple(windings))
    return replace(network, branches=(*network.branches, *branches), transformers=(core,))


def _faults(network: Network) -> st.SearchStrategy[tuple[Patch, ...]]:
    names = st.sampled_from([branch.name for branch in network.branches if branch.name.startswith("b")])
    held = [LIVE, OTHER, *(source.name for source in network.sources)]
    patch = st.one_of(
        st.builds(Patch, st.sampled_from(["open", "closed"]), names),
        st.builds(Patch, st.just("series"), names, between(0.1, 1e4)),
        st.builds(Patch, st.just("scale"), st.sampled_from(held), st.floats(0.5, 1.5)),
    )
    return st.lists(patch, min_size=1, max_size=3).map(tuple)


@st.composite
def half_wave_cases(draw: st.DrawFn) -> Case:
    """Resistances with one to three diodes on one leg or two, no point of it without a way to the poles."""
    volts = draw(st.sampled_from((120.0, 230.0)))
    poles = (Pole(LIVE, volts), Pole(OTHER, draw(st.sampled_from([-volts, 0.0]))), Pole(EARTH, 0.0))
    points, branches = [LIVE, OTHER, EARTH], []
    for number in range(draw(st.integers(2, 5))):
        branches.append(Branch(f"way {number}", draw(st.sampled_from(points)), f"p{number}", draw(between(5.0, 5e3))))
        points.append(f"p{number}")
    for number in range(draw(st.integers(1, 5))):
        a, b = draw(two_of(points))
        branches.append(Branch(f"b{number}", a, b, draw(between(5.0, 5e3))))
    for number in range(draw(st.integers(1, 3))):
        a, b = draw(two_of([*points[3:], draw(st.sampled_from(points[:3]))]))
        branches.append(Branch(f"diode {number}", a, b, draw(between(0.02, 1.0)), one_way=True))
    return Case(Network(draw(st.sampled_from((50.0, 60.0))), tuple(branches), poles))

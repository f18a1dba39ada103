"""Small networks whose supplies float, and ones with diodes: what star-mesh alone cannot hold.

Invented; values as in a machine's low-voltage side (common practice, from memory).
"""

from __future__ import annotations

from halfsplit.circuit import Branch, Network, Pole, Source, Transformer, Winding

LINE, NEUTRAL, EARTH = "L", "N", "G"
POLES = (Pole(LINE, 120.0), Pole(NEUTRAL, 0.0), Pole(EARTH, 0.0))


def with_strays(
    branches: tuple[Branch, ...],
    sources: tuple[Source, ...] = (),
    transformers: tuple[Transformer, ...] = (),
    poles: tuple[Pole, ...] = POLES,
) -> Network:
    """The network with a stray from every point that no pole holds to earth."""
    bare = Network(60.0, branches, poles, sources=sources, transformers=transformers)
    held = {pole.point for pole in poles} | set(bare.held_pairs())
    strays = tuple(Branch(f"stray {p}", p, EARTH, 1e9, farad=30e-12) for p in bare.points() if p not in held)
    return Network(60.0, (*branches, *strays), poles, sources=sources, transformers=transformers)


def rail(*more: Branch) -> Network:
    """A 12 V rail behind 0.1 Ω with a relay's coil, and 5 V with a thermistor behind its pull-up."""
    branches = (
        Branch("rail inside", "~12+", "12V", 0.1),
        Branch("rail back", "~12-", "0V", 0.001),
        Branch("coil", "12V", "switched", 400.0, 2.0),
        Branch("output", "switched", "0V", 0.5),
        Branch("logic inside", "~5+", "5V", 0.1),
        Branch("logic back", "~5-", "0V", 0.001),
        Branch("pull-up", "5V", "sensed", 10e3),
        Branch("thermistor", "sensed", "0V", 12.47e3),
        Branch("motor", LINE, NEUTRAL, 30.0, 0.05),
    )
    sources = (Source("12 V", "~12+", "~12-", direct=12.0), Source("5 V", "~5+", "~5-", direct=5.0))
    return with_strays((*branches, *more), sources)


def control_transformer(*more: Branch) -> Network:
    """120 V to two secondaries of 24 V: winding ohms outside, magnetising current beside the first."""
    branches = (
        Branch("primary", LINE, "~p1", 8.0),
        Branch("primary back", "~p2", NEUTRAL, 1e-3),
        Branch("magnetising", "~p1", "~p2", 40.0, 4.0),
        Branch("secondary", "~s1", "24V", 0.6),
        Branch("secondary back", "~s2", "COM", 1e-3),
        Branch("third", "~t1", "T1", 1.1),
        Branch("third back", "~t2", "T2", 1e-3),
        Branch("valve", "24V", "COM", 20.0, 0.1),
        Branch("lamp", "T1", "T2", 48.0),
    )
    core = Transformer(
        "transformer", (Winding("~p1", "~p2", 120.0), Winding("~s1", "~s2", 26.0), Winding("~t1", "~t2", 13.0))
    )
    return with_strays((*branches, *more), transformers=(core,))


def diode(name: str, a: str, b: str, ohm: float = 0.02) -> Branch:
    """A diode that conducts from a to b."""
    return Branch(name, a, b, ohm, one_way=True)

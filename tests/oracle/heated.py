"""Random networks of bodies that are heated, for ngspice and for the laws."""

from __future__ import annotations

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from halfsplit.heat import Body, HeatNetwork, Link, Stream
from tests.oracle.networks import between

Heated = tuple[HeatNetwork, dict[str, float], float]
"""Bodies and links, what heats which, and for how many seconds."""


@st.composite
def heated(draw: st.DrawFn) -> Heated:
    """Two to five bodies, each with a way to the room, some linked to each other, one or two heated."""
    names = [f"body {number}" for number in range(draw(st.integers(2, 5)))]
    bodies = [Body(name, draw(st.floats(-10.0, 90.0)), draw(between(50.0, 2e4))) for name in names]
    links: list[Link | Stream] = [Link(name, "room", draw(between(0.05, 20.0))) for name in names]
    for _ in range(draw(st.integers(0, 5))):
        a, b = draw(st.lists(st.sampled_from(names), min_size=2, max_size=2, unique=True))
        links.append(draw(st.sampled_from((Link, Stream)))(a, b, draw(between(0.05, 20.0))))
    watts = {name: draw(between(1.0, 2e3)) for name in names[: draw(st.integers(1, 2))]}
    return HeatNetwork((*bodies, Body("room", 20.0)), tuple(links)), watts, draw(between(60.0, 1e4))


def drawn_heated(fixed: int, count: int) -> list[Heated]:
    """So many different ones from a fixed seed."""
    found: dict[str, Heated] = {}

    @seed(fixed)
    @settings(
        max_examples=2 * count,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(heated())
    def collect(case: Heated) -> None:
        found.setdefault(repr(case), case)

    collect()
    return list(found.values())[:count]

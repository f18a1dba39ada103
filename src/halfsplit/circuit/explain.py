"""Why a network cannot be solved, in words: which points float together, or which sources fight over what.

What may live here: graph work on a network that failed already. Nothing here is called as long as all goes well.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from halfsplit.circuit.network import Branch, Network
from halfsplit.errors import CircuitError

_REFERENCE = ""
_VOLTS_ALIKE = 1e-9
_ROUNDABOUT = "Put some resistance into one of them, or leave one of the holders out."


def island(joins: Iterable[tuple[int, int]], start: Iterable[int]) -> tuple[int, ...]:
    """All points that hang together with those at `start`, in order of number."""
    beside: dict[int, list[int]] = {}
    for a, b in joins:
        beside.setdefault(a, []).append(b)
        beside.setdefault(b, []).append(a)
    found = set(start)
    waiting = deque(found)
    while waiting:
        for other in beside.get(waiting.popleft(), []):
            if other not in found:
                found.add(other)
                waiting.append(other)
    return tuple(sorted(found))


def floating_points(names: Sequence[str]) -> CircuitError:
    """The error for points that hang together on nothing."""
    if len(names) == 1:
        return CircuitError(
            f"The point {names[0]} floats: nothing joins it to the rest of the network.",
            "Give it a wire, or stray capacitance.",
        )
    return CircuitError(
        f"The points {listed(names)} hang together and nothing joins them to the rest.",
        "Give one of them a wire, or stray capacitance.",
    )


def floating_source(source: str, names: Sequence[str]) -> CircuitError:
    """The error for a source or winding that hangs on nothing, with all points that hang on it."""
    return CircuitError(
        f"{source} floats: nothing joins it to the rest of the network. The points {listed(names)} hang together.",
        "Give one of them a wire, or stray capacitance.",
    )


def listed(names: Sequence[str]) -> str:
    """Names as a sentence has them.

    >>> listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])
    ('a', 'a and b', 'a, b and c')
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def no_resistance(network: Network, bare: Sequence[Branch]) -> CircuitError:
    """The error for branches without resistance or inductance: who fights through them, or that they are there.

    Kirchhoff's voltage law is all there is to it: walked along what holds volts and along `bare`, each point has one
    height, and where two ways to a point give two heights, those who hold volts on the way round fight.
    """
    ring = _ring(network, bare)
    if ring is None:
        return CircuitError(
            f"{listed([branch.name for branch in bare])} {'have' if len(bare) > 1 else 'has'} no resistance at all.",
            "Give every branch some ohms; a micro-ohm will do.",
        )
    holders, branches = ring
    through = f"{listed(branches)}, which {'have' if len(branches) > 1 else 'has'} no resistance"
    if len(holders) == 1:
        return CircuitError(f"{_first(holders)} is shorted by {through}.", _ROUNDABOUT)
    joined = "join" if len(branches) > 1 else "joins"
    return CircuitError(f"{_first(holders)} fight: their volts differ, and {through}, {joined} them.", _ROUNDABOUT)


def _first(holders: Sequence[str]) -> str:
    """Names at the start of a sentence; a part's own name keeps its letters."""
    text = listed(holders)
    return f"T{text[1:]}" if text.startswith("the pole") else text


Volts = tuple[complex, float]
"""A height: phasor and direct volts."""


@dataclass(frozen=True, slots=True)
class _Link:
    """A way from one point to another that raises the volts by a known amount."""

    name: str
    a: str
    b: str
    rise: Volts
    holds: bool


def _ring(network: Network, bare: Sequence[Branch]) -> tuple[list[str], list[str]] | None:
    """The first way round on which the volts do not come out: who holds volts on it, and the branches."""
    links = [
        _Link(f"the pole at {pole.point}", _REFERENCE, pole.point, (pole.volts, 0.0), True) for pole in network.poles
    ]
    links += [_Link(it.name, it.low, it.high, (it.volts, it.direct), True) for it in network.sources]
    links += [_Link(branch.name, branch.a, branch.b, (0j, 0.0), False) for branch in bare]
    reached: dict[str, tuple[Volts, _Link | None, str]] = {}
    for start in (_REFERENCE, *(link.a for link in links)):
        if start not in reached:
            odd = _walk(start, links, reached)
            if odd is not None:
                return _named(_round(odd, reached), links)
    return None


def _walk(start: str, links: Sequence[_Link], reached: dict[str, tuple[Volts, _Link | None, str]]) -> _Link | None:
    """Give every point that `start` reaches its height; the link that contradicts, if one does."""
    reached[start] = ((0j, 0.0), None, start)
    waiting = deque([start])
    while waiting:
        here = waiting.popleft()
        height = reached[here][0]
        for link in links:
            if here not in (link.a, link.b):
                continue
            there, sign = (link.b, 1) if here == link.a else (link.a, -1)
            found = (height[0] + sign * link.rise[0], height[1] + sign * link.rise[1])
            if there not in reached:
                reached[there] = (found, link, here)
                waiting.append(there)
            elif max(abs(found[0] - reached[there][0][0]), abs(found[1] - reached[there][0][1])) > _VOLTS_ALIKE:
                return link
    return None


def _round(odd: _Link, reached: Mapping[str, tuple[Volts, _Link | None, str]]) -> set[_Link]:
    """The links of the way round through `odd`: the two ways back, up to where they meet."""
    return {*_way_back(odd.a, reached)} ^ {*_way_back(odd.b, reached)} | {odd}


def _named(ring: set[_Link], links: Sequence[_Link]) -> tuple[list[str], list[str]]:
    """Names in the network's own order, those that hold volts apart from those that only join."""
    found = [link for link in links if link in ring]
    return [link.name for link in found if link.holds], [link.name for link in found if not link.holds]


def _way_back(point: str, reached: Mapping[str, tuple[Volts, _Link | None, str]]) -> list[_Link]:
    way = []
    _, link, before = reached[point]
    while link is not None:
        way.append(link)
        _, link, before = reached[before]
    return way

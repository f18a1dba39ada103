"""The order in which points are eliminated: star-mesh reduction, planned once for a network's shape.

What may live here: graph work on integers. It never sees a number of the circuit.

Eliminating point k with neighbours i, j… leaves the edge (i, j) with w_ij + w_ik w_jk / Σ w_k (Rosen's star-mesh
theorem, 1924). The order is by least degree, which keeps the fill small on machine wiring (about 3 neighbours).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Index = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Step:
    """Elimination of one point: its neighbours, the edges to them, and the mesh edges that take the fill."""

    point: int
    neighbours: Index
    edges: Index
    first: Index
    second: Index
    fill: Index


@dataclass(frozen=True, slots=True)
class Plan:
    """All steps, and which branches make which edge.

    Attributes:
        steps: Eliminations in order.
        branch_order: Branches in order of their edge, parallel ones side by side.
        edge_starts: Where in `branch_order` each edge begins.
        edges: How many edges there are, those that only take fill included (they come last).
        kept_edges: Edges left between points that stay, those between two poles left out, shape (K,).
        kept_ends: Their points, shape (K, 2).
    """

    steps: tuple[Step, ...]
    branch_order: Index
    edge_starts: Index
    edges: int
    kept_edges: Index
    kept_ends: Index


def make_plan(branch_ends: list[tuple[int, int]], points: int, poles: int, ports: int = 0) -> Plan:
    """Plan the elimination of every point but the first `poles` + `ports`, which stay.

    Args:
        branch_ends: For each branch the indices of its two points.
        points: How many points there are.
        poles: How many of them, counted from 0, are poles.
        ports: How many of the next are points of sources and windings.
    """
    links: list[dict[int, int]] = [{} for _ in range(points)]
    branch_edge = [_edge(links, a, b, number) for number, (a, b) in _numbered(branch_ends)]
    order = np.argsort(branch_edge, kind="stable")
    total = len(set(branch_edge))
    starts = np.searchsorted(np.array(branch_edge)[order], np.arange(total))
    steps = []
    waiting = set(range(poles + ports, points))
    while waiting:
        point = min(waiting, key=lambda candidate: (len(links[candidate]), candidate))
        waiting.remove(point)
        step, total = _eliminate(links, point, poles, total)
        steps.append(step)
    kept = _kept(links, poles, ports)
    ends = np.array([ends for _, ends in kept], dtype=np.intp).reshape(-1, 2)
    return Plan(tuple(steps), order, starts, total, np.array([edge for edge, _ in kept], dtype=np.intp), ends)


def _kept(links: list[dict[int, int]], poles: int, ports: int) -> list[tuple[int, tuple[int, int]]]:
    """What is left when all is eliminated: edges with a port at one end at least."""
    return [
        (edge, (port, other))
        for port in range(poles, poles + ports)
        for other, edge in sorted(links[port].items())
        if other < port
    ]


def _numbered(ends: list[tuple[int, int]]) -> list[tuple[int, tuple[int, int]]]:
    """Give every distinct pair of points the next edge number, parallel branches the same one."""
    numbers: dict[frozenset[int], int] = {}
    return [(numbers.setdefault(frozenset(pair), len(numbers)), pair) for pair in ends]


def _edge(links: list[dict[int, int]], a: int, b: int, number: int) -> int:
    if a != b:  # both ends on one point: it carries nothing
        links[a][b] = number
        links[b][a] = number
    return number


def _eliminate(links: list[dict[int, int]], point: int, poles: int, total: int) -> tuple[Step, int]:
    neighbours = sorted(links[point])
    edges = [links[point][other] for other in neighbours]
    first, second, fill = [], [], []
    for i, here in enumerate(neighbours):
        del links[here][point]
        for j in range(i + 1, len(neighbours)):
            there = neighbours[j]
            if here < poles and there < poles:
                continue  # both are poles: what flows between them changes no voltage
            if there not in links[here]:
                _edge(links, here, there, total)
                total += 1
            first.append(i)
            second.append(j)
            fill.append(links[here][there])
    arrays = (np.array(values, dtype=np.intp) for values in (neighbours, edges, first, second, fill))
    return Step(point, *arrays), total

"""The way through a link: from one pole of the supply to another with the fewest branches, never twice over a terminal.

What may live here: best-first search on links. A way counts only if its contacts can all be closed at once, so that no
rung runs through both throws of one switch. Loads on the way cost much, so that a rung runs through as few as it can;
a contact that only the running machine closes costs a little, so that the way that starts it comes first.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import count

from halfsplit.circuit import NO, Condition
from halfsplit.drawing.graph import Link

_LOAD_COST, _SELF_MOVED_COST = 1000, 20
_MOST_STATES = 20_000
"""Where a search gives up. The dryer needs at most a few hundred; a link not reached is drawn as a left-over."""

Known = tuple[dict[str, frozenset[str]], ...]
"""Alternatives, each what a set of closed contacts says about where the variables stand."""
EVERYTHING: Known = ({},)


@dataclass(frozen=True, slots=True)
class Graph:
    """Links by terminal, the terminals where the supply comes in, and the variables the machine itself moves."""

    at: Mapping[str, tuple[Link, ...]]
    supply: tuple[str, ...]
    moved_by_itself: frozenset[str]


@dataclass(frozen=True, slots=True)
class _Way:
    """A way under construction: first from one end of the middle link to a pole, then from its other end."""

    links: tuple[Link, ...]
    here: str
    visited: frozenset[str]
    known: Known
    first_pole: str = ""


def make_graph(links: Iterable[Link], supply: Iterable[str], moved_by_itself: Iterable[str]) -> Graph:
    """A graph of `links`."""
    at: dict[str, list[Link]] = {}
    for link in links:
        for point in (link.a, link.b):
            at.setdefault(point, []).append(link)
    return Graph({point: tuple(found) for point, found in at.items()}, tuple(supply), frozenset(moved_by_itself))


def way_through(graph: Graph, middle: Link) -> tuple[str, tuple[Link, ...]] | None:
    """The cheapest way through `middle` and at least one load.

    Returns:
        The terminal it begins at and its links in order, or None if there is no such way.
    """
    to_go = _costs_to_supply(graph)
    if middle.a not in to_go or middle.b not in to_go:
        return None
    tie = count()
    heap = [(0, next(tie), 0, _Way((middle,), middle.a, middle.ends, narrowed(EVERYTHING, middle.conducts)))]
    for _ in range(_MOST_STATES):
        if not heap:
            break
        _, _, spent, way = heapq.heappop(heap)
        if way.here in graph.supply and way.first_pole:
            if any(link.is_load for link in way.links):
                return way.first_pole, way.links
            continue
        for cost, after in _onwards(graph, middle, way):
            left = to_go[after.here] + (0 if after.first_pole else to_go[middle.b])
            heapq.heappush(heap, (spent + cost + left, next(tie), spent + cost, after))
    return None


def narrowed(known: Known, condition: Condition) -> Known:
    """What is known once `condition` holds too; empty if it cannot."""
    found: dict[frozenset[tuple[str, frozenset[str]]], dict[str, frozenset[str]]] = {}
    for before in known:
        for alternative in condition:
            after = dict(before)
            for variable, allowed in alternative:
                after[variable] = after.get(variable, allowed) & allowed
            if all(after.values()):
                found[frozenset(after.items())] = after
    return tuple(found.values())


def _onwards(graph: Graph, middle: Link, way: _Way) -> Iterator[tuple[int, _Way]]:
    """Every way one link longer with what that link costs; at the first pole, go back and grow the other end."""
    if way.here in graph.supply:
        yield 0, _Way(way.links, middle.b, way.visited, way.known, way.here)
        return
    for link in graph.at[way.here]:
        there = link.other(way.here)
        known = narrowed(way.known, link.conducts)
        if there not in way.visited and known:
            links = (*way.links, link) if way.first_pole else (link, *way.links)
            yield _cost(graph, link), _Way(links, there, way.visited | {there}, known, way.first_pole)


def _cost(graph: Graph, link: Link) -> int:
    if link.is_load:
        return _LOAD_COST
    moved = link.conducts and all(_needs_running(graph, alternative) for alternative in link.conducts)
    return 1 + (_SELF_MOVED_COST if moved else 0)


def _needs_running(graph: Graph, alternative: tuple[tuple[str, frozenset[str]], ...]) -> bool:
    return any(variable in graph.moved_by_itself and NO not in allowed for variable, allowed in alternative)


def _costs_to_supply(graph: Graph) -> dict[str, int]:
    """The least it can cost from each terminal to the supply, whatever the contacts do (Dijkstra)."""
    costs: dict[str, int] = {}
    heap = [(0, point) for point in graph.supply if point in graph.at]
    while heap:
        cost, point = heapq.heappop(heap)
        if point in costs:
            continue
        costs[point] = cost
        for link in graph.at[point]:
            heapq.heappush(heap, (cost + _cost(graph, link), link.other(point)))
    return costs

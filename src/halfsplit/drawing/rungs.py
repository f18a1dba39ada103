"""Rungs: every way from pole to pole through a load, so that every wire and every element stands on one.

What may live here: which ways there are and what they are called. Nothing about how they look.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from halfsplit.drawing.graph import Link, links_of, metal_points, part_of, supply_points, terminal_of
from halfsplit.drawing.paths import Graph, make_graph, way_through
from halfsplit.techsheet import Machine

RungKind = Literal["load", "bridge", "no load", "metal", "spare", "board"]


@dataclass(frozen=True, slots=True)
class Rung:
    """A way over terminals and links in turn, from the top of the strip to its bottom.

    Attributes:
        name: What it is called.
        kind: Through a load; a `bridge` through another contact to the same load; ground wires and whatever
            else has `no load`; cabinet `metal`; a `spare` terminal with nothing on it; the connectors of a `board`.
        points: Terminals, one more than links; of a board all of them, and no links.
        links: Links, each between two neighbouring terminals.
        volts: Sound supply voltage from one end to the other, RMS; 0 where it does not run from pole to pole.
    """

    name: str
    kind: RungKind
    points: tuple[str, ...]
    links: tuple[Link, ...]
    volts: float = 0.0


def rungs(machine: Machine) -> tuple[Rung, ...]:
    """One rung for each load, in the sheet's order, then a bridge for each link that is on none of these.

    Ground wires and cabinet metal are on no rung: see `leftovers`.
    """
    metal = set(metal_points(machine))
    links = [link for link in links_of(machine) if not link.ends & metal]
    drives = (drive.name for drive in machine.network.drives)
    graph = make_graph(links, supply_points(machine), drives)
    loads = [link for link in links if link.is_load]
    found: list[Rung] = []
    covered: set[str] = set()
    for middle in (*loads, *links):
        way = None if middle.name in covered else way_through(graph, middle)
        if way is not None:
            found.append(_rung(machine, graph, middle, way))
            covered.update(link.name for link in found[-1].links)
    return tuple(found)


def leftovers(machine: Machine) -> tuple[Rung, ...]:
    """What no load hangs on: ground wires, straps, and the cabinet's metal itself."""
    return _leftovers(machine, rungs(machine))


def every_strip(machine: Machine) -> tuple[Rung, ...]:
    """Rungs and leftovers: every wire and every element stands on one of these."""
    found = rungs(machine)
    return (*found, *_leftovers(machine, found))


def _leftovers(machine: Machine, found: Iterable[Rung]) -> tuple[Rung, ...]:
    on_rungs = {link.name for rung in found for link in rung.links}
    left = [link for link in links_of(machine) if link.name not in on_rungs]
    strips = [Rung(_ends_in_words(points), "no load", points, links) for points, links in _trails(machine, left)]
    screws = metal_points(machine)
    if screws:
        metal = tuple(link for link in left if link.kind == "metal")
        strips.append(Rung(f"{machine.title_of(part_of(screws[0]))}: all one point", "metal", screws, metal))
    return tuple(strips)


def boards(machine: Machine) -> tuple[Rung, ...]:
    """Each board as what its paper shows of it: its terminals, in the sheet's order."""
    made = [part for part in machine.parts.values() if part.kind == "board"]
    return tuple(
        Rung(f"{part.title}: its connectors", "board", tuple(f"{part.name}.{end}" for end in part.terminals), ())
        for part in made
    )


def spare(point: str) -> Rung:
    """A terminal on which nothing is connected."""
    return Rung("nothing is connected here", "spare", (point,), ())


def title_of(machine: Machine, link: Link) -> str:
    """An element in words: its part, and which of the part's elements where the part's name does not tell."""
    title = machine.title_of(link.thing)
    return f"{title}, {detail}" if (detail := _detail(machine, link)) else title


def in_short(link: Link) -> str:
    """A link as one writes it on the back of a hand: part and terminals, or the wire's colour."""
    if link.kind == "wire":
        return f"{link.colour} wire"
    if part_of(link.a) != part_of(link.b):
        return f"{link.thing} {terminal_of(link.b)}"
    return f"{part_of(link.a)} {terminal_of(link.a)}-{terminal_of(link.b)}"


def _detail(machine: Machine, link: Link) -> str:
    """Which element of its part: what the sheet calls it, unless that is only terminals or it is the part itself."""
    called = link.name.partition(":")[2]
    terminals = set(machine.parts[link.thing].terminals) if link.thing in machine.parts else set()
    alone = sum(element.branch.startswith(f"{link.thing}:") for element in machine.elements) == 1
    itself = link.symbol in {"heater", "lamp", "led", "motor", "neon"}
    if link.kind in {"wire", "metal"} or alone or itself or set(called.split("-")) <= terminals:
        return ""
    return called.replace("-", " ")


def _rung(machine: Machine, graph: Graph, middle: Link, way: tuple[str, tuple[Link, ...]]) -> Rung:
    """Turn it so that the live pole is on top, the first of them where both are."""
    first, links = way
    points = [first]
    for link in links:
        points.append(link.other(points[-1]))
    poles = supply_points(machine)
    above, below = poles[points[0]], poles[points[-1]]
    order = {point: (poles[point].volts == 0, place) for place, point in enumerate(graph.supply)}
    if order[points[0]] > order[points[-1]]:
        points, links = points[::-1], links[::-1]
    loads = " and ".join(dict.fromkeys(title_of(machine, link) for link in links if link.is_load))
    by_way_of = "" if middle.is_load else f" by way of {in_short(middle)}"
    kind: RungKind = "load" if middle.is_load else "bridge"
    return Rung(f"{loads}{by_way_of}", kind, tuple(points), tuple(links), abs(above.volts - below.volts))


def _trails(machine: Machine, links: Iterable[Link]) -> list[tuple[tuple[str, ...], tuple[Link, ...]]]:
    """Links laid end to end as far as they go: from the supply or a loose end, and not on over cabinet metal."""
    left = [link for link in links if link.kind != "metal"]
    supply, metal = supply_points(machine), set(metal_points(machine))
    found = []
    while left:
        ends = [point for link in left for point in (link.a, link.b)]
        point = min(ends, key=lambda end: (end not in supply, end in metal, ends.count(end) != 1, ends.index(end)))
        points, trail = [point], []
        while follow := next((link for link in left if points[-1] in link.ends and points[-1] not in metal), None):
            left.remove(follow)
            trail.append(follow)
            points.append(follow.other(points[-1]))
        found.append((tuple(points), tuple(trail)))
    return found


def _ends_in_words(points: tuple[str, ...]) -> str:
    return f"no load: {points[0]} to {points[-1]}"

"""Which strips show two probe points, and what of each strip is shown: rungs chosen and long runs folded.

What may live here: choosing and folding. A part's distance from a probe is counted in parts along the rung, because a
person looks for the probe's part and its neighbours. Nothing about how it looks.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from halfsplit.drawing.graph import Link, metal_points, part_of
from halfsplit.drawing.rungs import Rung, every_strip, spare
from halfsplit.drawing.standing import Standing, in_its_way
from halfsplit.errors import InputError
from halfsplit.techsheet import Machine, did_you_mean

Points = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Window:
    """How many parts next to a probe are shown: away from the other probe, and towards it."""

    outside: int
    between: int


_ALL = 10_000
EVERYTHING = Window(_ALL, _ALL)
WINDOWS = (
    Window(2, _ALL),
    Window(1, _ALL),
    Window(0, _ALL),
    Window(2, 2),
    Window(1, 2),
    Window(1, 1),
    Window(0, 1),
    Window(0, 0),
)
"""From generous to tight. What lies between the probes is what the reading is about, so it goes last."""


@dataclass(frozen=True, slots=True)
class Fold:
    """A run of parts that is not shown; `measured` where it lies between the probes."""

    points: tuple[str, ...]
    links: tuple[Link, ...]
    measured: bool

    @property
    def parts(self) -> tuple[str, ...]:
        """Names of the parts in it, in order."""
        return tuple(part for part, _ in _runs(self.points))


@dataclass(frozen=True, slots=True)
class Strip:
    """What of a rung is shown: terminals, and between each two of them a link or a fold."""

    rung: Rung
    points: tuple[str, ...]
    between: tuple[Link | Fold, ...]


def check_points(machine: Machine, points: Sequence[str]) -> None:
    """Refuse points that no probe can be put on.

    Raises:
        InputError: Not a terminal of this machine, or twice the same.
    """
    for point in points:
        if point not in machine.points:
            raise InputError(f"There is no terminal {point!r} on this sheet.", did_you_mean(point, machine.points))
    if len(set(points)) < len(points):
        raise InputError(f"Both probes are on {points[0]!r}.", "Put them on two terminals.")


def choose(machine: Machine, points: Points, standing: Standing) -> tuple[Rung, ...]:
    """The one rung that shows both points; else one for each point, A's first.

    Of several, the one that comes nearest to conducting between the points as the machine stands, then the one with
    the points nearest together, then the one that needs the fewest settings changed: on high heat that is the heater's
    rung, not the bias heater's, which only medium heat closes.

    Raises:
        InputError: Points that no probe can be put on.
    """
    check_points(machine, points)
    every = every_strip(machine)
    both = [rung for rung in every if set(points) <= set(rung.points)]
    if both:
        best = min(both, key=lambda rung: _distance(machine, standing, rung, points))
        return (_only_probed(best, points),)
    metal = set(metal_points(machine))
    return tuple(_only_probed(_nearest_an_end(every, point, point in metal), points) for point in points)


def fold(rung: Rung, points: Sequence[str], window: Window) -> Strip:
    """Fold every run of two parts or more that lies outside the window; both ends of a rung are always shown."""
    shown = _shown(rung, points, window)
    kept = [index for index, shows in enumerate(shown) if shows]
    probes = [index for index, point in enumerate(rung.points) if point in points]
    between: list[Link | Fold] = []
    for here, there in pairwise(kept):
        if there == here + 1:
            between.append(rung.links[here])
        else:
            measured = len(probes) == 2 and min(probes) <= here and there <= max(probes)
            between.append(Fold(rung.points[here + 1 : there], rung.links[here:there], measured))
    return Strip(rung, tuple(rung.points[index] for index in kept), tuple(between))


def _shown(rung: Rung, points: Sequence[str], window: Window) -> list[bool]:
    runs = _runs(rung.points)
    place = [number for number, (_, length) in enumerate(runs) for _ in range(length)]
    probes = [place[rung.points.index(point)] for point in points if point in rung.points]
    near = [_is_near(number, probes, window) for number in range(len(runs))]
    lone = [_is_lone(near, number) for number in range(len(near))]
    ends = {0, len(rung.points) - 1} if rung.kind != "metal" else set()
    return [near[number] or lone[number] or index in ends for index, number in enumerate(place)]


def _is_near(number: int, probes: Sequence[int], window: Window) -> bool:
    if not probes:
        return window == EVERYTHING
    reach = window.between if min(probes) < number < max(probes) else window.outside
    return min(abs(number - probe) for probe in probes) <= reach


def _is_lone(near: list[bool], number: int) -> bool:
    """One hidden part between shown ones saves nothing: show it. The ends of a rung are shown anyway."""
    last = len(near) - 1
    before = number == 0 or near[number - 1] or number - 1 == 0
    after = number == last or near[number + 1] or number + 1 == last
    return before and after


def _runs(points: Sequence[str]) -> list[tuple[str, int]]:
    """Parts along terminals, each with how many of its terminals follow each other."""
    found: list[tuple[str, int]] = []
    for point in points:
        if found and found[-1][0] == part_of(point):
            found[-1] = (found[-1][0], found[-1][1] + 1)
        else:
            found.append((part_of(point), 1))
    return found


def _distance(machine: Machine, standing: Standing, rung: Rung, points: Points) -> tuple[int, int, int, bool, int]:
    """How far a rung is from being the one two points are about; what the machine moves by itself counts double."""
    first, last = sorted(rung.points.index(point) for point in points)
    moved = {drive.name for drive in machine.network.drives}
    ways = [in_its_way(machine, standing, link) for link in rung.links]
    between = frozenset[str]().union(*ways[first:last])
    settings = frozenset[str]().union(*ways) - moved
    apart = len(_runs(rung.points[first : last + 1]))
    return len(between) + len(between & moved), apart, len(settings), rung.kind == "bridge", len(rung.links)


def _nearest_an_end(every: Sequence[Rung], point: str, on_metal: bool) -> Rung:
    """For a point shown alone: the strip in which it stands nearest an end, the shortest of those."""
    holding = [rung for rung in every if point in rung.points and (rung.kind == "metal") == on_metal]
    place = {rung.name: rung.points.index(point) for rung in holding}
    apart = {rung.name: min(place[rung.name], len(rung.points) - 1 - place[rung.name]) for rung in holding}
    return min(holding, key=lambda rung: (apart[rung.name], len(rung.links)), default=spare(point))


def _only_probed(rung: Rung, points: Points) -> Rung:
    """Of cabinet metal only the probed screws: the others are the same point."""
    if rung.kind != "metal":
        return rung
    screws = tuple(screw for screw in rung.points if screw in points)
    links = [replace(link, a=screws[0], b=screws[1]) for link in rung.links if link.b in screws[1:]]
    return Rung(rung.name, rung.kind, screws, tuple(links))

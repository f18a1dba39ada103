"""Temperatures over time, until something acts, and where they come to rest.

What heats stays as it is from call to call: whoever couples heat with a circuit stops where a contact moves, solves the
circuit again and goes on from there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp  # type: ignore[import-untyped]  # scipy ships no types
from scipy.optimize import root  # type: ignore[import-untyped]  # scipy ships no types

from halfsplit.errors import HeatError
from halfsplit.heat.air import ZERO_CELSIUS_K
from halfsplit.heat.bodies import HeatNetwork

Real = NDArray[np.float64]
_RELATIVE, _ABSOLUTE_K = 1e-8, 1e-6
_REST_WATTS = 1e-6
_WEEK_S = 6e5


@dataclass(frozen=True, slots=True)
class Stop:
    """A body's temperature at which following it ends: rising through it, or falling."""

    body: str
    celsius: float
    rising: bool = True


@dataclass(frozen=True, slots=True)
class Curve:
    """Temperatures over time.

    Attributes:
        network: What was followed, its bodies now at the temperatures of the end.
        seconds: Times, shape (T,).
        celsius: Body to temperatures, each of shape (T,); of those that are not held.
        stopped: What ended it; None if the time was up.
    """

    network: HeatNetwork
    seconds: Real
    celsius: Mapping[str, Real]
    stopped: Stop | None


def warm(network: HeatNetwork, watts: Mapping[str, float], seconds: float, stops: Sequence[Stop] = ()) -> Curve:
    """Follow the bodies from their temperatures.

    Args:
        network: Bodies and links.
        watts: What heats each body; bodies not named get nothing.
        seconds: For how long at most.
        stops: What ends it sooner; the first to act counts.

    Raises:
        HeatError: Nothing is named so, a stop waits for what has passed already, or a correlation left its range.
    """
    _check_names(network, [*watts, *(stop.body for stop in stops)])
    names = network.free()
    start = np.array([body.celsius for body in network.bodies if body.name in names])
    reached = next((stop for stop in stops if _past(stop, start[names.index(stop.body)])), None)
    if reached is not None:
        what = f"{reached.body} is past {reached.celsius:g} °C at the start."
        raise HeatError(what, "Let it act first.")
    events = [_event(stop, names.index(stop.body)) for stop in stops]
    found = solve_ivp(
        _slope(network, watts),
        (0.0, seconds),
        start,
        method="LSODA",
        events=events or None,
        rtol=_RELATIVE,
        atol=_ABSOLUTE_K,
    )
    if not found.success:
        raise HeatError(f"The temperatures could not be followed: {found.message}", "Check the capacities.")
    ended = [index for index in range(len(stops)) if len(found.t_events[index])] if stops else []
    return Curve(
        _moved(network, dict(zip(names, found.y[:, -1], strict=True))),
        found.t,
        dict(zip(names, found.y, strict=True)),
        stops[ended[0]] if ended else None,
    )


def steady(network: HeatNetwork, watts: Mapping[str, float]) -> dict[str, float]:
    """Where every body comes to rest, °C, those that are held included.

    Raises:
        HeatError: Nothing is named so, or it has no way to lose its heat.
    """
    _check_names(network, watts)
    names, held = network.free(), {body.name: body.celsius for body in network.bodies}

    def gained(kelvin: Real) -> Real:
        now = dict(zip(names, (float(value) - ZERO_CELSIUS_K for value in kelvin), strict=True))
        gains = network.gains({**held, **now}, watts)
        return np.array([gains[name] for name in names])

    # From where a week brings it, because fourth powers lead a search from cold astray; in kelvin, because the search
    # steps in proportion to its numbers, and 0 °C would never move.
    near = {body.name: body.celsius for body in warm(network, watts, _WEEK_S).network.bodies}
    found = root(gained, np.array([near[name] + ZERO_CELSIUS_K for name in names]))
    if not found.success or np.abs(gained(found.x)).max(initial=0.0) > _REST_WATTS * max(1.0, *watts.values()):
        raise HeatError("It does not come to rest.", "Every heated body needs a way to one that is held.")
    return {**held, **dict(zip(names, (float(value) - ZERO_CELSIUS_K for value in found.x), strict=True))}


def _check_names(network: HeatNetwork, names: Sequence[str] | Mapping[str, float]) -> None:
    known = [body.name for body in network.bodies]
    for name in names:
        if name not in known:
            raise HeatError(f"There is no body called {name!r}.", f"The bodies are {', '.join(known)}.")


def _past(stop: Stop, celsius: float) -> bool:
    return celsius >= stop.celsius if stop.rising else celsius <= stop.celsius


def _slope(network: HeatNetwork, watts: Mapping[str, float]) -> Callable[[float, Real], Real]:
    """Kelvin a second of every free body."""
    names, held = network.free(), {body.name: body.celsius for body in network.bodies}
    capacity = np.array([body.joule_per_kelvin for body in network.bodies if body.joule_per_kelvin is not None])

    def slope(_seconds: float, celsius: Real) -> Real:
        gains = network.gains({**held, **dict(zip(names, map(float, celsius), strict=True))}, watts)
        return np.asarray(np.array([gains[name] for name in names]) / capacity)

    return slope


def _event(stop: Stop, row: int) -> Callable[[float, Real], float]:
    def event(_seconds: float, celsius: Real) -> float:
        return float(celsius[row] - stop.celsius)

    event.terminal = True  # type: ignore[attr-defined]  # solve_ivp reads these two from the function
    event.direction = 1.0 if stop.rising else -1.0  # type: ignore[attr-defined]
    return event


def _moved(network: HeatNetwork, now: Mapping[str, float]) -> HeatNetwork:
    bodies = tuple(replace(body, celsius=float(now.get(body.name, body.celsius))) for body in network.bodies)
    return HeatNetwork(bodies, network.links)

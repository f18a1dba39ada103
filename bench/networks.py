"""An invented machine of any size, by seed: wires, loads, contacts and strays, with its single faults.

Like wiring: points hang on a string of wires and contacts from the legs to neutral, with loads between; every point
has a stray to the cabinet. About four branches in three points, strays apart.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

import numpy as np

from halfsplit.circuit import Branch, Condition, Drive, Layout, Network, Patch, Pole, Threshold, when
from halfsplit.circuit.columns import Positions

SETUPS = 8
_SWITCHES = ("door", "knob", "start")


@dataclass(frozen=True, slots=True)
class Bench:
    """A network, its single faults, and what a person sets in each setup."""

    network: Network
    faults: tuple[tuple[Patch, ...], ...]
    setups: tuple[tuple[tuple[str, str], ...], ...]


def invented(points: int, faults: int, seed: int, drives: int = 0) -> Bench:
    """A machine of so many points (two legs and earth among them) and about a third more branches, strays apart.

    Args:
        points: All points.
        faults: How many single faults are drawn from all there are.
        seed: Of the drawing.
        drives: How many contacts follow the volts across a load.
    """
    choose = random.Random(seed)
    free = [f"p{number}" for number in range(points - 3)]
    wiring = [_wiring(choose, free, number) for number in range(len(free))]
    wiring += [_load(choose, free, number) for number in range((points * 4) // 3 - len(free))]
    moved = tuple(_drive(choose, wiring, number) for number in range(drives))
    conditions: list[Condition] = [when(switch, "on") for switch in _SWITCHES]
    conditions += [when(drive.name, "no" if number % 2 else "yes") for number, drive in enumerate(moved)]
    wiring = _with_contacts(choose, wiring, conditions)
    strays = [
        Branch(f"stray {point}", point, "earth", 1e12, farad=choose.choice([30e-12, 1e-12, 1e-15])) for point in free
    ]
    network = Network(
        60.0,
        (*wiring, *strays),
        (Pole("L1", 120.0), Pole("L2", -120.0), Pole("earth", 0.0)),
        drives=moved,
        variables=dict.fromkeys(_SWITCHES, ("off", "on")),
    )
    setups = [tuple((s, "on") for bit, s in enumerate(_SWITCHES) if number >> bit & 1) for number in range(SETUPS)]
    return Bench(network, _faults(choose, network, faults), tuple(setups))


def base_states(machine: Bench, layout: Layout) -> Positions:
    """Position of every variable in each setup with nothing driven, shape (V, setups)."""
    states = layout.start(len(machine.setups))
    for column, steps in enumerate(machine.setups):
        for variable, position in steps:
            states[layout.variable_index[variable], column] = layout.positions[variable].index(position)
    return np.asarray(states)


def _wiring(choose: random.Random, free: list[str], number: int) -> Branch:
    """The wire that brings a point its voltage: from a leg now and then, else from a point just before it."""
    near = ["L1", "L2", "earth"] if number % 12 < 2 else free[max(0, number - 4) : number]
    return Branch(f"wire {number}", choose.choice(near), free[number], 10.0 ** choose.uniform(-3, -1))


def _load(choose: random.Random, free: list[str], number: int) -> Branch:
    at = choose.randrange(len(free))
    other = choose.choice([*free[max(0, at - 8) : at], *free[at + 1 : at + 8], "earth", "L2"])
    ohm = 10.0 ** choose.uniform(0.5, 4)
    coil, farad = choose.choice([(0.0, 0.0), (0.0, 0.0), (ohm / 300, 0.0), (0.0, 1e-7)])
    return Branch(f"load {number}", free[at], other, ohm, coil, farad)


def _drive(choose: random.Random, wiring: list[Branch], number: int) -> Drive:
    load = choose.choice([branch.name for branch in wiring if branch.name.startswith("load")])
    pulls = Threshold(load, "volts", 20.0 + 10 * number)
    drops = Threshold(load, "volts", 10.0)
    return Drive(f"relay {number}", ((pulls,),), (drops,), 0.01 * (number + 1))


def _with_contacts(choose: random.Random, wiring: list[Branch], conditions: list[Condition]) -> list[Branch]:
    """Two wires or loads on each condition."""
    at = choose.sample(range(len(wiring)), 2 * len(conditions))
    made = list(wiring)
    for place, row in enumerate(at):
        old = wiring[row]
        made[row] = Branch(old.name, old.a, old.b, old.ohm, old.henry, old.farad, condition=conditions[place // 2])
    return made


def _faults(choose: random.Random, network: Network, count: int) -> tuple[tuple[Patch, ...], ...]:
    """Opens, shorts and bad joints of every branch but the strays, and legs that are low."""
    names = [branch.name for branch in network.branches if not branch.name.startswith("stray")]
    many = [(Patch("open", name),) for name in names]
    many += [(Patch("series", name, ohm),) for name in names for ohm in (0.5, 50.0)]
    many += [(Patch("closed", branch.name),) for branch in network.branches if branch.condition != ((),)]
    many += [(Patch("scale", leg, value),) for leg in ("L1", "L2") for value in (0.0, 0.9)]
    while len(many) < count:
        many.append((Patch("series", choose.choice(names), 10.0 ** choose.uniform(-1, 4)),))
    return tuple(choose.sample(many, count))

"""A sheet to begin with: the supply, settings and zones of a family, and one lamp wired through a door switch.

What may live here: text. Every skeleton is a sound sheet as it stands, so whoever types on always has one that works.
What a family sets and where its parts sit: common practice, from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.words import did_you_mean


@dataclass(frozen=True, slots=True)
class Family:
    """What machines of one family have in common.

    `supply` is one of the supplies below, `settings` are further settings with positions, `zones` titles by name, and
    `door` what the door is called.
    """

    supply: str
    settings: Mapping[str, tuple[str, ...]]
    zones: Mapping[str, str]
    door: str = "door"


_SUPPLIES = {
    "split": """\
  house: {kind: split-phase supply, title: house supply, zone: house}
  breaker: {kind: two-pole breaker, rating: 30 A, zone: house}
  outlet: {kind: outlet, terminals: [L1, N, L2, G], zone: house}
  plug: {kind: plug, title: cord plug, into: outlet, terminals: [L1, N, L2, G], zone: outside}
""",
    "single": """\
  house: {kind: single-phase supply, title: house supply, zone: house}
  outlet: {kind: outlet, terminals: [L, N, G], zone: house}
  plug: {kind: plug, title: cord plug, into: outlet, terminals: [L, N, G], zone: outside}
""",
    "single 230": """\
  house: {kind: single-phase supply, title: house supply, volts: 230 V, frequency: 50 Hz, earth: PE, zone: house}
  outlet: {kind: outlet, terminals: [L, N, PE], zone: house}
  plug: {kind: plug, title: cord plug, into: outlet, terminals: [L, N, PE], zone: outside}
""",
}
_WIRES = {
    "split": """\
  - black house.L1 breaker.1, 10 AWG 1 m
  - red house.L2 breaker.2, 10 AWG 1 m
  - black breaker.3 outlet.L1, 10 AWG 12 m
  - red breaker.4 outlet.L2, 10 AWG 12 m
  - white house.N outlet.N, 10 AWG 12 m
  - green house.G outlet.G, 10 AWG 12 m
  - green plug.G chassis.G
""",
    "single": """\
  - black house.L outlet.L
  - white house.N outlet.N
  - green house.G outlet.G
  - green plug.G chassis.G
""",
    "single 230": """\
  - brown house.L outlet.L
  - blue house.N outlet.N
  - green/yellow house.PE outlet.PE
  - green/yellow plug.PE chassis.G
""",
}
_LINE = {"split": ("L1", "black", "white"), "single": ("L", "black", "white"), "single 230": ("L", "brown", "blue")}
_LAMP = {"split": "120 V", "single": "120 V", "single 230": "230 V"}

FAMILIES: Mapping[str, Family] = {
    "electric dryer": Family(
        "split",
        {"timer": ("off", "timed dry", "cool down"), "start": ("released", "pressed"), "air": ("cold", "warm")},
        {"console": "control console", "rear": "rear panel"},
    ),
    "gas dryer": Family(
        "single",
        {"timer": ("off", "timed dry", "cool down"), "start": ("released", "pressed"), "air": ("cold", "warm")},
        {"console": "control console", "front": "front panel"},
    ),
    "washer": Family(
        "single",
        {
            "cycle": ("off", "fill", "wash", "drain", "spin"),
            "water": ("empty", "full"),
            "start": ("released", "pressed"),
        },
        {"console": "control console", "tub": "cabinet or front panel"},
        "lid",
    ),
    "washer 230 V": Family(
        "single 230",
        {"cycle": ("off", "fill", "heat", "wash", "drain", "spin"), "water": ("empty", "full")},
        {"console": "control panel", "rear": "rear panel"},
    ),
    "dishwasher": Family(
        "single",
        {"cycle": ("off", "fill", "wash", "drain", "dry"), "water": ("empty", "full")},
        {"door panel": "inner door panel", "toe plate": "toe plate"},
    ),
    "electric range": Family(
        "split",
        {"oven": ("off", "bake", "broil"), "front left": ("off", "low", "high"), "cavity": ("cold", "hot")},
        {"control panel": "control panel", "rear": "rear panel"},
    ),
    "gas range": Family(
        "single",
        {"oven": ("off", "bake", "broil"), "surface": ("off", "light", "on"), "cavity": ("cold", "hot")},
        {"control panel": "control panel", "oven floor": "oven floor"},
    ),
    "refrigerator": Family(
        "single",
        {"control": ("off", "on"), "cabinet": ("warm", "cold"), "defrost": ("cooling", "defrosting")},
        {"inside": "inside liner", "machine room": "machine compartment at the back"},
    ),
    "microwave": Family(
        "single",
        {"start": ("released", "pressed"), "power": ("off", "high")},
        {"case": "outer case (high voltage inside: see the cautions)"},
    ),
}


def skeleton(family: str) -> str:
    """Text of a sheet to begin with.

    Raises:
        InputError: There is no such family.
    """
    if family not in FAMILIES:
        raise InputError(f"There is no family {quoted(family)}.", did_you_mean(family, FAMILIES))
    shape = FAMILIES[family]
    return "\n".join([_head(family, shape), _parts(shape), _wires(shape), _rest(shape)])


def _head(family: str, shape: Family) -> str:
    settings = {"plug": ("out", "in"), "breaker": ("on", "off"), shape.door: ("shut", "open"), **shape.settings}
    zones = {"house": "panel and outlet", "outside": "outside the machine", **shape.zones}
    lines = [
        f"sheet: my {family}",
        f"title: {family.capitalize()}, from its tech sheet",
        f"family: {family}",
        "about: Typed from the paper inside the machine.",
        "currency: USD",
        "default wire: 16 AWG 0.6 m",
        "",
        "# What can be set, the start first. Add knobs, cycles, heat, water: all that decides where current goes.",
        "settings:",
        *(f"  {name}: [{', '.join(positions)}]" for name, positions in settings.items()),
        "",
        "# What must come off to reach a part.",
        "zones:",
        *(f'  {name}: {{title: "{title}", open: 0 min, close: 0 min}}' for name, title in zones.items()),
        "",
    ]
    return "\n".join(lines)


def _parts(shape: Family) -> str:
    zone = next(iter(shape.zones))
    return (
        "# One entry a part; `halfsplit words` tells the kinds and their keys.\nparts:\n"
        + _SUPPLIES[shape.supply]
        + f"  chassis: {{kind: chassis, title: cabinet metal, terminals: [G], zone: {zone}}}\n"
        + f'  {shape.door}: {{kind: switch, title: {shape.door} switch, contacts: {{"1-2": {shape.door} open}}, '
        + f"zone: {zone}}}\n"
        + f"  lamp: {{kind: lamp, power: 10 W at {_LAMP[shape.supply]}, zone: {zone}}}\n"
    )


def _wires(shape: Family) -> str:
    line, hot, back = _LINE[shape.supply]
    return (
        "# One line a wire: colour from to. Terminals as printed on the part.\nwires:\n"
        + _WIRES[shape.supply]
        + f"  - {hot} plug.{line} {shape.door}.1\n  - orange {shape.door}.2 lamp.1\n  - {back} lamp.2 plug.N\n"
    )


def _rest(shape: Family) -> str:
    door = shape.door
    return f"""\
# States of the machine, each the steps from the start; a dead one for ohms.
setups:
  {door} open: {{says: "plugged in, {door} open", steps: [plug in, {door} open]}}
  dead: {{says: "unplugged", steps: [plug out]}}

# What a person sees it do.
functions:
  light: {{ask: "Does the lamp light with the {door} open?", setup: {door} open, shows: power of lamp}}

# What customers say.
complaints:
  dark: {{says: "There is no light", means: {{light: none}}}}
"""

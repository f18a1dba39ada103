"""A checked machine: what every other room works with. Frozen; made only by `build`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from halfsplit.circuit import Condition, Network, Patch
from halfsplit.techsheet.kinds.base import MEMORY, Cycle, Element, Shown
from halfsplit.trade import Level, Mode, Setup


@dataclass(frozen=True, slots=True)
class Zone:
    """What must come off to reach a part, with minutes to open and to close."""

    name: str
    title: str
    open_minutes: float
    close_minutes: float


@dataclass(frozen=True, slots=True)
class Part:
    """One part as written. Price is in the sheet's currency, minutes to change it once its zone is open.

    `caution` is what its kind says of every probe that goes to it, empty for most.
    """

    name: str
    title: str
    kind: str
    zone: str
    price: float
    minutes: float
    terminals: tuple[str, ...]
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Wire:
    """One wire: its name is `from-to`, which is also its branch in the network."""

    name: str
    colour: str
    a: str
    b: str
    gauge: int
    condition: Condition
    line: int

    @property
    def ends(self) -> tuple[str, str]:
        """Its two points."""
        return self.a, self.b

    @property
    def title(self) -> str:
        """The wire in words."""
        return f"{self.colour} wire {self.a} to {self.b}"


@dataclass(frozen=True, slots=True)
class Fault:
    """One way one part or wire can be wrong.

    Attributes:
        name: Stable id, `thing:fault`.
        thing: Name of the part or wire.
        says: A whole sentence without its full stop.
        rate: Relative frequency (common practice, from memory).
        patches: What it changes in the network.
        mend: What to do about it.
        price: Cost of the mend, in the sheet's currency.
        minutes: Time of the mend once the zone is open.
        zone: Zone that must be open.
        degree_of: Id of the one fault of which this is a degree (a joint of 2 Ω, of 20 Ω); empty if it is none.
        degree: The degree in words, as in "about 2 Ω".
        origin: Where the rate comes from.
        share: In what share of the looks it is there at all; the others find the machine without it.
    """

    name: str
    thing: str
    says: str
    rate: float
    patches: tuple[Patch, ...]
    mend: str
    price: float
    minutes: float
    zone: str
    degree_of: str = ""
    degree: str = ""
    origin: str = MEMORY
    share: float = 1.0

    @property
    def whole(self) -> str:
        """Id of the fault whatever its degree."""
        return self.degree_of or self.name

    @property
    def says_at_all(self) -> str:
        """The sentence without the degree."""
        return self.says.removesuffix(f", {self.degree}") if self.degree else self.says


@dataclass(frozen=True, slots=True)
class Link:
    """One fault brings another about: `share` of the calls with `cause` have `effect` as well."""

    cause: str
    effect: str
    share: float


@dataclass(frozen=True, slots=True)
class Function:
    """What a person sees it do, and what of the solution that is; with a `cycle`, on the average over it."""

    name: str
    ask: str
    setup: str
    part: str
    aspect: str
    shown: Shown
    needs: Condition
    weak_without: Condition
    cycle: Cycle | None = None


@dataclass(frozen=True, slots=True)
class Complaint:
    """What the customer says, and what that means in functions."""

    name: str
    says: str
    means: tuple[tuple[str, Level], ...]


@dataclass(frozen=True, slots=True)
class Nameplate:
    """Rated amps, and the setup in which the machine takes them."""

    amps: float
    setup: str


@dataclass(frozen=True, slots=True)
class PaperReading:
    """One row of the paper's own table: least and most of a sound reading, infinity for OL."""

    name: str
    points: tuple[str, str]
    mode: Mode
    setup: str
    limits: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Machine:
    """A checked sheet.

    `settings` are what a person can set, with positions, the start first (a part may have the same name: door, plug);
    `points` are the terminals a meter can be put on; `elements` are for the drawing; `chassis` is the first screw of
    the cabinet, empty if the sheet has none. `digest` identifies the text it was made from. `dead_only` are points at
    which nothing is read on a live machine, each with why.
    the cabinet, empty if the sheet has none. `powers` is what shows the power of each part that has a rated one.
    `digest` identifies the text it was made from.
    """

    name: str
    title: str
    about: str
    currency: str
    digest: str
    network: Network
    zones: Mapping[str, Zone]
    parts: Mapping[str, Part]
    wires: Mapping[str, Wire]
    settings: Mapping[str, tuple[str, ...]]
    per_call: tuple[str, ...]
    setups: Mapping[str, Setup]
    functions: Mapping[str, Function]
    complaints: Mapping[str, Complaint]
    faults: Mapping[str, Fault]
    elements: tuple[Element, ...]
    points: tuple[str, ...]
    chassis: str
    nameplate: Nameplate | None = None
    readings: tuple[PaperReading, ...] = ()
    cautions: tuple[str, ...] = ()
    dead_only: Mapping[str, str] = field(default_factory=dict)
    powers: Mapping[str, Shown] = field(default_factory=dict)
    linked: tuple[Link, ...] = ()

    def title_of(self, thing: str) -> str:
        """A part or wire in words."""
        return self.wires[thing].title if thing in self.wires else self.parts[thing].title

    def zone_of_point(self, point: str) -> str:
        """Zone in which a terminal is reached."""
        return self.parts[point.rpartition(".")[0]].zone

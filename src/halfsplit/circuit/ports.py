"""What sources and transformers hold: two points apart from each other, both of them floating.

What may live here: the small network that is left when every other point is eliminated, solved without subtracting.

The H points that stay are the poles and the ports (two of each source or winding). All poles are one body, and so is
each pair: its points move together, its high one an offset above its low one. So bodies A and B with the volts c_A, c_B
are joined by edges that carry I = w (c_A − c_B + e), e being the difference of the offsets at their ends: a number for
poles and sources, and for windings turns times d, the volts a turn of their core. e is kept as a vector over (1, d).

- Edges side by side: weights add up, e is their weighted mean, and what their spread costs, Σ w (e − ē)², is kept.
- Eliminating body k: the edge (i, j) gets w_ki w_kj / Σ w with e_kj − e_ki. This is the star-mesh rule with voltages in
  the branches, and leaves no rest.
- What is kept is a square form in d alone, a sum again: its least value gives d (nothing to do without transformers).
- Backwards c_k = Σ w_ki (c_i − e_ki) / Σ w, a weighted mean.

Nothing but sums and means of weights is formed, so two pairs that are tied by a micro-ohm and hang on teraohms together
keep what they hang at; a nodal matrix of the same bodies would lose it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit.explain import floating_source, island, no_resistance
from halfsplit.circuit.network import Network
from halfsplit.circuit.plan import Index, Plan
from halfsplit.circuit.starmesh import Numbers, Reduced
from halfsplit.errors import CircuitError

Real = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Basis:
    """The bodies, and how the points that stay sit on them.

    Attributes:
        poles: How many of the H points are poles; they come first and are body 0.
        names: What each further body belongs to, for a failure.
        body: Body of every point, shape (H,).
        turns: Turns of every point on each core, shape (H, T).
        order: Edges that are left, those between the same two bodies side by side, shape (K,).
        starts: Where in `order` each such bundle begins.
        bundles: The two bodies of each bundle, the higher first, shape (bundles, 2); both are one for edges inside it.
    """

    poles: int
    names: tuple[str, ...]
    body: Index
    turns: Real
    order: Index
    starts: Index
    bundles: Index

    @property
    def needed(self) -> bool:
        """Whether anything but poles stays."""
        return bool(self.names)


def make_basis(network: Network, plan: Plan, *, direct: bool) -> Basis:
    """The bodies for alternating current, or for `direct`, in which a transformer's windings are bare wire."""
    windings = [(made.name, winding) for made in network.transformers for winding in made.windings]
    names = (*(source.name for source in network.sources), *(name for name, _ in windings))
    cores = [] if direct else [made.name for made in network.transformers]
    poles = len(network.poles)
    body = np.concatenate([np.zeros(poles, dtype=np.intp), 1 + np.repeat(np.arange(len(names), dtype=np.intp), 2)])
    turns = np.zeros((len(body), len(cores)))
    for index, (name, winding) in enumerate(windings, start=len(network.sources)):
        if cores:
            turns[poles + 2 * index, cores.index(name)] = winding.turns
    ends = np.sort(body[plan.kept_ends], axis=1)[:, ::-1]
    key = ends[:, 0] * (len(names) + 1) + ends[:, 1]
    order = np.argsort(key, kind="stable")
    _, starts = np.unique(key[order], return_index=True)
    return Basis(poles, names, body, turns, order, starts.astype(np.intp), ends[order][starts])


def check_pairs(network: Network) -> None:
    """Refuse sources and windings that share a point or sit on a pole, and branches without any resistance.

    Raises:
        CircuitError: Two of them fight over a point or through branches without resistance.
    """
    owner = {pole.point: f"the pole at {pole.point}" for pole in network.poles}
    held = [(source.name, source.high, source.low) for source in network.sources]
    held += [(made.name, winding.high, winding.low) for made in network.transformers for winding in made.windings]
    for name, *ends in held:
        for point in ends:
            if point in owner:
                raise CircuitError(
                    f"{name} and {owner[point]} both hold the point {point}.",
                    "Put a branch with some resistance between them.",
                )
            owner[point] = name
    bare = [branch for branch in network.branches if branch.ohm == 0 and branch.henry == 0]
    if bare:
        raise no_resistance(network, bare)


@dataclass(frozen=True, slots=True)
class _Bodies:
    """The bodies eliminated, from the last to the first: weights and offsets of each to those before it, and the rest.

    `shares` has for body k the shares w_ki / Σ w, shape (k, S), `offsets` e_ki, shape (k, 1 + T, S), `totals` Σ w, and
    `rest` the square form over (1, d), shape (1 + T, 1 + T, S).
    """

    shares: tuple[Numbers, ...]
    offsets: tuple[Numbers, ...]
    totals: tuple[Numbers, ...]
    rest: Numbers


def hold(basis: Basis, reduced: Reduced, known: Numbers) -> Numbers:
    """Volts of the points that stay, shape (H, S), from what is known: a pole's volts, a source's own at its high.

    Raises:
        CircuitError: A source or winding floats: nothing joins its points to the rest.
    """
    if not basis.needed:
        return known
    bodies = _eliminated(basis, reduced, known)
    turned = _least(bodies.rest[1:, 1:], -bodies.rest[1:, 0])
    volts = np.zeros((len(basis.names) + 1, known.shape[1]), dtype=known.dtype)
    for number, (share, offset) in enumerate(zip(bodies.shares, bodies.offsets, strict=True), start=1):
        apart = offset[:, 0] + (offset[:, 1:] * turned).sum(axis=1)
        volts[number] = (share * (volts[:number] - apart)).sum(axis=0)
    return np.asarray(volts[basis.body] + known + basis.turns @ turned)


def fed(basis: Basis, reduced: Reduced, amps: Numbers) -> tuple[Numbers, Numbers]:
    """What currents into the points that stay, shape (H, pairs, S), bring about with everything held at 0 V.

    Returns:
        What they add to each pair's impedance, shape (pairs, S), and volts of those points, shape (H, pairs, S).
    """
    added = np.zeros(amps.shape[1:], dtype=amps.dtype)
    if not basis.needed:
        return added, np.zeros_like(amps)
    bodies = _eliminated(basis, reduced, np.zeros((len(amps), amps.shape[2]), dtype=amps.dtype))
    into = np.zeros((len(basis.names) + 1, *amps.shape[1:]), dtype=amps.dtype)
    np.add.at(into, basis.body, amps)
    twist = np.einsum("ht,hps->tps", basis.turns, amps)
    for number in range(len(basis.names), 0, -1):
        share, offset = bodies.shares[number - 1], bodies.offsets[number - 1]
        added += into[number] ** 2 / bodies.totals[number - 1]
        twist -= (share[:, None] * offset[:, 1:]).sum(axis=0)[:, None] * into[number]
        into[:number] += share[:, None] * into[number]
    turned = np.stack([_least(bodies.rest[1:, 1:], twist[:, pair]) for pair in range(amps.shape[1])], axis=1)
    added += (twist * turned).sum(axis=0)
    return added, _volts_fed(basis, bodies, into, turned)


def _volts_fed(basis: Basis, bodies: _Bodies, into: Numbers, turned: Numbers) -> Numbers:
    volts = np.zeros_like(into)
    for number, (share, offset) in enumerate(zip(bodies.shares, bodies.offsets, strict=True), start=1):
        apart = np.einsum("its,tps->ips", offset[:, 1:], turned)
        mean = (share[:, None] * (volts[:number] - apart)).sum(axis=0)
        volts[number] = mean + into[number] / bodies.totals[number - 1]
    return np.asarray(volts[basis.body] + np.einsum("ht,tps->hps", basis.turns, turned))


def _eliminated(basis: Basis, reduced: Reduced, known: Numbers) -> _Bodies:
    weight, offset, rest = _bundled(basis, reduced, known)
    shares: list[Numbers] = []
    offsets: list[Numbers] = []
    totals: list[Numbers] = []
    for number in range(len(basis.names), 0, -1):
        out, apart = weight[number, :number], offset[number, :number].copy()
        total = out.sum(axis=0)
        if not total.all():
            raise _floats(basis, reduced, number, int(np.flatnonzero(total == 0)[0]))
        share = out / total
        j, i = np.tril_indices(number, -1)
        more = out[j] * share[i]
        _merge(weight, offset, rest, (j, i), (more, apart[i] - apart[j]))
        shares.insert(0, share)
        offsets.insert(0, apart)
        totals.insert(0, total)
    return _Bodies(tuple(shares), tuple(offsets), tuple(totals), rest)


def _floats(basis: Basis, reduced: Reduced, number: int, column: int) -> CircuitError:
    """Why it failed: all points that hang together with this body, other bodies among them."""
    steps = zip(reduced.plan.steps, reduced.weights, strict=True)
    joins = [
        (step.point, int(other))
        for step, share in steps
        for other, part in zip(step.neighbours, share[:, column], strict=True)
        if part != 0
    ]
    kept = zip(reduced.plan.kept_ends, reduced.kept[:, column], strict=True)
    joins += [(int(a), int(b)) for (a, b), siemens in kept if siemens != 0]
    for body in range(len(basis.names) + 1):  # what one body holds moves together
        held = [int(point) for point in np.flatnonzero(basis.body == body)]
        joins += list(pairwise(held))
    start = [int(point) for point in np.flatnonzero(basis.body == number)]
    return floating_source(basis.names[number - 1], [reduced.points[point] for point in island(joins, start)])


def _bundled(basis: Basis, reduced: Reduced, known: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """Weight and offset between every two bodies, the higher first, and what the spread inside each bundle costs."""
    ends = reduced.plan.kept_ends[basis.order]
    backwards = basis.body[ends[:, 0]] < basis.body[ends[:, 1]]
    ends = np.where(backwards[:, None], ends[:, ::-1], ends)
    bodies, columns = len(basis.names) + 1, known.shape[1]
    dimensions = 1 + basis.turns.shape[1]
    edge = reduced.kept[basis.order]
    apart = np.empty((len(ends), dimensions, columns), dtype=known.dtype)
    apart[:, 0] = known[ends[:, 0]] - known[ends[:, 1]]
    apart[:, 1:] = (basis.turns[ends[:, 0]] - basis.turns[ends[:, 1]])[:, :, None]
    total = np.add.reduceat(edge, basis.starts, axis=0)
    safe = np.where(total == 0, 1, total)
    mean = np.add.reduceat(edge[:, None] * apart, basis.starts, axis=0) / safe[:, None]
    inside = basis.bundles[:, 0] == basis.bundles[:, 1]
    mean[inside] = 0  # both ends move together: all of it counts
    spread = apart - np.repeat(mean, np.diff(basis.starts, append=len(ends)), axis=0)
    rest = np.zeros((dimensions, dimensions, columns), dtype=known.dtype)
    if dimensions > 1:
        rest += np.einsum("ks,kas,kbs->abs", edge, spread, spread)
    weight = np.zeros((bodies, bodies, columns), dtype=known.dtype)
    offset = np.zeros((bodies, bodies, dimensions, columns), dtype=known.dtype)
    high, low = basis.bundles[~inside].T
    weight[high, low], offset[high, low] = total[~inside], mean[~inside]
    return weight, offset, rest


def _merge(
    weight: Numbers, offset: Numbers, rest: Numbers, where: tuple[Index, Index], more: tuple[Numbers, Numbers]
) -> None:
    """Lay further edges beside those between the bodies `where`."""
    extra, apart = more
    old = weight[where]
    total = old + extra
    part = np.where(total == 0, 0, extra / np.where(total == 0, 1, total))[:, None]
    step = apart - offset[where]
    if len(rest) > 1:
        rest += np.einsum("ks,kas,kbs->abs", old * part[:, 0], step, step)
    weight[where] = total
    offset[where] = (1 - part) * offset[where] + part * apart


def _least(form: Numbers, right: Numbers) -> Numbers:
    """Where a square form is least, shape (T, S), for right sides of that shape; each unknown is brought to one."""
    if not len(form):
        return np.zeros_like(right)
    size = 1.0 / np.sqrt(np.abs(np.einsum("tts->ts", form)))
    even = np.moveaxis(form * size[:, None] * size[None], 2, 0)
    return np.asarray(np.linalg.solve(even, (right * size).T[:, :, None])[:, :, 0].T * size)

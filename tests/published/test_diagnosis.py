"""Belief against a published diagnosis: two small machines of known wiring, no appliance and no circuit.

J. de Kleer and B. C. Williams, "Diagnosing multiple faults", Artificial Intelligence 32(1), 1987, pages 97 to 130:
three multipliers and two adders ("polybox"), and a chain of inverters. S: seen in lecture notes on that paper (MIT
16.412J). C: computed outside this project from the definitions of that paper, and held here to the digits given.
"""

from collections.abc import Iterator
from itertools import combinations, product

import numpy as np
import pytest
from numpy.typing import NDArray

from halfsplit.belief import Item, entropy, expected_entropy, weigh

Real = NDArray[np.float64]
Candidate = frozenset[str]

PARTS = ("M1", "M2", "M3", "A1", "A2")
INPUTS = {"A": 3, "B": 2, "C": 2, "D": 3, "E": 3}
OBSERVED = {"F": 10, "G": 12}
VALUES = range(-20, 40)
"""Wide enough for every value that the observed ones can force."""


def _subsets(parts: tuple[str, ...]) -> list[Candidate]:
    return [frozenset(some) for count in range(len(parts) + 1) for some in combinations(parts, count)]


def _prior(candidates: list[Candidate], parts: tuple[str, ...], share: float) -> Real:
    shares = [share ** len(candidate) * (1 - share) ** (len(parts) - len(candidate)) for candidate in candidates]
    return np.array(shares)


def _worlds(candidate: Candidate, seen: dict[str, int]) -> Iterator[dict[str, int]]:
    """Every assignment of the five wires that a candidate allows: sound parts compute, the others put out anything."""
    sound = {"M1": INPUTS["A"] * INPUTS["C"], "M2": INPUTS["B"] * INPUTS["D"], "M3": INPUTS["C"] * INPUTS["E"]}
    free = [VALUES if name in candidate else (value,) for name, value in sound.items()]
    for x, y, z in product(*free):
        if "A1" not in candidate and x + y != seen.get("F", x + y):
            continue
        if "A2" not in candidate and y + z != seen.get("G", y + z):
            continue
        yield {"X": x, "Y": y, "Z": z, "F": seen.get("F", x + y), "G": seen.get("G", y + z)}


def _predicted(candidate: Candidate, wire: str, seen: dict[str, int]) -> set[int] | None:
    """The value a candidate forces on a wire after what was seen: one value, none at all, or None when it is free."""
    if (wire == "F" and "A1" in candidate) or (wire == "G" and "A2" in candidate):
        return None
    values: set[int] = set()
    for world in _worlds(candidate, seen):
        values.add(world[wire])
        if len(values) > 1:
            return None
    return values


CANDIDATES = _subsets(PARTS)
PRIOR = _prior(CANDIDATES, PARTS, 0.01)


def _certain(fits: Real) -> Item:
    """An observation that nobody got wrong."""
    return Item(fits, fits, broad=0.0, mistaken=0.0, wrong_setup=0.0, key=("observed",))


def _consistent(candidate: Candidate) -> bool:
    return next(_worlds(candidate, OBSERVED), None) is not None


def _share_of(shares: Real, *parts: str) -> float:
    return float(shares[CANDIDATES.index(frozenset(parts))])


def _chance_of_seen(candidate: Candidate, unpredicted: float) -> float:
    """Probability of F and then G under a candidate: 1 where it predicts the value, `unpredicted` where it does not."""
    chance, seen = 1.0, {}
    for wire, value in OBSERVED.items():
        forced = _predicted(candidate, wire, seen)
        chance *= unpredicted if forced is None else float(forced == {value})
        seen[wire] = value
    return chance if _consistent(candidate) else 0.0


def test_the_minimal_diagnoses_of_the_polybox_are_the_four_that_are_printed() -> None:
    # S, C.
    consistent = [candidate for candidate in CANDIDATES if _consistent(candidate)]
    minimal = {candidate for candidate in consistent if not any(other < candidate for other in consistent)}
    assert minimal == {frozenset({"M1"}), frozenset({"A1"}), frozenset({"M2", "A2"}), frozenset({"M2", "M3"})}


@pytest.mark.parametrize("conflict", [{"M1", "M2", "A1"}, {"M1", "M3", "A1", "A2"}])
def test_a_conflict_of_the_polybox_cannot_all_be_sound(conflict: set[str]) -> None:
    # S, C.
    assert not _consistent(frozenset(PARTS) - conflict)
    for part in conflict:  # and it is minimal
        assert _consistent(frozenset(PARTS) - (conflict - {part}))


def test_consistency_alone_leaves_27_candidates_and_this_belief() -> None:
    # C, with p = 0.01 for each part.
    fits = np.array([float(_consistent(candidate)) for candidate in CANDIDATES])
    belief = weigh(PRIOR, 0.0, [_certain(fits)])
    assert np.count_nonzero(belief.shares) == 27
    assert _share_of(belief.shares, "M1") == pytest.approx(0.478026, abs=5e-7)
    assert _share_of(belief.shares, "A1") == pytest.approx(0.478026, abs=5e-7)
    assert _share_of(belief.shares, "M2", "M3") == pytest.approx(0.004829, abs=5e-7)
    assert entropy(belief.shares) == pytest.approx(1.35945, abs=5e-6)


def _after_observing() -> Real:
    """Belief with 1/16 for a value that a candidate does not predict (the paper's 1/m)."""
    fits = np.array([_chance_of_seen(candidate, 1 / 16) for candidate in CANDIDATES])
    return weigh(PRIOR, 0.0, [_certain(fits)]).shares


def test_a_value_not_predicted_has_one_chance_in_sixteen() -> None:
    # C.
    shares = _after_observing()
    assert _share_of(shares, "M1") == pytest.approx(0.496225, abs=5e-7)
    assert _share_of(shares, "A1") == pytest.approx(0.496225, abs=5e-7)
    assert _share_of(shares, "M1", "A1") == pytest.approx(0.005012, abs=5e-7)
    assert entropy(shares) == pytest.approx(1.07135, abs=5e-6)


def _outcomes(wire: str) -> Real:
    """Probability of each of sixteen values of a wire under each candidate, shape (16, candidates)."""
    values = range(16)
    columns = []
    for candidate in CANDIDATES:
        forced = _predicted(candidate, wire, OBSERVED)
        columns.append([1 / 16 if not forced else float(forced == {value}) for value in values])
    return np.array(columns).T


@pytest.mark.parametrize(("wire", "bits"), [("X", 0.03834), ("Y", 1.06355), ("Z", 1.06701)])
def test_the_expected_entropy_says_to_measure_x(wire: str, bits: float) -> None:
    # C. The paper measures X first, by the same rule.
    assert expected_entropy(_after_observing(), _outcomes(wire)) == pytest.approx(bits, abs=5e-6)


GATES = ("I1", "I2", "I3", "I4")
CHAINS = _subsets(GATES)


def _wrong_output(candidate: Candidate) -> float:
    """Four sound inverters give the input back; behind a gate that is not sound the output is wrong one time in two."""
    return 0.5 if candidate else 0.0


def _node(candidate: Candidate, node: int) -> tuple[float, float]:
    """Chance that the node behind gate `node` is right, or wrong, once the output is known to be wrong."""
    before = any(int(gate[1]) <= node for gate in candidate)
    behind = any(int(gate[1]) > node for gate in candidate)
    if not before:
        return 1.0, 0.0
    return (0.5, 0.5) if behind else (0.0, 1.0)


def _chain() -> Real:
    fits = np.array([_wrong_output(candidate) for candidate in CHAINS])
    return weigh(_prior(CHAINS, GATES, 0.01), 0.0, [_certain(fits)]).shares


def test_each_inverter_of_a_chain_with_a_wrong_output_is_as_suspect_as_the_next() -> None:
    # C, with p = 0.01 for each gate.
    shares = _chain()
    for gate in GATES:
        assert shares[CHAINS.index(frozenset({gate}))] == pytest.approx(0.24624, abs=5e-6)


@pytest.mark.parametrize(("node", "bits"), [(1, 1.31835), (2, 1.13216), (3, 1.31835)])
def test_the_half_split_of_a_chain_leaves_least_unknown(node: int, bits: float) -> None:
    # C. Halfway, as the paper's own chain has it.
    outcomes = np.array([_node(candidate, node) for candidate in CHAINS]).T
    assert expected_entropy(_chain(), outcomes) == pytest.approx(bits, abs=5e-6)

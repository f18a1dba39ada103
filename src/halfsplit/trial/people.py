"""The people of a trial: a customer who tells, a technician who looks and reads, each with a share of errors."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from halfsplit.call import Engine
from halfsplit.errors import InputError
from halfsplit.nextcheck import mend_of
from halfsplit.predict import Expected, Predictor, Real, expected, levels, one_step_forgotten
from halfsplit.techsheet import Machine
from halfsplit.trade import LEVELS, Action, Level, Look, Measure, Reading, Seen, Setup, Suspect
from halfsplit.units import METER_MODES

_LEAST_OHM = 1.0
"""A sheet's mistake in less than this would be lost in what a meter's leads add."""
_FALSE_NOTHING = 0.7
"""Of mistaken readings this share shows nothing (0 V, or OL on ohms): a bad contact or a flat meter."""


@dataclass(frozen=True, slots=True)
class Noise:
    """How often people err.

    Attributes:
        told_wrong: Share of the customer's statements that are wrong.
        seen_wrong: Share of the technician's looks that are wrong.
        misread: Share of readings that are mistaken altogether.
        wrong_setup: Share of looks and readings made with one step of the setup forgotten.
    """

    told_wrong: float
    seen_wrong: float
    misread: float
    wrong_setup: float


CLEAN = Noise(0.0, 0.0, 0.0, 0.0)
NOISY = Noise(told_wrong=0.08, seen_wrong=0.02, misread=0.02, wrong_setup=0.03)


@dataclass(frozen=True, slots=True)
class World:
    """One hidden truth: the machine under it, and what must be changed to cure it."""

    truth: Suspect
    predictor: Predictor
    things: frozenset[str]

    def level(self, function: str, setup: Setup) -> Level:
        """The level an honest look gives."""
        machine = self.predictor.machine
        return LEVELS[int(levels(self.predictor, machine.functions[function], setup)[:, 0].argmax())]


def world(engine: Engine, truth: Suspect, machine: Machine | None = None) -> World:
    """The world in which `truth` is so, in a machine that is as the sheet says unless another is given."""
    things = frozenset(mend_of(engine.machine, fault).thing for fault in truth.faults)
    return World(truth, Predictor(machine or engine.machine, (truth,)), things)


def draw_truth(engine: Engine, rng: np.random.Generator, *, two: bool = False) -> Suspect:
    """A hidden truth drawn from the rates; one that nobody would call about is drawn again.

    Args:
        engine: For the rates.
        rng: To draw with.
        two: Only pairs of faults.

    Raises:
        InputError: Two are wanted, and no pair is likely enough to be listed.
    """
    prior = engine.prior
    first = prior.singles if two else 0
    if first >= len(prior.suspects):
        raise InputError("No two faults of this sheet are likely together.", "Leave out `--hidden two`.")
    shares: Real = prior.shares[first:] / prior.shares[first:].sum()
    while True:
        truth = prior.suspects[first + int(rng.choice(len(shares), p=shares))]
        if not truth.faults or shows(engine, truth):
            return truth


def mistaken_sheet(engine: Engine, rng: np.random.Generator) -> Machine:
    """The machine as it really is where its sheet has one mistake: something made to a tolerance has other ohms.

    The sheet (and so the engine) says what it says; the real ohms are 0.6 or 1.7 times that.
    """
    machine = engine.machine
    branches = list(machine.network.branches)
    made = [place for place, branch in enumerate(branches) if branch.tolerance > 0.0 and branch.ohm >= _LEAST_OHM]
    place, times = made[int(rng.integers(len(made)))], (0.6, 1.7)[int(rng.integers(2))]
    dc = branches[place].dc_ohm
    branches[place] = replace(branches[place], ohm=branches[place].ohm * times, dc_ohm=dc and dc * times)
    return replace(machine, network=replace(machine.network, branches=tuple(branches)))


def shows(engine: Engine, truth: Suspect) -> bool:
    """Whether a person would see that something is wrong."""
    sound, sick = world(engine, Suspect(())), world(engine, truth)
    functions = engine.machine.functions.values()
    setups = engine.machine.setups
    return any(sound.level(f.name, setups[f.setup]) != sick.level(f.name, setups[f.setup]) for f in functions)


def complaint(engine: Engine, hidden: World, noise: Noise, rng: np.random.Generator) -> tuple[Seen, ...]:
    """What the customer tells: a complaint of the sheet that is so, or else one function that is not as it should be.

    With nothing wrong it is a complaint drawn at random. Each statement may be wrong.
    """
    machine = engine.machine
    every = [dict(entry.means) for entry in machine.complaints.values()]
    true = [
        means
        for means in every
        if all(hidden.level(f, machine.setups[machine.functions[f].setup]) == level for f, level in means.items())
    ]
    if true or not hidden.truth.faults:
        means = (true or every)[int(rng.integers(len(true or every)))]
    else:
        means = what_is_off(engine, hidden, rng)
    told = []
    for function, level in means.items():
        wrong = rng.random() < noise.told_wrong
        told.append(
            Seen(function, _another(level, rng) if wrong else level, "customer", machine.functions[function].setup)
        )
    return tuple(told)


def what_is_off(engine: Engine, hidden: World, rng: np.random.Generator) -> dict[str, Level]:
    """One function that is not as in a sound machine, drawn at random, with its level; of a machine that shows it."""
    machine, sound = engine.machine, world(engine, Suspect(()))
    setups = {name: machine.setups[function.setup] for name, function in machine.functions.items()}
    off = [name for name, setup in setups.items() if hidden.level(name, setup) != sound.level(name, setup)]
    function = off[int(rng.integers(len(off)))]
    return {function: hidden.level(function, setups[function])}


def _another(level: Level, rng: np.random.Generator) -> Level:
    others = [other for other in LEVELS if other != level]
    return others[int(rng.integers(len(others)))]


def answer(hidden: World, action: Action, noise: Noise, rng: np.random.Generator) -> Seen | Reading:
    """What the technician enters for a check: the setup as stated, whatever was really done."""
    setup = hidden.predictor.machine.setups[action.setup]
    really = _really(setup, noise, rng)
    if isinstance(action, Look):
        level = hidden.level(action.function, really)
        wrong = rng.random() < noise.seen_wrong
        return Seen(action.function, _another(level, rng) if wrong else level, "technician", action.setup)
    return Reading(action.points, action.mode, action.setup, _value(hidden, action, really, noise, rng))


def _really(setup: Setup, noise: Noise, rng: np.random.Generator) -> Setup:
    """The setup as it was really brought about; the plug is never forgotten, or ohms would meet volts."""
    if rng.random() >= noise.wrong_setup:
        return setup
    shorter = [
        it for it in one_step_forgotten(setup) if ("plug", "out") not in setup.steps or ("plug", "out") in it.steps
    ]
    return shorter[int(rng.integers(len(shorter)))] if shorter else setup


def _column(value: Expected, rng: np.random.Generator) -> int:
    """How the machine happens to stand; no chance is drawn where it can stand one way only."""
    if value.carried is None or len(value.carried.weight) == 1:
        return 0
    return int(rng.choice(len(value.carried.weight), p=value.carried.weight))


def _value(hidden: World, action: Measure, setup: Setup, noise: Noise, rng: np.random.Generator) -> float:
    if rng.random() < noise.misread:
        nothing = np.inf if METER_MODES[action.mode].opens else 0.0
        return float(nothing if rng.random() < _FALSE_NOTHING else 10.0 ** rng.uniform(-1, 2.3))
    value = expected(hidden.predictor, (action.points,), action.mode, setup)
    column = _column(value, rng)
    mean, spread = float(value.mean[0, column]), float(value.spread[0, column])
    meter = METER_MODES[action.mode]
    if meter.is_tone:
        return float(rng.random() < mean)
    drawn = rng.normal(mean, spread) if np.isfinite(mean) else np.inf
    return float(drawn if meter.signed else abs(drawn))

"""How long the engine takes on the dryer: solving, replaying, the table of outcomes, and the answer to a question.

Milliseconds, the best of several runs: on a busy machine the best is nearest to what the work itself takes. Cold means
from a machine just read, with nothing remembered. The dense peer solves the same columns by numpy's batched solver,
matrices included.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import count

import numpy as np
from numpy.typing import NDArray

from halfsplit.call import Case, advise, told
from halfsplit.call.engine import Engine
from halfsplit.circuit import Layout, Settled, columns, replay, solve
from halfsplit.predict import candidates, outcomes
from halfsplit.techsheet import Machine, load_machine
from halfsplit.trade import Reading, Seen


def measure() -> dict[str, float]:
    """Every figure by its name, with its unit in the name."""
    started = time.perf_counter()
    machine = load_machine("dryer")
    read = 1e3 * (time.perf_counter() - started)
    return {"read the sheet once, ms": read, **_circuit(machine), **_engine(machine), **_questions(machine)}


def _best(work: Callable[[], object], times: int) -> float:
    """Milliseconds of the quickest of several runs."""
    best = float("inf")
    for _ in range(times):
        started = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - started)
    return 1e3 * best


def _circuit(machine: Machine) -> dict[str, float]:
    layout = Layout(machine.network)
    variants = [(), *(fault.patches for fault in machine.faults.values())]
    made = columns(layout, variants)
    running = replay(made, machine.setups["running"].steps)
    same = np.abs(_dense(running).T - running.solution.volts[len(layout.pole_volts) :]).max()
    once = _best(partial(solve, made, running.state), 20)
    return {
        "points": len(layout.points),
        "branches": len(machine.network.branches),
        "columns (sound and every single fault)": made.count,
        "solve, star-mesh, ms": once,
        "solve, star-mesh, µs a column": 1e3 * once / made.count,
        "largest difference of the two, mV": 1e3 * float(same),
        "solve, dense numpy, ms": _best(partial(_dense, running), 3),
        "replay of running, ms": _best(partial(replay, made, machine.setups["running"].steps), 5),
        "replay of every setup, ms": _best(lambda: [replay(made, setup.steps) for setup in machine.setups.values()], 3),
    }


def _dense(settled: Settled) -> NDArray[np.complex128]:
    """Volts of the same columns by nodal matrices and one batched solve, from the same admittances, shape (S, free)."""
    layout, admittance = settled.columns.layout, settled.solution.admittance
    points, poles, many = len(layout.points), len(layout.pole_volts), settled.columns.count
    matrix = np.zeros((points, points, many), dtype=np.complex128)
    a, b = layout.a, layout.b
    for one, other, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
        np.add.at(matrix, (one, other), sign * admittance)
    matrix = matrix.transpose(2, 0, 1)
    held = settled.columns.pole_scale * layout.pole_volts[:, None]
    currents = -np.einsum("sij,js->si", matrix[:, poles:, :poles], held)
    return np.asarray(np.linalg.solve(matrix[:, poles:, poles:], currents[:, :, None])[:, :, 0])


def _engine(machine: Machine) -> dict[str, float]:
    engine = Engine(machine)
    checks = candidates(engine.singles)
    return {
        "suspects with pairs": len(engine.prior.suspects),
        "checks considered": len(checks),
        "table of every outcome, cold, ms": _best(lambda: outcomes((Engine(machine).singles,), checks), 2),
    }


def _questions(machine: Machine) -> dict[str, float]:
    told_no_heat = Case().plus(*told(machine, "no heat"))
    later = told_no_heat.plus(
        Seen("heat", "none", "technician", "running"),
        Seen("drum turns", "normal", "technician", "running"),
        Reading(("heater.1", "heater.2"), "ohms", "dead", 10.7),
    )
    two = later.plus(
        Seen("drum lamp", "none", "technician", "door open"),
        Reading(("lamp.1", "lamp.2"), "ohms", "dead", float("inf")),
        Reading(("thermal cut-off.1", "thermal cut-off.2"), "ohms", "dead", float("inf")),
    )

    fresh = (replace(machine, digest=f"{machine.digest} {number}") for number in count())  # no engine knows it yet
    warm = {"just told": told_no_heat, "three looks on": later, "two faults": two}
    return {
        "advise, first question, ms": _best(lambda: advise(next(fresh), told_no_heat), 3),
        "advise, warm, first time two faults lead, ms": _first_pairs(next(fresh), later, two),
        **{f"advise, warm, {name}, ms": _warm(machine, case) for name, case in warm.items()},
    }


def _first_pairs(machine: Machine, before: Case, two: Case) -> float:
    advise(machine, before)
    return _best(partial(advise, machine, two), 1)


def _warm(machine: Machine, case: Case) -> float:
    advise(machine, case)
    return _best(partial(advise, machine, case), 10)

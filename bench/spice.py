"""ngspice on the same network: a program that is told to alter and solve, and a library in this very process.

Where ngspice or its library is not installed there is nothing to measure, and that is said.
"""

from __future__ import annotations

import ctypes
import re
import shutil
import subprocess
import time
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from halfsplit.circuit import Layout

Change = tuple[int, float]
"""A branch by its number, and the series resistance it gets, ohm."""
_LIBRARY = "libngspice.so.0"


def deck(layout: Layout, conducts: NDArray[np.bool_]) -> list[str]:
    """The network as SPICE elements, a branch's resistance by the name r<number>."""
    lines = ["* halfsplit bench"]
    for number, (pole, volts) in enumerate(zip(layout.network.poles, layout.pole_volts.tolist(), strict=True)):
        if pole.volts:
            lines.append(f"v{number} {_node(layout, number)} 0 dc 0 ac {abs(volts)} {np.degrees(np.angle(volts))}")
    for number in np.flatnonzero(conducts).tolist():
        branch = layout.network.branches[number]
        a, b = _node(layout, int(layout.a[number])), _node(layout, int(layout.b[number]))
        inner = f"m{number}" if branch.henry else b
        lines.append(f"r{number} {a} {inner} {branch.ohm!r}")
        lines += [f"l{number} {inner} {b} {branch.henry!r}"] if branch.henry else []
        lines += [f"c{number} {a} {b} {branch.farad!r}"] if branch.farad else []
    return lines


def _node(layout: Layout, point: int) -> str:
    is_reference = point < len(layout.pole_volts) and layout.pole_volts[point] == 0
    return "0" if is_reference else f"n{point}"


def _commands(layout: Layout, changes: Sequence[Change]) -> tuple[list[str], list[str]]:
    """What alters the network, and what brings it back."""
    return (
        [f"alter r{number} = {ohm!r}" for number, ohm in changes],
        [f"alter r{number} = {layout.network.branches[number].ohm!r}" for number, _ in changes],
    )


def by_program(
    layout: Layout, lines: list[str], variants: Sequence[Sequence[Change]], point: int
) -> tuple[float, float]:
    """Seconds that ngspice takes to alter, solve and bring back every variant, and |V| of a point in the last one.

    Returns:
        NaN twice where ngspice is not installed.
    """
    if shutil.which("ngspice") is None:
        return float("nan"), float("nan")
    hertz = layout.network.hertz
    orders = []
    for changes in variants:
        there, back = _commands(layout, changes)
        orders += [*there, f"ac lin 1 {hertz} {hertz}", *back]
    text = [*lines, ".control", "set noaskquit", *orders, f"print vm({_node(layout, point)})", "quit", ".endc", ".end"]
    started = time.perf_counter()
    done = subprocess.run(["ngspice", "-b"], input="\n".join(text), capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - started
    shown = re.search(r"vm\(\w+\) = (\S+)", done.stdout)
    return seconds, float(shown[1]) if shown else float("nan")


class _Vector(ctypes.Structure):
    _fields_ = (
        ("name", ctypes.c_char_p),
        ("kind", ctypes.c_int),
        ("flags", ctypes.c_short),
        ("real", ctypes.POINTER(ctypes.c_double)),
        ("complex", ctypes.POINTER(ctypes.c_double)),
        ("length", ctypes.c_int),
    )


class InProcess:
    """ngspice as a shared library in this process, with one circuit in it."""

    def __init__(self, layout: Layout, lines: list[str]) -> None:
        """Load the library.

        Raises:
            OSError: It is not installed.
        """
        self._layout = layout
        self._library = ctypes.CDLL(_LIBRARY)
        self._library.ngGet_Vec_Info.restype = ctypes.POINTER(_Vector)
        text = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_void_p)
        leave = ctypes.CFUNCTYPE(
            ctypes.c_int, ctypes.c_int, ctypes.c_bool, ctypes.c_bool, ctypes.c_int, ctypes.c_void_p
        )
        self._kept = (text(lambda *_: 0), text(lambda *_: 0), leave(lambda *_: 0))  # or they would be collected
        self._library.ngSpice_Init(*self._kept, None, None, None, None)
        given = [line.encode() for line in [*lines, ".end"]]
        self._library.ngSpice_Circ((ctypes.c_char_p * (len(given) + 1))(*given, None))

    def _tell(self, command: str) -> None:
        self._library.ngSpice_Command(command.encode())

    def solve(self, changes: Sequence[Change]) -> None:
        """Alter, solve and bring back; the solution stays until the next."""
        hertz = self._layout.network.hertz
        there, back = _commands(self._layout, changes)
        for command in [*there, f"ac lin 1 {hertz} {hertz}", *back]:
            self._tell(command)

    def volts(self, point: int) -> complex:
        """Volts of a point in the last solution."""
        vector = self._library.ngGet_Vec_Info(_node(self._layout, point).encode()).contents
        return complex(vector.complex[0], vector.complex[1])

    def forget(self) -> None:
        """Throw old solutions away; ngspice keeps them all."""
        self._tell("destroy all")

    def sweep(self, points: int) -> float:
        """Seconds a point that ngspice takes inside, in a sweep of so many."""
        hertz = self._layout.network.hertz
        started = time.process_time()
        self._tell(f"ac lin {points} {hertz} {hertz * 1.001}")
        return (time.process_time() - started) / points

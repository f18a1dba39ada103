"""A network in one state as SPICE text, so that anyone may check our numbers with a program of their own.

Points become n0, n1…, with their names in comments; the reference is node 0. One `.ac` point at the working frequency.
"""

from __future__ import annotations

import cmath
import math

from halfsplit.circuit.settle import Settled


def spice(settled: Settled, column: int = 0, title: str = "halfsplit") -> str:
    """SPICE deck of one column as it stands, phasors at the working frequency (RMS amplitudes)."""
    layout = settled.columns.layout
    scale = settled.columns.pole_scale
    lines = [f"* {title}"]
    lines += [f"* n{index} = {point}" for index, point in enumerate(layout.points)]
    for index, pole in enumerate(layout.network.poles):
        volts = pole.volts * scale[index, column]
        lines.append(f"V{index} n{index} 0 DC 0 AC {abs(volts):.12g} {math.degrees(cmath.phase(volts)):.12g}")
    for index, branch in enumerate(layout.network.branches):
        if settled.solution.admittance[index, column] != 0:
            lines += _elements(settled, index, column, branch.farad)
    hertz = layout.network.hertz
    return "\n".join([*lines, f".ac lin 1 {hertz:.12g} {hertz:.12g}", ".print ac all", ".end", ""])


def _elements(settled: Settled, index: int, column: int, farad: float) -> list[str]:
    made = settled.columns
    branch = made.layout.network.branches[index]
    ohm = branch.ohm * made.branch_scale[index, column] + made.added_ohm[index, column]
    henry = branch.henry * made.branch_scale[index, column]
    a, b = f"n{made.layout.a[index]}", f"n{made.layout.b[index]}"
    middle = f"x{index}" if henry else b
    lines = [f"* {branch.name}", f"R{index} {a} {middle} {ohm:.12g}"]
    if henry:
        lines.append(f"L{index} {middle} {b} {henry:.12g}")
    if farad:
        lines.append(f"C{index} {a} {b} {farad / made.branch_scale[index, column]:.12g}")
    return lines

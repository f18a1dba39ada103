"""A network in one state as SPICE text, so that anyone may check our numbers with a program of their own.

Points become n0, n1…, with their names in comments; the reference is node 0. Three analyses: `ac`, one point at the
working frequency; `direct`, the operating point of what sources feed; `cycles`, a transient of the mains and all, for
what conducts one way only.
"""

from __future__ import annotations

import cmath
import math
from typing import Literal

from halfsplit.circuit.network import Transformer
from halfsplit.circuit.settle import Settled
from halfsplit.circuit.solve import conducting

Analysis = Literal["ac", "direct", "cycles"]
_STEPS_A_CYCLE = 1000
_DIODE = ".model oneway D(IS=1e-9 N=0.01 RS=0)"
"""As near to a valve without a forward drop as its formula comes: below 10 mV at 100 A."""


def spice(settled: Settled, column: int = 0, title: str = "halfsplit", analysis: Analysis = "ac") -> str:
    """SPICE deck of one column as it stands (RMS amplitudes in `ac`, true ones in `cycles`).

    One-way branches are diodes in `cycles`; in `ac` and `direct` they stand as in the first half of the cycle.
    """
    layout = settled.columns.layout
    lines = [f"* {title}"]
    lines += [f"* n{index} = {point}" for index, point in enumerate(layout.points)]
    lines += _poles(settled, column, analysis) + _sources(settled, column, analysis)
    for number, made in enumerate(layout.network.transformers):
        lines += _transformer(settled, number, made, analysis)
    conducts = settled.solution.admittance[:, column] != 0
    if analysis == "cycles":
        conducts = conducting(settled.columns, settled.state)[:, column]
        lines.append(_DIODE)
    for index in range(len(layout.network.branches)):
        if conducts[index]:
            lines += _elements(settled, index, column, analysis)
    return "\n".join([*lines, *_asked(layout.network.hertz, analysis), ".end", ""])


def _asked(hertz: float, analysis: Analysis) -> tuple[str, ...]:
    if analysis == "direct":
        return (".op", ".print op all")
    if analysis == "cycles":
        cycle = 1.0 / hertz
        # Two cycles to come to rest, then one that is kept.
        return (f".tran {cycle / _STEPS_A_CYCLE:.12g} {3 * cycle:.12g} {2 * cycle:.12g}", ".print tran all")
    return (f".ac lin 1 {hertz:.12g} {hertz:.12g}", ".print ac all")


def _held(name: str, ends: str, volts: complex, direct: float, hertz: float, analysis: Analysis) -> str:
    """One voltage source."""
    size, degrees = abs(volts), math.degrees(cmath.phase(volts))
    if analysis == "ac":
        return f"{name} {ends} DC 0 AC {size:.12g} {degrees:.12g}"
    if analysis == "direct" or not size:
        return f"{name} {ends} DC {direct:.12g}"
    return f"{name} {ends} SIN({direct:.12g} {math.sqrt(2) * size:.12g} {hertz:.12g} 0 0 {degrees:.12g})"


def _poles(settled: Settled, column: int, analysis: Analysis) -> list[str]:
    network, scale = settled.columns.layout.network, settled.columns.pole_scale
    return [
        _held(f"V{index}", f"n{index} 0", pole.volts * scale[index, column], 0.0, network.hertz, analysis)
        for index, pole in enumerate(network.poles)
    ]


def _sources(settled: Settled, column: int, analysis: Analysis) -> list[str]:
    layout, scale = settled.columns.layout, settled.columns.source_scale
    lines = []
    for index, source in enumerate(layout.network.sources):
        ends = f"n{layout.point_index[source.high]} n{layout.point_index[source.low]}"
        size = scale[index, column]
        lines += [f"* {source.name}"]
        lines += [_held(f"VS{index}", ends, source.volts * size, source.direct * size, layout.network.hertz, analysis)]
    return lines


def _transformer(settled: Settled, number: int, made: Transformer, analysis: Analysis) -> list[str]:
    """The first winding carries what the others ask for; for direct current all are bare wire."""
    index = settled.columns.layout.point_index
    first, lines = made.windings[0], [f"* {made.name}"]
    one = f"n{index[first.high]} n{index[first.low]}"
    if analysis == "direct":
        lines.append(f"VT{number}x0 {one} DC 0")
    for place, winding in enumerate(made.windings[1:], start=1):
        high, low = f"n{index[winding.high]}", f"n{index[winding.low]}"
        name, ratio = f"T{number}x{place}", winding.turns / first.turns
        if analysis == "direct":
            lines.append(f"V{name} {high} {low} DC 0")
        else:
            lines += [f"E{name} e{name} {low} {one} {ratio:.12g}", f"V{name} {high} e{name} DC 0"]
            lines += [f"F{name} {one} V{name} {-ratio:.12g}"]
    return lines


def _elements(settled: Settled, index: int, column: int, analysis: Analysis) -> list[str]:
    made = settled.columns
    branch = made.layout.network.branches[index]
    ohm = branch.ohm * made.branch_scale[index, column] + made.added_ohm[index, column]
    henry = branch.henry * made.branch_scale[index, column]
    a, b = f"n{made.layout.a[index]}", f"n{made.layout.b[index]}"
    valve = branch.one_way and analysis == "cycles"
    last = f"d{index}" if valve else b
    middle = f"x{index}" if henry else last
    lines = [f"* {branch.name}", f"R{index} {a} {middle} {ohm:.12g}"]
    if henry:
        lines.append(f"L{index} {middle} {last} {henry:.12g}")
    if valve:
        lines.append(f"D{index} {last} {b} oneway")
    if branch.farad:
        lines.append(f"C{index} {a} {b} {branch.farad / made.branch_scale[index, column]:.12g}")
    return lines

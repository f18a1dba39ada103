"""Motor and capacitor values that are printed elsewhere or are rules of the trade.

Source words: **S** seen in the source named, **M** from memory, **C** computed apart from this project. Tolerance: half
a unit of the last digit given.
"""

import math

import pytest

from halfsplit.circuit import Layout, Network, Pole, at_rest, columns, read_amps, read_ohms
from halfsplit.techsheet import catalogue
from halfsplit.techsheet.kinds.attribute import PartValues
from halfsplit.techsheet.kinds.base import Surroundings
from tests.unit.techsheet.kinds.tiny import machine, settled


def _amps(capacitance: str, volts: float, hertz: float) -> float:
    """What a capacitor of our catalogue takes straight from a supply."""
    around = Surroundings(lambda _: ((),), lambda _: ("", {}), lambda _: (), lambda _: (), hertz)
    values = {"capacitance": capacitance, "bleed resistor": None}
    stamp = catalogue()["capacitor"].stamp(PartValues("capacitor", "capacitor", values), around)
    network = Network(hertz, stamp.branches, (Pole("capacitor.1", volts), Pole("capacitor.2", 0)))
    at = at_rest(columns(Layout(network), [()]))
    return float(read_amps(at, ("capacitor:left-when-weak", "capacitor:lost-when-weak"))[:, 0].sum())


def test_a_capacitor_of_80_microfarad_takes_7_238_amperes_from_240_volts() -> None:
    # S: Kuphaldt, Lessons in Electric Circuits (edition not recorded): 33.157 Ω, 7.238 A at 60 Hz.
    amps = _amps("80 µF", 240, 60)
    assert amps == pytest.approx(7.238, abs=5e-4)
    assert 240 / amps == pytest.approx(33.157, abs=5e-4)


@pytest.mark.parametrize(("hertz", "factor"), [(60, 2652.58), (50, 3183.10)])
@pytest.mark.parametrize("microfarad", [5, 45, 161])
def test_microfarads_are_the_factor_times_amperes_over_volts(hertz: float, factor: float, microfarad: int) -> None:
    # C: 1e6/(2π·60) = 2652.58 and 1e6/(2π·50) = 3183.10; common practice on capacitors in circuit.
    assert factor * _amps(f"{microfarad} µF", 120, hertz) / 120 == pytest.approx(microfarad, rel=5e-6)
    assert factor == pytest.approx(1e6 / (2 * math.pi * hertz), abs=5e-3)


PAIRS = (("motor.C", "motor.S"), ("motor.C", "motor.R"), ("motor.S", "motor.R"))
LIFTED = ("  - brown plug.L starter.1\n", "")


def test_the_windings_of_a_compressor_add_up() -> None:
    # S: the sum rule, printed with C-S 11, C-R 4 and S-R 15 Ω (trade text, author not recorded).
    found = read_ohms(settled(machine("compressor", LIFTED), "dead"), PAIRS)[:, 0]
    assert found == pytest.approx([11, 4, 15], abs=0.02)  # a closed contact in C is 5 mΩ


def test_an_open_internal_overload_leaves_only_start_to_run() -> None:
    # Common practice, no source.
    found = read_ohms(settled(machine("compressor", LIFTED), "dead", "motor:overload-open"), PAIRS)[:, 0]
    assert math.isinf(found[0])
    assert math.isinf(found[1])
    assert found[2] == pytest.approx(15, abs=0.02)

"""Networks, their solution under many variants at once, settling by the user's steps, and the meter.

Knows nothing of appliances and nothing of probability.
"""

from halfsplit.circuit.columns import Columns, Layout, Solution, columns, solve
from halfsplit.circuit.meter import (
    HIGH_IMPEDANCE_OHM,
    LOW_IMPEDANCE_OHM,
    OHM_RANGE,
    read_amps,
    read_ohms,
    read_volts,
    read_volts_loaded,
)
from halfsplit.circuit.netlist import spice
from halfsplit.circuit.network import (
    ALWAYS,
    NEVER,
    NO,
    YES,
    Branch,
    Condition,
    Drive,
    Network,
    Patch,
    Pole,
    Step,
    Threshold,
    when,
)
from halfsplit.circuit.settle import Settled, at_rest, replay, take_step

__all__ = [
    "ALWAYS",
    "HIGH_IMPEDANCE_OHM",
    "LOW_IMPEDANCE_OHM",
    "NEVER",
    "NO",
    "OHM_RANGE",
    "YES",
    "Branch",
    "Columns",
    "Condition",
    "Drive",
    "Layout",
    "Network",
    "Patch",
    "Pole",
    "Settled",
    "Solution",
    "Step",
    "Threshold",
    "at_rest",
    "columns",
    "read_amps",
    "read_ohms",
    "read_volts",
    "read_volts_loaded",
    "replay",
    "solve",
    "spice",
    "take_step",
    "when",
]

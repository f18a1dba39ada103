"""Networks, their solution under many variants at once, settling by the user's steps, and the meter.

Knows nothing of appliances and nothing of probability.
"""

from halfsplit.circuit.columns import Columns, Layout, columns
from halfsplit.circuit.meter import (
    HIGH_IMPEDANCE_OHM,
    LOW_IMPEDANCE_OHM,
    OHM_RANGE,
    read_amps,
    read_ohms,
    read_volts,
    read_volts_loaded,
    read_waves,
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
    Source,
    Step,
    Threshold,
    Transformer,
    Winding,
    when,
)
from halfsplit.circuit.pairmeter import Sources, pair_sources
from halfsplit.circuit.pairs import Block, pair_volts
from halfsplit.circuit.paths import Path, measuring_paths
from halfsplit.circuit.settle import Settled, at_rest, replay, take_step
from halfsplit.circuit.settlepairs import SettledPairs, settle_pairs
from halfsplit.circuit.singles import Suspects, suspects
from halfsplit.circuit.solution import Half, Part, Solution, Wave
from halfsplit.circuit.solve import conducting, solve

__all__ = [
    "ALWAYS",
    "HIGH_IMPEDANCE_OHM",
    "LOW_IMPEDANCE_OHM",
    "NEVER",
    "NO",
    "OHM_RANGE",
    "YES",
    "Block",
    "Branch",
    "Columns",
    "Condition",
    "Drive",
    "Half",
    "Layout",
    "Network",
    "Part",
    "Patch",
    "Path",
    "Pole",
    "Settled",
    "SettledPairs",
    "Solution",
    "Source",
    "Sources",
    "Step",
    "Suspects",
    "Threshold",
    "Transformer",
    "Wave",
    "Winding",
    "at_rest",
    "columns",
    "conducting",
    "measuring_paths",
    "pair_sources",
    "pair_volts",
    "read_amps",
    "read_ohms",
    "read_volts",
    "read_volts_loaded",
    "read_waves",
    "replay",
    "settle_pairs",
    "solve",
    "spice",
    "suspects",
    "take_step",
    "when",
]

"""Read and print quantities as people write them; SI inside (temperatures in °C, times in minutes)."""

from halfsplit.units.conductor import read_conductor
from halfsplit.units.meter import BEEP_OHM, BEEP_SPREAD_OHM, METER_MODES, MeterMode
from halfsplit.units.quantity import (
    EXAMPLES,
    UNITS,
    read_current,
    read_length,
    read_minutes,
    read_power,
    read_quantity,
    read_temperature,
)
from halfsplit.units.reading import read_reading
from halfsplit.units.show import show, show_reading, show_share, write_reading

__all__ = [
    "BEEP_OHM",
    "BEEP_SPREAD_OHM",
    "EXAMPLES",
    "METER_MODES",
    "UNITS",
    "MeterMode",
    "read_conductor",
    "read_current",
    "read_length",
    "read_minutes",
    "read_power",
    "read_quantity",
    "read_reading",
    "read_temperature",
    "show",
    "show_reading",
    "show_share",
    "write_reading",
]

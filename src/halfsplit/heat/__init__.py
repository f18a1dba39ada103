"""Lumped heat: bodies that store it, links that pass it on, temperatures over time, and links that melt.

Knows no appliance, no circuit and no probability. Temperatures in °C, all else SI.
"""

from halfsplit.heat.air import Air, air_at
from halfsplit.heat.bodies import Body, Film, HeatNetwork, Link, Radiant, Stream
from halfsplit.heat.convection import horizontal_plate_nusselt, plate_coefficient, vertical_plate_nusselt
from halfsplit.heat.curve import Curve, Stop, steady, warm
from halfsplit.heat.lump import LARGEST_BIOT, Lump, biot
from halfsplit.heat.meltlink import MeltLink
from halfsplit.heat.thermocouple import type_k_celsius, type_k_millivolts

__all__ = [
    "LARGEST_BIOT",
    "Air",
    "Body",
    "Curve",
    "Film",
    "HeatNetwork",
    "Link",
    "Lump",
    "MeltLink",
    "Radiant",
    "Stop",
    "Stream",
    "air_at",
    "biot",
    "horizontal_plate_nusselt",
    "plate_coefficient",
    "steady",
    "type_k_celsius",
    "type_k_millivolts",
    "vertical_plate_nusselt",
    "warm",
]

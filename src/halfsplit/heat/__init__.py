"""Lumped heat: bodies that store it, links that pass it on, temperatures over time, and links that melt.

Knows no appliance, no circuit and no probability. Temperatures in °C, all else SI. Curves over time are imported from
`halfsplit.heat.curve`: they need scipy, which takes a third of a second to load.
"""

from halfsplit.heat.air import Air, air_at
from halfsplit.heat.bodies import Body, Film, HeatNetwork, Link, Radiant, Stream
from halfsplit.heat.convection import horizontal_plate_nusselt, plate_coefficient, vertical_plate_nusselt
from halfsplit.heat.lump import LARGEST_BIOT, Lump, biot
from halfsplit.heat.meltlink import MeltLink
from halfsplit.heat.thermocouple import type_k_celsius, type_k_millivolts

__all__ = [
    "LARGEST_BIOT",
    "Air",
    "Body",
    "Film",
    "HeatNetwork",
    "Link",
    "Lump",
    "MeltLink",
    "Radiant",
    "Stream",
    "air_at",
    "biot",
    "horizontal_plate_nusselt",
    "plate_coefficient",
    "type_k_celsius",
    "type_k_millivolts",
    "vertical_plate_nusselt",
]

"""Find the failed part of a dead appliance from its wiring, a meter and what was seen."""

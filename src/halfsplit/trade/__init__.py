"""Frozen values that all rooms speak. No arithmetic, no wiring, no pages."""

from halfsplit.trade.limits import SERVICE_A, SERVICE_B, VOLTAGE_LIMITS, VoltageLimits
from halfsplit.trade.values import (
    LEVELS,
    MODES,
    NOT_ON_SHEET,
    NOTHING_WRONG,
    Action,
    Evidence,
    Level,
    Look,
    Measure,
    Mode,
    Observer,
    Reading,
    Seen,
    Setup,
    Suspect,
)

__all__ = [
    "LEVELS",
    "MODES",
    "NOTHING_WRONG",
    "NOT_ON_SHEET",
    "SERVICE_A",
    "SERVICE_B",
    "VOLTAGE_LIMITS",
    "Action",
    "Evidence",
    "Level",
    "Look",
    "Measure",
    "Mode",
    "Observer",
    "Reading",
    "Seen",
    "Setup",
    "Suspect",
    "VoltageLimits",
]

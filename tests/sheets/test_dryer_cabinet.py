"""When the dryer's cabinet is live: volts from its metal to true earth, by cord and fault.

Written down before it was run. By hand: with the door open the lamp (1440 Ω) lifts a lost neutral to its leg, 120 V.
With the service neutral lost, 144 Ω and the lamp on L1 share 240 V with 72 Ω on L2: L1 has 154.8 V, so the neutral bar
and all that is on it stand 34.8 V from earth.
"""

from __future__ import annotations

import pytest

from halfsplit.circuit import Layout, columns, replay
from halfsplit.techsheet import load_machine

DRYER = load_machine("dryer")
DOOR_OPEN = (("plug", "in"), ("door", "open"))
START_HELD = (("plug", "in"), ("timer", "timed dry"), ("start", "pressed"))


@pytest.mark.parametrize(
    ("cord", "steps", "faults", "least", "most"),
    [
        ("4-wire", DOOR_OPEN, (), 0.0, 1.0),
        ("3-wire", DOOR_OPEN, (), 0.0, 1.0),
        ("3-wire", DOOR_OPEN, ("plug:N-open",), 119.0, 121.0),
        ("4-wire", DOOR_OPEN, ("plug:N-open",), 0.0, 1.0),
        ("3-wire", DOOR_OPEN, ("house:open-neutral",), 119.0, 121.0),
        ("4-wire", DOOR_OPEN, ("house:open-service-neutral",), 34.3, 35.3),
        ("3-wire", DOOR_OPEN, ("house:open-service-neutral",), 34.3, 35.3),
        # A motor that touches its frame trips the breaker through the ground wire; without one the cabinet is live.
        ("4-wire", START_HELD, ("motor:grounded",), 0.0, 1.0),
        ("4-wire", START_HELD, ("motor:grounded", "plug:G-open"), 100.0, 121.0),
    ],
)
def test_the_cabinet_is_live_only_where_ground_or_neutral_is_lost(
    cord: str, steps: tuple[tuple[str, str], ...], faults: tuple[str, ...], least: float, most: float
) -> None:
    patches = tuple(patch for fault in faults for patch in DRYER.faults[fault].patches)
    settled = replay(columns(Layout(DRYER.network), [patches]), (("cord", cord), *steps))
    index = settled.columns.layout.point_index
    volts = abs(settled.solution.volts[index[DRYER.chassis], 0] - settled.solution.volts[index["house.~G"], 0])
    assert least <= volts <= most

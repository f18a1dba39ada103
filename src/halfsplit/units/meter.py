"""What a meter can be set to: one table of its modes, which code, pages and manual read.

Accuracy and range are those of a trade meter, common practice without a source, unless a line says otherwise.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class MeterMode:
    """One setting of a meter.

    Attributes:
        name: What it is called in files and commands.
        unit: V, Ω, A or W; empty for a tone, which is there (1) or not (0).
        accuracy: One standard deviation as a share of the reading, and a floor in its unit.
        least: Least reading that tells anything.
        most: Most that such a meter shows, in its unit.
        needs: The machine `dead`, or `live` (which it may be, but need not).
        where: Between two points, around the one wire between them, or at the plug.
        button: What it is called where one is chosen of many.
        dial: What the meter is set to, in words.
        ask: The check as a short instruction, for points `a` and `b`.
        tell: A reading in a sentence, for `a`, `b` and what the meter has `shown`.
        takes: What is typed, in a word.
        example: How it is typed.
        signed: Whether it matters which probe is which, and readings can be below zero.
        bare: What a number typed without a unit is multiplied by.
        damp: Ohms from which a reading is damp, dust or fingers, and from which it is as good as open.
        damp_share: How often what nothing joins is read so.
        open_says: What an open reading is called.
        shows_ghosts: Whether its impedance is high enough to show alternating volts through stray capacitance.
        puts_volts: Direct volts that it puts on the points, if they can harm.
    """

    name: str
    unit: str
    accuracy: tuple[float, float]
    least: float
    most: float
    needs: Literal["dead", "live"]
    where: Literal["points", "wire", "plug"]
    button: str
    dial: str
    ask: str
    tell: str
    takes: str
    example: str
    signed: bool = False
    bare: float = 1.0
    damp: tuple[float, float] = (0.0, 0.0)
    damp_share: float = 0.0
    open_says: str = "OL"
    shows_ghosts: bool = False
    puts_volts: int = 0

    @property
    def opens(self) -> bool:
        """Whether it can show OL."""
        return self.unit == "Ω"

    @property
    def is_tone(self) -> bool:
        """Whether it only sounds or not."""
        return not self.unit


BEEP_OHM = 30.0
"""A continuity tester sounds below this: 25 to 50 Ω by meter (common practice, no source)."""
BEEP_SPREAD_OHM = 8.0
_READS = "{a} to {b} reads {shown}"


def _insulation(volts: int) -> MeterMode:
    """An insulation tester at a stated voltage; sound insulation is over 2 MΩ, and damp may bring it down to 1 MΩ.

    A machine with protective earth passes at 1.0 MΩ (DIN VDE 0701-0702:2008; local codes rule).
    """
    return MeterMode(
        name=f"insulation-{volts}",
        unit="Ω",
        accuracy=(0.05, 2e4),
        least=1e3,
        most=1e10,
        needs="dead",
        where="points",
        button=f"Insulation, {volts} V",
        dial=f"insulation tester at {volts} V DC",
        ask=f"Test the insulation at {volts} V DC from {{a}} to {{b}}",
        tell=f"{{a}} to {{b}} reads {{shown}} at {volts} V DC",
        takes="megohms",
        example="200, 0.5 Mohm or OL",
        bare=1e6,
        damp=(1e6, 2e7),
        damp_share=0.1,
        open_says="over 20 MΩ",
        puts_volts=volts,
    )


def _volts(name: str, button: str, dial: str, asks: str = "volts", tell: str = _READS) -> MeterMode:
    return MeterMode(
        name=name,
        unit="V",
        accuracy=(0.01, 0.3),
        least=0.1,
        most=1000.0,
        needs="live",
        where="points",
        button=button,
        dial=dial,
        ask=f"Read {asks} from {{a}} to {{b}}",
        tell=tell,
        takes="volts",
        example="118 or 118 V",
        shows_ghosts=name != "low-z",
    )


_TABLE = (
    _volts("volts", "Volts", "volts AC"),
    _volts("low-z", "Volts, low impedance", "volts AC, low impedance"),
    MeterMode(
        name="ohms",
        unit="Ω",
        accuracy=(0.01, 0.3),
        least=0.1,
        most=100e6,
        needs="dead",
        where="points",
        button="Ohms",
        dial="ohms",
        ask="Read ohms from {a} to {b}",
        tell=_READS,
        takes="ohms",
        example="0.4, 2.4k or OL",
        damp=(3e5, 5e6),
        damp_share=0.02,
    ),
    MeterMode(
        name="amps",
        unit="A",
        accuracy=(0.02, 0.1),
        least=0.05,
        most=400.0,
        needs="live",
        where="wire",
        button="Amps, clamp",
        dial="clamp, amps AC",
        ask="Read amps from {a} to {b}",
        tell=_READS,
        takes="amps",
        example="5.2 or 5.2 A",
    ),
    MeterMode(
        name="dc",
        unit="V",
        accuracy=(0.005, 0.05),
        least=0.1,
        most=1000.0,
        needs="live",
        where="points",
        button="Volts DC",
        dial="volts DC, red probe on the first point",
        ask="Read volts DC from {a} (red) to {b}",
        tell="{a} (red) to {b} reads {shown} DC",
        takes="volts",
        example="12.1 or -12.1 V",
        signed=True,
    ),
    _volts(
        "ac+dc",
        "Volts AC+DC",
        "volts AC+DC, true RMS",
        "volts AC+DC",
        "{a} to {b} reads {shown} AC+DC",
    ),
    MeterMode(
        name="continuity",
        unit="",
        accuracy=(0.01, 0.3),
        least=0.0,
        most=1.0,
        needs="dead",
        where="points",
        button="Continuity",
        dial="continuity",
        ask="Try for a beep from {a} to {b}",
        tell="{a} to {b}: the meter {shown}",
        takes="beeps or silent",
        example="beeps or silent",
    ),
    MeterMode(
        name="watts",
        unit="W",
        accuracy=(0.02, 3.0),
        least=1.0,
        most=10e3,
        needs="live",
        where="plug",
        button="Watts at the plug",
        dial="watts, a power meter between plug and outlet",
        ask="Read watts at the plug",
        tell="the plug takes {shown}",
        takes="watts",
        example="5200, 5.2 kW or 340 W",
    ),
    _insulation(500),
    _insulation(250),
)
METER_MODES = {mode.name: mode for mode in _TABLE}

"""The manual's table of meter modes is the program's."""

from pathlib import Path

from halfsplit.units import METER_MODES, MeterMode, show

COMMANDS = (Path(__file__).parents[2] / "docs" / "commands.md").read_text(encoding="utf-8")


def _strays(mode: MeterMode) -> str:
    if mode.is_tone:
        return "beeps below 30 Ω, give or take 8 Ω"
    share, floor = mode.accuracy
    return f"{share * 100:g} % + {show(floor, mode.unit)}"


def test_every_mode_has_its_line_in_the_manual() -> None:
    lines = [line for line in COMMANDS.splitlines() if line.startswith("| `") and line.count("|") == 6]
    assert lines == [
        f"| `{mode.name}` | {mode.dial} | {mode.needs} | {_strays(mode)} | {mode.example} |"
        for mode in METER_MODES.values()
    ]

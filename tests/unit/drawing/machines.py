"""The machines that the drawing is tried on."""

from functools import cache
from pathlib import Path

from halfsplit.techsheet import Machine, load_machine, machine_from_text

NAMES = ("dryer", "reversing")


@cache
def machine(name: str) -> Machine:
    """The built-in dryer, or the odd sheet beside this file."""
    if name == "dryer":
        return load_machine(name)
    file = Path(__file__).with_name(f"{name}_sheet.yaml")
    return machine_from_text(file.read_text(encoding="utf-8"), file.name)

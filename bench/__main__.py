"""Measure and print: `python -m bench` (or `make bench`), a table and then the same as JSON.

Speed of the engine on the dryer, all pairs of faults at scale beside peers, two plies at scale, and the planner on a
published network that is not ours.
"""

import json
import os
import platform
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # before numpy: one core for everybody, ours and peers

import numpy as np

from bench import ahead, scale, speed, win95pts


def _table(figures: dict[str, float]) -> str:
    width = max(map(len, figures))
    return "\n".join(f"{name:<{width}}  {value:>10.4g}" for name, value in figures.items())


def main() -> None:
    """Print the table and the JSON."""
    figures = {**speed.measure(), **scale.measure(), **ahead.measure(), **win95pts.measure()}
    sys.stdout.write(f"{_table(figures)}\n\n")
    where = {"python": platform.python_version(), "numpy": np.__version__, "machine": platform.machine()}
    sys.stdout.write(f"{json.dumps({**where, **figures}, indent=2)}\n")


if __name__ == "__main__":
    main()

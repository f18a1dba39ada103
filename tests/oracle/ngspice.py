"""Run ngspice on many decks at once and read back every vector in full precision.

What may live here: starting the program and reading its binary raw file. One process takes any number of decks, which
costs about two milliseconds a deck; a process for each would cost thirty.
"""

from __future__ import annotations

import re
import subprocess
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

Vectors = dict[str, NDArray[np.complex128]]

_COUNTS = re.compile(rb"No\. Variables:\s*(\d+)\s+No\. Points:\s*(\d+)")
_NAME = re.compile(rb"^\t\d+\t(\S+)\t", re.MULTILINE)


def run_decks(ngspice: Path, decks: Sequence[str], folder: Path) -> list[Vectors]:
    """Vectors of every deck by name (`v(n4)`, lower case), one number for each point of its analysis.

    Raises:
        AssertionError: ngspice failed, or left out a deck; its own words are in the message.
    """
    different = list(dict.fromkeys(decks))
    for number, deck in enumerate(different):
        (folder / f"{number}.cir").write_text(deck, encoding="utf-8")
    each = "source {0}.cir\nrun\nwrite all.raw all\nremcirc\ndestroy all"
    orders = "\n".join(each.format(number) for number in range(len(different)))
    script = f"* many decks\n.control\nset filetype=binary\nset appendwrite\n{orders}\nquit\n.endc\n.end\n"
    (folder / "orders.cir").write_text(script, encoding="utf-8")
    (folder / "all.raw").unlink(missing_ok=True)
    # -n: a person's own start-up file must not change what is compared.
    done = subprocess.run(
        [str(ngspice), "-n", "-b", "orders.cir"], cwd=folder, capture_output=True, text=True, check=False
    )
    said = f"{done.stdout[-2000:]}\n{done.stderr[-2000:]}"
    assert done.returncode == 0, said
    answers = _read_raw((folder / "all.raw").read_bytes())
    assert len(answers) == len(different), said
    by_deck = dict(zip(different, answers, strict=True))
    return [by_deck[deck] for deck in decks]


def _read_raw(raw: bytes) -> list[Vectors]:
    """Every plot of a binary raw file: a text head, then all vectors of the first point, of the second, and so on."""
    plots, start = [], 0
    while start < len(raw):
        end = raw.index(b"Binary:\n", start) + len(b"Binary:\n")
        head = raw[start:end]
        counts = _COUNTS.search(head)
        assert counts is not None, head
        variables, points = int(counts[1]), int(counts[2])
        kind = np.dtype(np.complex128 if b"Flags: complex" in head else np.float64)
        size = variables * points * kind.itemsize
        table = np.frombuffer(raw[end : end + size], dtype=kind).reshape(points, variables)
        names = [name.decode() for name in _NAME.findall(head)]
        plots.append({name: table[:, index].astype(np.complex128) for index, name in enumerate(names)})
        start = end + size
    return plots

"""The tiny sheets of this folder: read, changed, and put into the words a person would use.

Each sheet exists for one kind or a few. Its symptoms stand in the test as they were written down before the sheet was
first run: a level for each function, in the sheet's order.
"""

from pathlib import Path

import numpy as np

from halfsplit.circuit import Columns, Layout, Settled, columns, replay
from halfsplit.errors import Problem
from halfsplit.predict import Predictor, levels
from halfsplit.techsheet import Machine, read_sheet
from halfsplit.trade import LEVELS, NOTHING_WRONG, Suspect

FOLDER = Path(__file__).parent
SHEETS = tuple(sorted(path.stem for path in FOLDER.glob("*.yaml")))
SOUND = "sound"


def text_of(name: str, *changes: tuple[str, str]) -> str:
    """Text of a sheet with some of it replaced; each old text must stand there exactly once."""
    text = (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands there {text.count(old)} times"
        text = text.replace(old, new)
    return text


def machine(name: str, *changes: tuple[str, str]) -> Machine:
    """The machine of a sheet, which must be sound."""
    found, problems = read_sheet(text_of(name, *changes), name)
    assert [str(problem) for problem in problems] == []
    assert found is not None
    return found


def told(name: str, *changes: tuple[str, str]) -> list[str]:
    """What is said of a changed sheet, without lines."""
    found, problems = read_sheet(text_of(name, *changes), name)
    assert found is None
    return [_words(problem) for problem in problems]


def _words(problem: Problem) -> str:
    return f"{problem.what} {problem.right}".strip()


def symptoms(found: Machine, *parts: str) -> dict[str, str]:
    """Levels of all functions, in the sheet's order: of the sound machine, and under every fault of the parts."""
    faults = [name for name, fault in found.faults.items() if fault.thing in parts]
    predictor = Predictor(found, (NOTHING_WRONG, *(Suspect((name,)) for name in faults)))
    rows = [
        np.argmax(levels(predictor, function, found.setups[function.setup]), axis=0)
        for function in found.functions.values()
    ]
    seen = [", ".join(LEVELS[row[column]] for row in rows) for column in range(len(faults) + 1)]
    return dict(zip((SOUND, *faults), seen, strict=True))


def settled(found: Machine, setup: str, *faults: str) -> Settled:
    """One column: the machine with these faults, in a setup."""
    patches = tuple(patch for fault in faults for patch in found.faults[fault].patches)
    made: Columns = columns(Layout(found.network), [patches])
    return replay(made, found.setups[setup].steps)


def volts(at: Settled, red: str, black: str) -> float:
    """Volts between two points without a meter's load."""
    index = at.columns.layout.point_index
    return float(abs(at.solution.volts[index[red], 0] - at.solution.volts[index[black], 0]))


def amps(at: Settled, branch: str) -> float:
    """Amps through a branch."""
    return float(abs(at.solution.through(branch)[0]))


def position(at: Settled, variable: str) -> str:
    """Where a variable stands."""
    layout = at.columns.layout
    return layout.positions[variable][at.state[layout.variable_index[variable], 0]]

"""Every fault of the dryer against four lists of symptoms written by hand before the engine was run."""

from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from halfsplit.predict import Predictor, levels
from halfsplit.techsheet import Machine, load_machine
from halfsplit.trade import LEVELS, NOTHING_WRONG, Suspect

HERE = Path(__file__).parent


def _yaml(name: str) -> Any:
    return YAML(typ="safe").load((HERE / name).read_text(encoding="utf-8"))


def _allowed(value: Any) -> set[str]:
    return set(value) if isinstance(value, list) else {value}


def expected_symptoms(machine: Machine) -> dict[str, dict[str, set[str]]]:
    """Fault (or "healthy") to function to the levels that the lists allow."""
    first, later = _yaml("dryer_symptoms.yaml"), _yaml("dryer_symptoms_later.yaml")
    more = {**_yaml("dryer_symptoms_supply.yaml")["faults"], **_yaml("dryer_symptoms_degrees.yaml")["faults"]}
    healthy = {**first["healthy"], **{function: row["healthy"] for function, row in later.items()}}
    table = {"healthy": {function: {level} for function, level in healthy.items()}}
    for fault, shown in more.items():
        table[fault] = {function: _allowed(level) for function, level in {**healthy, **shown}.items()}
    for fault in (name for name in first["faults"] if not _superseded(name)):
        row = {**healthy, **first["faults"][fault]}
        for function, entries in later.items():
            like = first["faults"][fault].get(entries.get("as", ""), entries["healthy"])
            row[function] = entries.get(fault, like)
        table[fault] = {function: _allowed(value) for function, value in row.items()}
    return table


def _superseded(fault: str) -> bool:
    """Joints of one degree, as they were before they had degrees: kept in the first list for its reasoning."""
    return fault.endswith(":loose") and "-" in fault


MACHINE = load_machine("dryer")
EXPECTED = expected_symptoms(MACHINE)
PREDICTOR = Predictor(MACHINE, (NOTHING_WRONG, *(Suspect((fault,)) for fault in MACHINE.faults)))


def _shown(fault: str) -> dict[str, str]:
    column = 0 if fault == "healthy" else 1 + list(MACHINE.faults).index(fault)
    shown = {}
    for name, function in MACHINE.functions.items():
        chances = levels(PREDICTOR, function, MACHINE.setups[function.setup])[:, column]
        shown[name] = LEVELS[int(chances.argmax())]
    return shown


def test_the_lists_cover_every_fault_and_every_function() -> None:
    assert set(EXPECTED) == {"healthy", *MACHINE.faults}
    assert set(EXPECTED["healthy"]) == set(MACHINE.functions)
    assert len(MACHINE.faults) >= 60


@pytest.mark.parametrize("fault", EXPECTED)
def test_each_fault_shows_what_was_written_down_before_the_engine_ran(fault: str) -> None:
    shown = _shown(fault)
    wrong = {
        name: (level, EXPECTED[fault][name]) for name, level in shown.items() if level not in EXPECTED[fault][name]
    }
    assert wrong == {}, f"{fault}: shown against written {wrong}"

"""Every command by text and by JSON, as a person would type it; a mistake is one sentence and exit code 2."""

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from halfsplit.cli import main

NO_HEAT = """\
sheet: dryer
seen:
  - {function: drum turns, level: normal}
  - {function: heat, level: none}
  - {function: drum lamp, level: normal, by: technician}
"""


class Run:
    """Runs the command in this process and keeps what it printed."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
        self._monkeypatch, self._capsys = monkeypatch, capsys

    def __call__(self, *words: str) -> tuple[int, str, str]:
        self._monkeypatch.setattr(sys, "argv", ["halfsplit", *words])
        with pytest.raises(SystemExit) as ended:
            main()
        printed = self._capsys.readouterr()
        return int(ended.value.code or 0), printed.out, printed.err

    def json(self, *words: str) -> Any:
        code, out, err = self(*words, "--json")
        assert (code, err) == (0, "")
        return json.loads(out)


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(monkeypatch, capsys)


@pytest.fixture
def case(tmp_path: Path) -> str:
    path = tmp_path / "no-heat.yaml"
    path.write_text(NO_HEAT, encoding="utf-8")
    return str(path)


def test_sheets_lists_the_dryer_with_its_counts(run: Run) -> None:
    (row,) = [row for row in run.json("sheets")["sheets"] if row["name"] == "dryer"]
    assert row["faults"] >= 60
    assert {"running", "dead"} <= set(row["setups"])
    assert f"{row['parts']} parts, {row['wires']} wires, {row['faults']} single faults" in run("sheets")[1]


def test_proofread_finds_nothing_in_the_dryer(run: Run) -> None:
    assert run.json("proofread", "dryer") == {"sheet": "dryer", "sound": True, "problems": [], "doubts": []}
    code, out, _ = run("proofread", "dryer")
    assert code == 0
    assert "nothing to correct" in out


def test_proofread_lists_every_mistake_with_its_line_and_exits_with_2(run: Run, tmp_path: Path) -> None:
    from halfsplit.techsheet import sheet_text

    text = sheet_text("dryer")[0].replace("- blue door.NO timer.A", "- blu door.NO timer.A")
    text = text.replace("- brown belt switch.2 start.1", "- brown belt switch.2 start.9")
    sheet = tmp_path / "mine.yaml"
    sheet.write_text(text, encoding="utf-8")
    code, out, _ = run("proofread", str(sheet))
    lines = out.splitlines()
    assert code == 2
    assert len(lines) == 2
    assert "'blu' is not a wire colour" in lines[0]
    assert "'blue'" in lines[0]
    assert "'start' has no terminal '9'" in lines[1]
    numbers = [text.splitlines().index(line) + 1 for line in text.splitlines() if "- blu " in line or "start.9" in line]
    assert [int(line.split(":")[1]) for line in lines] == numbers


def test_meter_reads_the_heater_at_its_own_ohms(run: Run) -> None:
    found = run.json("meter", "dryer", "--setup", "dead", "--points", "heater.1", "heater.2", "--mode", "ohms")
    assert found["value"] == pytest.approx(240**2 / 5400, rel=1e-3)  # 5.4 kW at 240 V
    assert (found["open"], found["shows"]) == (False, "10.7 Ω")


def test_meter_shows_ol_for_an_open_heater_with_no_number(run: Run) -> None:
    words = ("meter", "dryer", "--setup", "dead", "--points", "heater.1", "heater.2", "--mode", "ohms")
    found = run.json(*words, "--fault", "heater:open")
    assert (found["value"], found["open"], found["shows"]) == (None, True, "OL")
    assert run(*words, "--fault", "heater:open")[1].rstrip().endswith("OL")


def test_meter_names_the_ghost_voltage_of_a_cabinet_without_ground(run: Run) -> None:
    words = (
        "meter",
        "dryer",
        "--setup",
        "running",
        "--points",
        "chassis.G",
        "TB.N",
        "--fault",
        "plug.G-chassis.G:open",
    )
    ghost, loaded = run.json(*words, "--mode", "volts"), run.json(*words, "--mode", "low-z")
    assert ghost["value"] > 10
    assert ghost["spread"] > 0.05 * ghost["value"]  # nobody knows a stray capacitance well
    assert loaded["value"] < 1
    assert (ghost["ghost"], loaded["ghost"]) == (True, False)
    assert "ghost voltage" in run(*words, "--mode", "volts")[1]


def test_meter_does_not_call_a_real_voltage_a_ghost(run: Run) -> None:
    words = ("meter", "dryer", "--setup", "running", "--points", "heater.1", "heater.2", "--mode", "volts")
    assert not run.json(*words)["ghost"]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--setup", "runing", "--points", "heater.1", "heater.2"), "no setup 'runing'. Did you mean 'running'?"),
        (("--setup", "running", "--points", "heater.7", "heater.2"), "'heater' has no terminal '7'"),
        (("--setup", "running", "--points", "heater.1", "heater.1"), "Both probes are on heater.1"),
        (("--setup", "timer fast dry", "--points", "heater.1", "heater.2"), "'timer' has no position 'fast dry'"),
        (("--setup", "running", "--points", "heater.1", "heater.2", "--fault", "heater:opne"), "'heater:open'"),
    ],
)
def test_a_mistake_is_one_sentence_and_exit_code_2(run: Run, words: tuple[str, ...], sentence: str) -> None:
    code, out, err = run("meter", "dryer", *words, "--mode", "volts")
    assert (code, out) == (2, "")
    assert sentence in err
    assert err.count("\n") == 1


def test_ohms_on_a_live_machine_are_refused_in_text_and_json(run: Run) -> None:
    words = ("meter", "dryer", "--setup", "running", "--points", "heater.1", "heater.2", "--mode", "ohms")
    code, _, err = run(*words)
    assert code == 2
    assert "live" in err
    code, out, err = run(*words, "--json")
    assert (code, err) == (2, "")
    assert "live" in json.loads(out)["error"][0]["what"]


def test_suspects_of_no_heat_are_the_heater_circuit_and_never_the_door_switch(run: Run, case: str) -> None:
    found = run.json("suspects", "dryer", case)
    standing = {fault for view in found["suspects"] if view["consistent"] for fault in view["faults"]}
    assert {"heater:open", "thermal cut-off:open", "house:lost-L2", "plug:L2-open", "motor.2-TB.L2:open"} <= standing
    assert not {fault for fault in standing if fault.startswith("door")}
    total = sum(view["probability"] for view in found["suspects"]) + found["not_on_sheet"] + found["idle_pairs"]
    assert total == pytest.approx(1.0, abs=1e-9)


def test_suspects_in_text_give_the_evidence_once_and_what_goes_against_each(run: Run, case: str) -> None:
    code, out, _ = run("suspects", "dryer", case)
    assert code == 0
    assert out.count("heat is none") == 1
    assert "[heater:open]" in out
    assert "2 cannot be: it would be normal" in out


def test_next_proposes_a_dead_check_with_points_setup_caution_and_outcomes(run: Run, case: str) -> None:
    check = run.json("next", "dryer", case)["next"]
    assert check["kind"] in ("ohms", "look")
    assert not check["live"]
    assert len(check["outcomes"]) >= 2
    assert check["caution"].startswith("CAUTION")
    assert "Next: " in run("next", "dryer", case)[1]


def test_a_case_with_mistakes_lists_them_all_with_lines(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "bad.yaml"
    path.write_text(
        "sheet: dryer\nseen:\n  - {function: haet, level: none}\n"
        "readings:\n  - {points: [heater.1, heater.2], mode: ohms, setup: dead, reading: 12 V}\n",
        encoding="utf-8",
    )
    code, out, err = run("suspects", "dryer", str(path))
    assert (code, out) == (2, "")
    first, second = err.splitlines()
    assert first.startswith(f"{path}:3: ")
    assert "'heat'" in first
    assert second.startswith(f"{path}:5: ")
    assert "12 V" in second


def test_a_missing_case_file_is_one_sentence(run: Run) -> None:
    code, _, err = run("next", "dryer", "nowhere.yaml")
    assert code == 2
    assert err.count("\n") == 1


def test_netlist_is_a_deck_with_the_supply_and_an_end(run: Run) -> None:
    deck = run.json("netlist", "dryer", "--setup", "running")["spice"]
    assert deck.startswith("* ")
    assert "AC 120" in deck
    assert deck.rstrip().endswith(".end")


@pytest.mark.parametrize("what", ["sheet", "case"])
def test_schema_is_a_json_schema(run: Run, what: str) -> None:
    import jsonschema

    schema = run.json("schema", what)
    jsonschema.Draft202012Validator.check_schema(schema)


def test_hear_reads_everyday_words_and_asks_about_the_rest(run: Run) -> None:
    heard = run.json("hear", "dryer", "it turns but does not heat")
    assert heard["sure"] == {"drum turns": "normal", "heat": "none"}
    slow = run.json("hear", "dryer", "takes two cycles to dry")
    assert slow["functions"]["heat"].get("none", 0.0) < 0.5  # slow is not "no heat"
    code, out, _ = run("hear", "dryer", "the flurb is gronkled")
    assert code == 0
    assert "Ask" in out

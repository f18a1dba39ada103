"""`halfsplit find`, `demo` and `serve` as programs: typed answers in, records kept, mistakes in a sentence."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import cast

import pytest

from halfsplit.predict import Predictor, expected, levels
from halfsplit.techsheet import Machine, load_machine
from halfsplit.trade import LEVELS, Mode, Suspect
from halfsplit.units import show_reading

CUT_OFF_OPEN = "read thermal cut-off.1 to thermal cut-off.2, ohms, dead: OL"
COMMAND = (sys.executable, "-c", "from halfsplit.cli import main; main()")


class Terminal:
    """A person at a terminal with a data folder of their own."""

    def __init__(self, home: Path) -> None:
        self.environment = {**os.environ, "HALFSPLIT_HOME": str(home)}

    def __call__(self, *words: str, typed: str = "", code: int = 0) -> tuple[str, str]:
        done = subprocess.run(
            [*COMMAND, *words],
            input=typed,
            capture_output=True,
            text=True,
            env=self.environment,
            timeout=120,
            check=False,
        )
        assert done.returncode == code, done.stderr
        return done.stdout, done.stderr


@pytest.fixture
def terminal(tmp_path: Path) -> Terminal:
    return Terminal(tmp_path / "home")


def _standing(terminal: Terminal, call: int) -> dict[str, object]:
    found: dict[str, object] = json.loads(terminal("find", "--call", str(call), "--json")[0])
    return found


def test_an_answer_is_kept_when_the_terminal_is_closed_and_the_call_goes_on(terminal: Terminal) -> None:
    out, _ = terminal("find", "dryer", typed=f"\n1\n{CUT_OFF_OPEN}\n")
    assert "Go on with: halfsplit find --call 1" in out
    again, _ = terminal("find", "--call", "1", typed="suspects\n")
    assert "reads OL" in again
    assert "It turns but does not heat" in out


def test_back_takes_the_last_answer_back_exactly(terminal: Terminal) -> None:
    terminal("find", "dryer", typed="\n1\n")
    before = _standing(terminal, 1)
    terminal("find", "--call", "1", typed=f"{CUT_OFF_OPEN}\n")
    assert _standing(terminal, 1)["suspects"] != before["suspects"]
    terminal("find", "--call", "1", typed="back\n")
    assert _standing(terminal, 1) == before


WRONG_LINES = {
    "12 V": "'12 ",
    "blah": "'blah'",
    "seen haet: none": "'heat'",
    "seen heat: nothing": "'nothing' is not a level",
    "seen heat": "Write it as in: seen heat: none",
    "read TB.L1 to TB.L2, ohms, running: 5": "is live",
    "read TB.L1 to TB.L9, volts, running: 5": "no terminal",
    "read TB.L1, volts, running: 5": "Write it as in: read",
}


def test_a_wrong_line_is_one_sentence_and_changes_nothing(terminal: Terminal) -> None:
    terminal("find", "dryer", typed="\n1\n")
    before = _standing(terminal, 1)
    out, err = terminal("find", "--call", "1", typed="\n".join([*WRONG_LINES, "stop\n"]))
    answers = out.split("> ")[1:-1]
    assert len(answers) == len(WRONG_LINES)
    for answer, sentence in zip(answers, WRONG_LINES.values(), strict=True):
        assert sentence in answer
        assert answer.count("\n") == 1
    assert err == ""
    assert _standing(terminal, 1) == before


def test_skip_and_cannot_reach_bring_another_check(terminal: Terminal) -> None:
    terminal("find", "dryer", typed="\n1\n")
    seen = [_standing(terminal, 1)["next"]]
    for word in ("skip", "cannot reach"):
        terminal("find", "--call", "1", typed=f"{word}\n")
        check = _standing(terminal, 1)["next"]
        assert check not in seen
        seen.append(check)


def test_any_reading_is_welcome_at_any_time(terminal: Terminal) -> None:
    terminal(
        "find", "dryer", typed="\n1\nread TB.L1 to TB.L2, volts, resting: 121\nread TB.L2 to TB.N, volts, resting: 0\n"
    )
    best = _standing(terminal, 1)["suspects"][0]  # type: ignore[index]
    assert "L2" in best["faults"][0]


class Sitting:
    """One `find` in one process: reads up to the prompt, answers, reads on."""

    def __init__(self, terminal: Terminal, *words: str) -> None:
        pipe = subprocess.PIPE
        self.program = subprocess.Popen(
            [*COMMAND, *words], stdin=pipe, stdout=pipe, text=True, env=terminal.environment
        )

    def until(self, prompt: str) -> str:
        assert self.program.stdout is not None
        text = ""
        while not text.endswith(prompt):
            letter = self.program.stdout.read(1)
            assert letter, text
            text += letter
        return text

    def type(self, line: str) -> None:
        assert self.program.stdin is not None
        self.program.stdin.write(f"{line}\n")
        self.program.stdin.flush()


def _answer(machine: Machine, hidden: Predictor, shown: str) -> str:
    """What a technician would type at the check shown, if the hidden fault were the truth."""
    says = re.search(r"Setup: (.*)\.\n", shown)
    assert says is not None
    setup = next(setup for setup in machine.setups.values() if setup.says == says.group(1))
    if probes := re.search(r"Next: Read (ohms|volts) from (.+) to (.+)\n", shown):
        mode = cast(Mode, probes.group(1))
        value = expected(hidden, ((probes.group(2), probes.group(3)),), mode, setup)
        return show_reading(float(value.mean[0, 0]), mode)
    asked = next(function for function in machine.functions.values() if f"Next: {function.ask}\n" in shown)
    return LEVELS[int(levels(hidden, asked, setup)[:, 0].argmax())]


def test_the_whole_path_ends_at_the_hidden_part(terminal: Terminal) -> None:
    machine = load_machine("dryer")
    hidden = Predictor(machine, (Suspect(("high limit:open",)),))
    sitting = Sitting(terminal, "find", "dryer")
    for prompt, line in (("(Enter for 1): ", ""), ("(Enter for 18): ", "1")):
        sitting.until(prompt)
        sitting.type(line)
    shown = sitting.until("> ")
    for _ in range(20):
        if "Next: " not in shown:
            break
        sitting.type(_answer(machine, hidden, shown))
        shown = sitting.until("> ")
    sitting.type("stop")
    sitting.program.communicate(timeout=30)
    assert sitting.program.returncode == 0
    assert "It is the high limit thermostat" in shown


def test_no_sheet_an_unknown_sheet_and_an_unknown_call_are_one_sentence(terminal: Terminal) -> None:
    for words in (("find",), ("find", "washer"), ("find", "--call", "7")):
        _, err = terminal(*words, code=2)
        assert err.count("\n") == 1


@pytest.mark.parametrize(("words", "invented"), [(("demo", "--here-only"), True), (("serve",), False)])
def test_demo_and_serve_print_their_address_and_answer_there(
    terminal: Terminal, words: tuple[str, ...], invented: bool
) -> None:
    from urllib.request import urlopen

    command = [*COMMAND, *words, "--port", "0", "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=terminal.environment) as program:
        assert program.stdout is not None
        try:
            told = json.loads("".join(iter(program.stdout.readline, "}\n")) + "}")
            with urlopen(told["here"], timeout=30) as page:
                text = page.read().decode()
        finally:
            program.terminate()
    assert told["invented"] is invented
    assert told["telephone"] is None
    assert ("Harrow Bend" in text) is invented


def test_a_port_that_is_taken_is_one_sentence(terminal: Terminal) -> None:
    import socket

    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        _, err = terminal("serve", "--port", str(taken.getsockname()[1]), code=2)
    assert "--port" in err
    assert err.count("\n") == 1


def test_watts_at_the_plug_are_typed_without_points(terminal: Terminal) -> None:
    out, _ = terminal("find", "dryer", typed="\n1\nread watts, running: 5.2 kW\nread watts, running\nstop\n")
    assert "is not a reading" in out
    again, _ = terminal("find", "--call", "1", typed="suspects\n")
    assert "the plug takes 5.2 kW" in again


def test_an_input_that_ends_at_the_first_question_starts_no_call_and_stops(terminal: Terminal) -> None:
    for typed in ("", "the top stays cold\n", "stop\n"):
        out, _ = terminal("find", "dryer", typed=typed)
        assert out.count("number (Enter for") <= 3
        assert "No call was started." in out


def test_a_complaint_can_be_typed_in_its_own_words(terminal: Terminal) -> None:
    out, _ = terminal("find", "dryer", typed="\nit turns but does not heat.\nstop\n")
    assert "Go on with: halfsplit find --call 1" in out

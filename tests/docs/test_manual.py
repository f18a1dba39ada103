"""The manual is true: every command, setting, option and error has its place in it, and its words are the program's."""

import re
import shlex
import sys
from pathlib import Path

import pytest
import typer

from halfsplit import errors
from halfsplit.call import casefile
from halfsplit.cli.app import app, main
from halfsplit.desk import start
from halfsplit.desk.records import values
from halfsplit.techsheet import load_machine

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
COMMANDS = (DOCS / "commands.md").read_text(encoding="utf-8")
SOURCE = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "src").rglob("*.py"))


def _section(command: str) -> str:
    match = re.search(rf"^## halfsplit {command}\n(.*?)(?=^#|\Z)", COMMANDS, re.MULTILINE | re.DOTALL)
    assert match, f"docs/commands.md has no heading for {command!r}"
    return match.group(1)


def test_every_command_has_its_heading_and_every_option_is_named_under_it() -> None:
    group = typer.main.get_command(app)
    assert group.commands  # type: ignore[attr-defined]
    for name, command in group.commands.items():  # type: ignore[attr-defined]
        text = _section(name)
        for parameter in command.params:
            for option in getattr(parameter, "opts", []):
                if option.startswith("--") and option not in ("--json", "--help"):
                    assert option in text, f"{option} of {name} is not in docs/commands.md"


def test_every_heading_of_a_command_is_a_command() -> None:
    group = typer.main.get_command(app)
    headings = set(re.findall(r"^## halfsplit (\S+)$", COMMANDS, re.MULTILINE))
    assert headings == set(group.commands)  # type: ignore[attr-defined]


def test_every_command_takes_json() -> None:
    group = typer.main.get_command(app)
    for name, command in group.commands.items():  # type: ignore[attr-defined]
        assert any("--json" in getattr(parameter, "opts", []) for parameter in command.params), name


def test_every_environment_setting_is_in_the_table_of_settings_and_the_other_way_round() -> None:
    used = set(re.findall(r"environ\S*\(?\[?\"(HALFSPLIT_[A-Z_]+)\"", SOURCE))
    written = set(re.findall(r"^\| `(HALFSPLIT_[A-Z_]+)`", COMMANDS, re.MULTILINE))
    assert used == written


def test_every_error_has_its_heading() -> None:
    text = (DOCS / "errors.md").read_text(encoding="utf-8")
    for module in (errors, start, values):
        for name, item in vars(module).items():
            if isinstance(item, type) and issubclass(item, errors.HalfsplitError) and item is not errors.HalfsplitError:
                assert f"## {name}\n" in text


def test_every_key_of_a_case_file_is_in_the_manual() -> None:
    forms = (casefile.CaseForm, casefile.CaseSetupForm, casefile.SeenForm, casefile.ReadingForm)
    for key in {key for form in forms for key in form.model_fields}:
        assert f"{key}:" in COMMANDS, key


def test_the_case_in_the_manual_reads() -> None:
    (text,) = re.findall(r"```yaml\n(.*?)```", COMMANDS, re.DOTALL)
    case = casefile.read_case(text, "manual.yaml", load_machine("dryer"))
    assert len(case.evidence) == 4
    assert case.fixed == (("cord", "3-wire"),)


def test_every_link_between_pages_leads_somewhere() -> None:
    for page in [ROOT / "README.md", ROOT / "CONTRIBUTING.md", *DOCS.rglob("*.md")]:
        for target in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
            assert (page.parent / target).exists(), f"{page.name} links to {target}"


def test_what_the_readme_and_the_first_call_show_is_what_the_program_prints(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shown = []
    for page in (ROOT / "README.md", DOCS / "first-call.md"):
        shown += re.findall(r"^\$ (halfsplit .*)\n((?:(?!```).*\n)+)", page.read_text(encoding="utf-8"), re.MULTILINE)
    assert len(shown) >= 2
    for command, output in shown:
        monkeypatch.setattr(sys, "argv", shlex.split(command))
        with pytest.raises(SystemExit):
            main()
        assert capsys.readouterr().out.strip() == output.strip(), command


def test_the_readme_states_the_counts_of_the_dryer() -> None:
    machine = load_machine("dryer")
    counts = f"({len(machine.parts)} parts, {len(machine.wires)} wires, {len(machine.faults)} single faults)"
    assert counts in " ".join((ROOT / "README.md").read_text(encoding="utf-8").split())


def test_the_first_command_of_the_readme_stands_by_line_25() -> None:
    lines = (ROOT / "README.md").read_text(encoding="utf-8").splitlines()
    assert "make demo" in "\n".join(lines[:25])

"""The project's own description: the lock, the wheel, the first page."""

import re
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

import tests.conftest as shared

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "halfsplit"

# All that may stand in the lock: a name with its version and perhaps a marker, then its hashes. Leaves no room for
# an address, an option or a path.
PIN = re.compile(r"(?P<name>[a-z0-9-]+)==(?P<version>[0-9a-z.]+)( ; (?P<marker>[a-z0-9_.<>=!'()\- A-Z]+?))? \\")
HASH = re.compile(r"    --hash=sha256:[0-9a-f]{64}( \\)?")


def lock_faults(text: str) -> list[str]:
    """Say which lines of a lock are neither a pin nor a hash, and which pins have no hash."""
    lines = text.splitlines()
    faults = [line for line in lines if not (PIN.fullmatch(line) or HASH.fullmatch(line))]
    following = [*lines[1:], ""]
    faults += [
        line for line, after in zip(lines, following, strict=True) if PIN.fullmatch(line) and not HASH.match(after)
    ]
    return faults


def locked() -> dict[str, list[str]]:
    """Return the locked versions of each package (more than one where they depend on the Python version)."""
    versions: dict[str, list[str]] = {}
    for line in (ROOT / "requirements.lock").read_text(encoding="utf-8").splitlines():
        if pin := PIN.fullmatch(line):
            versions.setdefault(pin["name"], []).append(pin["version"])
    return versions


def declared() -> list[Requirement]:
    """Return every requirement in the project's description, extras included."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lists = [project["dependencies"], *project["optional-dependencies"].values()]
    return [Requirement(text) for requirements in lists for text in requirements]


def test_the_lock_holds_only_pins_and_hashes() -> None:
    assert lock_faults((ROOT / "requirements.lock").read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "line",
    [
        "--index-url https://packages.example/simple",
        "--find-links wheels",
        "numpy @ file:///somewhere/numpy.whl",
        "numpy==2.0.0 ; python_version > '3' # via example.org \\",
        "numpy>=2.0.0 \\",
        "numpy==2.0.0 \\",
    ],
)
def test_a_lock_with_an_address_a_range_or_no_hash_is_found_out(line: str) -> None:
    assert line in lock_faults(line)


@pytest.mark.parametrize("requirement", declared(), ids=str)
def test_what_is_declared_is_locked_within_its_range(requirement: Requirement) -> None:
    versions = locked().get(canonicalize_name(requirement.name), [])
    assert versions
    assert all(requirement.specifier.contains(version) for version in versions)


def test_nothing_pulls_in_a_learning_framework() -> None:
    # The oracle for belief can bring one; it is gigabytes that no test needs.
    assert "pgmpy" in locked()
    assert "torch" not in locked()


def test_the_wheel_holds_every_file_of_the_package(tmp_path: Path) -> None:
    ours = [path for path in PACKAGE.rglob("*") if path.is_file() and "__pycache__" not in path.parts]
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    (wheel,) = tmp_path.glob("*.whl")
    packed = set(zipfile.ZipFile(wheel).namelist())
    assert {path.relative_to(PACKAGE.parent).as_posix() for path in ours} <= packed


def test_the_first_page_says_the_job_and_both_commands_by_line_25() -> None:
    lines = (ROOT / "README.md").read_text(encoding="utf-8").splitlines()
    head = "\n".join(lines[:25])
    assert "find the failed part of a dead machine with a meter in hand" in " ".join(lines[:6])
    assert "make demo" in head
    assert "make test" in head


def test_a_missing_program_fails_in_ci_and_skips_elsewhere(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception, match="no-such-program is not installed"):
        shared.find_program("no-such-program", what_for="this test")
    monkeypatch.delenv("CI")
    with pytest.raises(pytest.skip.Exception, match="no-such-program is not installed"):
        shared.find_program("no-such-program", what_for="this test")

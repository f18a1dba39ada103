"""Opening a desk: its folder and secrets, one folder for one program, and a port that is taken."""

from __future__ import annotations

import ast
import os
import socket
import stat
import subprocess
import sys
from pathlib import Path

import pytest

import halfsplit.desk
from halfsplit.desk.folder import ACCESS_KEY, SIGNING_SECRET, data_folder, make_folder, read_secret
from halfsplit.desk.start import StartError, prepare

DESK = Path(halfsplit.desk.__file__).parent


def run(code: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", code, *arguments], check=False, capture_output=True, text=True, timeout=120
    )


def test_secrets_are_made_once_and_only_for_their_owner(tmp_path: Path) -> None:
    home = tmp_path / "new" / "home"
    make_folder(home)
    first = {name: read_secret(home, name) for name in (SIGNING_SECRET, ACCESS_KEY)}
    make_folder(home)
    assert {name: read_secret(home, name) for name in first} == first
    assert len(first[ACCESS_KEY]) == 16
    assert len(first[SIGNING_SECRET]) == 64
    assert sorted(path.name for path in home.iterdir()) == sorted(first)
    if os.name == "posix":
        assert stat.S_IMODE(home.stat().st_mode) == 0o700
        assert {stat.S_IMODE((home / name).stat().st_mode) for name in first} == {0o600}


def test_two_folders_have_different_secrets(tmp_path: Path) -> None:
    for name in ("one", "two"):
        make_folder(tmp_path / name)
    for secret in (SIGNING_SECRET, ACCESS_KEY):
        assert read_secret(tmp_path / "one", secret) != read_secret(tmp_path / "two", secret)


def test_an_empty_secret_left_by_a_crash_is_made_anew(tmp_path: Path) -> None:
    (tmp_path / ACCESS_KEY).touch()
    make_folder(tmp_path)
    assert len(read_secret(tmp_path, ACCESS_KEY)) == 16


def test_the_folder_is_named_by_the_environment_or_is_the_users_own(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("HALFSPLIT_HOME", str(tmp_path))
    assert data_folder() == tmp_path
    monkeypatch.delenv("HALFSPLIT_HOME")
    assert data_folder().name == "halfsplit"


def test_reading_the_settings_writes_nothing(tmp_path: Path) -> None:
    home = tmp_path / "home"
    code = f"import os; os.environ['HALFSPLIT_HOME'] = {str(home)!r}; import halfsplit.desk.settings"
    assert run(code).returncode == 0
    assert not home.exists()


def test_one_program_has_one_folder_open(tmp_path: Path) -> None:
    with pytest.raises(StartError, match=r"This program already has .* open"):
        prepare(tmp_path)


def test_a_prepared_folder_keeps_calls_and_the_clock_on_the_wall(tmp_path: Path) -> None:
    code = """
import os, sys, time
from pathlib import Path
os.environ["TZ"] = "UTC-3"; time.tzset()
from halfsplit.desk.start import prepare
assert prepare(Path(sys.argv[1])) == prepare(Path(sys.argv[1]))
from halfsplit.desk.records import store
from halfsplit.techsheet import sheet_text
call = store.start_call(*sheet_text("dryer"), complaint="no heat")
print(len(store.calls()), call.created.astimezone().utcoffset(), store.find_call(call.number) == call)
"""
    assert run(code, str(tmp_path)).stdout == "1 3:00:00 True\n"
    assert run(code, str(tmp_path)).stdout == "2 3:00:00 True\n"


def test_a_folder_that_cannot_be_made_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    code = """
import sys
from pathlib import Path
from halfsplit.desk.start import StartError, prepare
try:
    prepare(Path(sys.argv[1]) / "file" / "home")
except StartError as error:
    print(error)
"""
    said = run(code, str(tmp_path)).stdout
    assert "cannot be used: Not a directory. Name another with HALFSPLIT_HOME." in said


def test_a_port_that_is_taken_is_one_sentence(tmp_path: Path) -> None:
    code = """
import sys
from pathlib import Path
from halfsplit.desk.start import StartError, serve
try:
    serve("127.0.0.1", int(sys.argv[2]), Path(sys.argv[1]))
except StartError as error:
    print(error)
"""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        said = run(code, str(tmp_path), str(port)).stdout
    assert said.startswith(f"Port {port} on 127.0.0.1 cannot be listened on: ")
    assert said.endswith("Choose another with --port.\n")


def test_another_program_that_holds_the_records_is_one_sentence(tmp_path: Path) -> None:
    code = """
import sqlite3, sys
from pathlib import Path
from halfsplit.desk.start import prepare
home = prepare(Path(sys.argv[1]))
from django.db import connection
connection.settings_dict["OPTIONS"]["timeout"] = 0.1
connection.close()
from halfsplit.desk.records import store
from halfsplit.desk.records.values import RecordsError
from halfsplit.techsheet import sheet_text
other = sqlite3.connect(home / "halfsplit.sqlite3", isolation_level=None)
other.execute("begin immediate")
try:
    store.start_call(*sheet_text("dryer"))
except RecordsError as error:
    print(error)
other.execute("rollback")
print(len(store.calls()))
"""
    said = run(code, str(tmp_path)).stdout.splitlines()
    assert said[0].startswith("The records could not be reached (database is locked); nothing was written.")
    assert said[1] == "0"


def test_the_records_are_written_through_to_the_disk(tmp_path: Path) -> None:
    code = """
import sys
from pathlib import Path
from halfsplit.desk.start import prepare
prepare(Path(sys.argv[1]))
from django.db import connection
with connection.cursor() as cursor:
    print(*[cursor.execute(f"pragma {name}").fetchone()[0] for name in ("journal_mode", "synchronous", "busy_timeout")])
"""
    assert run(code, str(tmp_path)).stdout == "wal 2 10000\n"


def imports_of(path: Path) -> set[str]:
    """Modules that a file imports, and names from them as `module.name`."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
            found.update(f"{node.module}.{alias.name}" for alias in node.names)
    return found


def test_only_the_records_touch_the_database() -> None:
    outside = [path for path in DESK.rglob("*.py") if "records" not in path.parts]
    touching = {
        str(path.relative_to(DESK)): sorted(
            name for name in imports_of(path) if name.startswith(("django.db", "halfsplit.desk.records.models"))
        )
        for path in outside
    }
    assert len(touching) > 15
    assert {path: names for path, names in touching.items() if names} == {}
    assert "django.db" in imports_of(DESK / "records" / "safely.py")

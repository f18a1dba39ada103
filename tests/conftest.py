"""What all tests share: the outside programs that some of them need.

A missing program skips a test on a person's machine, with the reason, and fails it in CI, where `.ci/run` installs
it: a check that silently never runs is worse than none.
"""

import os
import shutil
from pathlib import Path
from typing import NoReturn

import pytest


def find_program(*names: str, what_for: str) -> Path:
    """Return the path of the first of ``names`` found on PATH; else fail in CI and skip elsewhere."""
    for name in names:
        if found := shutil.which(name):
            return Path(found)
    return missing(f"{names[0]} is not installed; {what_for} needs it")


def missing(reason: str) -> NoReturn:
    """Fail in CI, and skip elsewhere, for want of something outside."""
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def ngspice_path() -> Path:
    """The circuit simulator that our solver is compared with."""
    return find_program("ngspice", what_for="comparing the solver with another one")


@pytest.fixture(scope="session")
def chromium_path() -> Path:
    """The browser that opens the desk as a technician's telephone would."""
    return find_program("chromium", "chromium-browser", what_for="opening the desk in a real browser")

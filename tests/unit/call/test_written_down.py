"""The numbers in docs/how-it-thinks.md are those of the code."""

import re
from importlib import import_module
from pathlib import Path

import pytest

PAGE = (Path(__file__).parents[3] / "docs" / "how-it-thinks.md").read_text(encoding="utf-8")
ROWS = re.findall(r"^\| [^|]+ \| ([0-9.]+) \| `([a-z.]+)\.([A-Z_]+)(?:\[\"(\w+)\"\])?` \|$", PAGE, re.MULTILINE)


def test_the_table_is_found() -> None:
    assert len(ROWS) == 11


@pytest.mark.parametrize(("written", "module", "name", "key"), ROWS)
def test_a_number_in_the_manual_is_the_one_in_the_code(written: str, module: str, name: str, key: str) -> None:
    value = getattr(import_module(f"halfsplit.{module}"), name)
    assert float(written) == (value[key] if key else value)

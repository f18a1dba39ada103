"""The examples in the docstrings of this room are true."""

import doctest
import importlib

import pytest


@pytest.mark.parametrize(
    ("module", "least"),
    [("errors", 1), ("units.conductor", 2), ("units.quantity", 6), ("units.reading", 1), ("units.show", 4)],
)
def test_the_examples_are_true(module: str, least: int) -> None:
    result = doctest.testmod(importlib.import_module(f"halfsplit.{module}"))
    assert result.failed == 0
    assert result.attempted >= least

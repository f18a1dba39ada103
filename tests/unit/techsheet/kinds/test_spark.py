"""A spark module sparks while it is fed, and its fault is that it does not see the flame."""

from tests.unit.techsheet.kinds.tiny import machine, symptoms


def test_a_module_that_is_blind_to_the_flame_sparks_on_only_while_it_is_fed() -> None:
    unfed = ("setup: flame, shows: spark of spark", "setup: dead, shows: spark of spark")
    found = symptoms(machine("splitcoil", unfed), "spark")
    assert {fault: seen.rpartition(", ")[2] for fault, seen in found.items()} == dict.fromkeys(found, "none")

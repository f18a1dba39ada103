"""The control transformer: its ratio, its ohms, a floating secondary, and its faults."""

import pytest

from halfsplit.circuit import read_ohms, read_volts
from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told, volts

#                               light   heat
SYMPTOMS = {
    "sound": "normal, normal",
    "transformer:primary-open": "none, none",
    "transformer:secondary-open": "none, none",
    # It gives about two thirds of its volts: the lamp is dim, and the relay does not pull in at three quarters.
    "transformer:shorted-turns": "weak, none",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("transformer"), "transformer") == SYMPTOMS


def test_it_gives_its_volts_less_what_its_windings_drop() -> None:
    found = machine("transformer")
    at = settled(found, "on")
    through = abs(at.solution.through("transformer:secondary")[0])
    # A fifth of the mains less the drop in 0.6 Ω and in 8 Ω seen from the secondary, by 1 to 25.
    fifth = volts(at, "transformer.1", "transformer.2") / 5
    assert volts(at, "transformer.3", "transformer.4") == pytest.approx(fifth - through * (0.6 + 8 / 25), rel=0.01)
    assert amps(at, "transformer:primary") == pytest.approx(through / 5, rel=0.2)
    assert 0.03 < amps(settled(found, "on", "transformer:secondary-open"), "transformer:primary") < 0.06


def test_an_ohmmeter_finds_each_winding_and_nothing_between_them() -> None:
    pairs = (("transformer.1", "transformer.2"), ("transformer.1", "transformer.3"))
    bare = machine("transformer", ("  - black plug.L transformer.1\n", "  - black plug.N transformer.1\n"))
    assert read_ohms(settled(bare, "dead"), (("transformer.3", "transformer.4"),))[0, 0] < 0.61
    assert read_ohms(settled(machine("transformer"), "dead"), pairs)[0, 0] == pytest.approx(8, rel=0.001)
    assert read_ohms(settled(machine("transformer"), "dead"), pairs)[1, 0] > 5e6


def test_against_earth_a_floating_secondary_reads_next_to_nothing_on_a_low_impedance_meter() -> None:
    at = settled(machine("transformer"), "on")
    assert read_volts(at, (("transformer.3", "transformer.4"),), 3e3)[0, 0] == pytest.approx(23, abs=0.7)
    assert read_volts(at, (("transformer.3", "case.G"),), 3e3)[0, 0] < 0.1


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("secondary winding: 0.6 Ω", "secondary winding: 60 Ω"),
            "A secondary winding of 60 Ω would eat up the voltage of 'transformer'. "
            "Its load is 14.1 Ω seen from there: give the ohms of a sound winding.",
        ),
        (
            ("primary winding: 8 Ω", "primary winding: 800 Ω"),
            "A primary winding of 800 Ω would eat up the voltage of 'transformer'. "
            "Its load is 353 Ω seen from there: give the ohms of a sound winding.",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("transformer", change)[0] == said

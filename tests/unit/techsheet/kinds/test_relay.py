"""The relay: it holds itself in, lets go of itself, and buzzes when wired through its own contact."""

import pytest

from tests.unit.techsheet.kinds.tiny import amps, machine, position, settled, symptoms, told

#                       wait    press   heat    light   stop    cut     click
SYMPTOMS = {
    "sound": "normal, normal, normal, none, none, none, normal",
    "relay:coil-open": "normal, none, none, normal, none, none, none",
    "relay:stuck": "normal, none, none, normal, none, none, none",
    # Its own contact does not hold it in: it heats only while the button is held.
    "relay:COM1-NO1-open": "normal, normal, none, normal, none, none, normal",
    # Its own contact holds it in at once, whatever the button does.
    "relay:COM1-NO1-welded": "none, normal, normal, none, normal, normal, normal",
    "relay:COM2-NO2-open": "normal, none, none, none, none, none, normal",
    "relay:COM2-NO2-welded": "normal, normal, normal, none, normal, normal, normal",
    "relay:COM2-NC2-open": "none, normal, normal, none, none, none, normal",
    "relay:COM2-NC2-welded": "normal, normal, normal, normal, none, none, normal",
}


def test_a_hold_in_circuit_works_and_every_fault_of_its_relay_shows_as_written_down() -> None:
    assert symptoms(machine("holdin"), "relay") == SYMPTOMS


def test_the_coil_takes_its_current_from_the_mains_and_its_ohms_from_a_meter() -> None:
    found = machine("holdin")
    assert amps(settled(found, "running"), "relay:coil") == pytest.approx(
        0.04 * 117.35 / 120, rel=0.001
    )  # the house drops 2.65 V
    (coil,) = [branch for branch in found.network.branches if branch.name == "relay:coil"]
    assert coil.dc_ohm == 900


def test_a_relay_through_its_own_normally_closed_contact_buzzes_and_is_named() -> None:
    buzzer = machine(
        "holdin",
        ("makes: [COM1-NO1, COM2-NO2]", "makes: [COM2-NO2]"),
        ("breaks: [COM2-NC2]", "breaks: [COM1-NC1, COM2-NC2]"),
        ("  - red start button.4 relay.A1\n", ""),
        ("  - red relay.NO1 relay.A1\n", "  - red relay.NC1 relay.A1\n"),
    )
    assert settled(buzzer, "waiting").chatters == {0: ("relay:pulled-in",)}
    assert settled(machine("holdin"), "again").chatters == {}


def weak_house(pulls: str, drops: str) -> tuple[tuple[str, str], ...]:
    """118 V at the relay before the heater is on, about 107 V after."""
    return (
        ("title: house supply", "conductor resistance: 0.7 Ω, volts: 118 V, title: house supply"),
        ("coil current: 40 mA", f"coil current: 40 mA\n    pulls in at: {pulls}\n    drops out at: {drops}"),
    )


@pytest.mark.parametrize(
    ("pulls", "drops", "stands"), [("90 V", "36 V", "yes"), ("119 V", "36 V", "no"), ("117 V", "105 V", "yes")]
)
def test_it_pulls_in_and_lets_go_at_the_voltages_given(pulls: str, drops: str, stands: str) -> None:
    at = settled(machine("holdin", *weak_house(pulls, drops)), "running")
    assert position(at, "relay:pulled-in") == stands
    assert at.chatters == {}


def test_a_relay_whose_load_pulls_the_house_below_its_drop_out_chatters() -> None:
    assert settled(machine("holdin", *weak_house("117 V", "110 V")), "pressing").chatters == {0: ("relay:pulled-in",)}


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            (("makes: [COM1-NO1, COM2-NO2]", "makes: [COM1, COM2-NO2]"),),
            "'COM1' is not a contact. Write two terminals with a dash, as in `COM-NO`.",
        ),
        (
            (("breaks: [COM2-NC2]", "breaks: [NO2-COM2]"),),
            "'relay' has two contacts between the same terminals. Write each once.",
        ),
        (
            (("coil volts: 120 V", "coil volts: 120 V\n    coil terminals: [A1]"),),
            "The coil of 'relay' has not two terminals. Write both, as in [A1, A2].",
        ),
        (
            (("coil volts: 120 V", "coil volts: 120 V\n    drops out at: 95 V"),),
            "'relay' would let go at 95 V and pull in at 90 V, with a coil for 120 V. "
            "It lets go below the voltage at which it pulls in, and that is not above the coil's own.",
        ),
        (
            (("coil: 900 Ω", "coil: 9 kΩ"),),
            "A winding of 9 kΩ cannot pass that much current: the whole is only 3 kΩ. "
            "Check the winding's ohms and its current.",
        ),
        (
            (("    makes: [COM1-NO1, COM2-NO2]\n", ""), ("    breaks: [COM2-NC2]\n", "")),
            "'relay' has no contact. Write `makes: [COM-NO]` for one that closes as it pulls in.",
        ),
        ((("coil: 900 Ω", "coil: 900 V"),), "'900 V' is not in Ω. Write it as in 16 Ω."),
    ],
)
def test_what_makes_no_sense_is_told(changes: tuple[tuple[str, str], ...], said: str) -> None:
    assert told("holdin", *changes) == [said]


def test_a_coil_may_have_its_own_terminals_and_no_current() -> None:
    found = machine(
        "holdin",
        ("    coil current: 40 mA\n", "    coil terminals: [0, 1]\n"),
        ("  - red start button.4 relay.A1\n", "  - red start button.4 relay.0\n"),
        ("  - red relay.NO1 relay.A1\n", "  - red relay.NO1 relay.0\n"),
        ("  - white relay.A2 plug.N\n", "  - white relay.1 plug.N\n"),
    )
    assert found.parts["relay"].terminals[:2] == ("0", "1")
    assert amps(settled(found, "running"), "relay:coil") == pytest.approx(120 / 900, rel=0.03)

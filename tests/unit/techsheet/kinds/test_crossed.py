"""Leads put back crossed: what it shows, that it stays where other things are wrong too, and what is told of slips."""

import pytest

from halfsplit.circuit import read_ohms
from halfsplit.predict import Predictor, expected
from halfsplit.trade import NOTHING_WRONG, Suspect
from tests.unit.techsheet.kinds.tiny import amps, machine, settled, symptoms, told

#                        heat    light   heat open  light shut
SYMPTOMS = {
    "sound": "normal, normal, none, none",
    # Each is fed when the other should be.
    "door:crossed-NO-NC": "none, none, normal, normal",
    # The feed is on NO: shut, all is as before; open, the lamp hangs on the heater and nothing feeds either.
    "door:crossed-COM-NO": "normal, none, none, none",
}
WIRE = "door.NO-heater.1"


def test_crossed_leads_show_as_written_down() -> None:
    shown = symptoms(machine("crossed"), "door")
    assert {name: shown[name] for name in SYMPTOMS} == SYMPTOMS


def test_nothing_is_crossed_unless_the_sheet_says_it_can_be() -> None:
    plain = machine("crossed", (", crossable: [NO-NC, COM-NO]", ""))
    assert not any("crossed" in name for name in plain.faults)
    assert not any("~door" in branch.name for branch in plain.network.branches)


def test_the_sentence_and_the_mend_name_the_terminals() -> None:
    fault = machine("crossed").faults["door:crossed-NO-NC"]
    assert fault.says == "the leads on NO and NC of the door switch are crossed"
    assert fault.mend == "put the leads on NO and NC of the door switch the right way round"
    assert fault.price == 0.0


def test_an_open_wire_is_open_on_whichever_terminal_it_ends() -> None:
    found = machine("crossed")
    crossed = settled(found, "open", "door:crossed-NO-NC")
    assert amps(crossed, f"{WIRE}~door:crossed-NO-NC") == pytest.approx(8.3, rel=0.03)
    both = settled(found, "open", "door:crossed-NO-NC", f"{WIRE}:open")
    assert amps(both, f"{WIRE}~door:crossed-NO-NC") < 1e-3


def test_leads_of_two_parts_on_one_wire_can_both_be_crossed() -> None:
    """With the heater's own leads crossed as well it is fed from its other end, and heats all the same."""
    found = machine("crossed", ("heater: {kind: heater,", "heater: {kind: heater, crossable: [1-2],"))
    at = settled(found, "open", "door:crossed-NO-NC", "heater:crossed-1-2")
    assert amps(at, f"{WIRE}~door:crossed-NO-NC~heater:crossed-1-2") == pytest.approx(8.3, rel=0.03)
    assert amps(at, WIRE) < 1e-3


def test_a_clamp_stays_around_the_lead_whose_end_is_elsewhere() -> None:
    found = machine("crossed")
    suspects = (NOTHING_WRONG, Suspect(("door:crossed-NO-NC",)))
    in_clamp = expected(Predictor(found, suspects), (("door.NO", "heater.1"),), "amps", found.setups["open"])
    assert in_clamp.mean[0] == pytest.approx([0.0, 8.13], abs=0.02)


def test_a_lifted_lead_is_off_on_whichever_terminal_it_ends() -> None:
    off = "  heater off: {says: lead lifted, steps: [lift door.NO-heater.1, door open]}\n"
    found = machine("crossed", ("functions:\n", f"{off}functions:\n"))
    suspects = (Suspect(("door:crossed-NO-NC",)),)
    on = read_ohms(settled(found, "dead", "door:crossed-NO-NC"), (("door.NC", "heater.1"),))
    assert on[0, 0] < 0.1
    lifted = expected(Predictor(found, suspects), (("door.NC", "heater.1"),), "ohms", found.setups["heater off"])
    assert lifted.mean[0, 0] > 10.0


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("[NO-NX]", "'door' has no terminal 'NX'. Known here: COM, NO, NC."),
        ("[NO-NC, NC-NO]", "The leads 'NC-NO' stand here twice. Write each pair once."),
        (
            "[NO]",
            "'NO' is not a contact. "
            "Write two terminals with a dash, as in `COM-NO`, or ` - ` where their names have dashes.",
        ),
        ("NO-NC", "'crossable' must be a list. Write it as in [NO-NC]."),
    ],
)
def test_each_slip_is_told(written: str, said: str) -> None:
    assert told("crossed", ("[NO-NC, COM-NO]", written)) == [said]


def test_a_terminal_without_leads_cannot_be_crossed() -> None:
    assert told("crossed", ("  - yellow door.NC lamp.1\n", "")) == [
        "No wire ends on 'door.NC'. Name two terminals with leads on them."
    ]

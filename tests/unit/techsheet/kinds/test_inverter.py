"""The inverter and its motor: three equal windings, none of which may be missing, and never a number while live."""

import numpy as np
import pytest

from halfsplit.circuit import read_ohms
from halfsplit.errors import InputError
from halfsplit.predict import Predictor, candidates, expected, is_dead
from halfsplit.trade import NOTHING_WRONG, Measure, Mode
from tests.unit.techsheet.kinds.tiny import machine, settled, symptoms, told

#                   turn    light   rest
SYMPTOMS = {
    "sound": "normal, normal, none",
    "inverter:dead": "none, none, none",
    "inverter:deaf": "none, normal, none",
    "inverter:U-dead": "none, normal, none",
    "inverter:V-dead": "none, normal, none",
    "inverter:W-dead": "none, normal, none",
    "motor:U-open": "none, normal, none",
    "motor:V-open": "none, normal, none",
    "motor:W-open": "none, normal, none",
    # A real inverter may trip on it; only ohms to the case tell for sure.
    "motor:grounded": "normal, normal, none",
    "motor:seized": "none, normal, none",
    "rotor:jammed": "none, normal, none",
    "inverter.V-motor.V:open": "none, normal, none",
}
PAIRS = (("motor.U", "motor.V"), ("motor.V", "motor.W"), ("motor.W", "motor.U"))


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("inverter"), "inverter", "motor", "rotor", "inverter.V-motor.V") == SYMPTOMS


def test_its_windings_read_alike_and_an_open_one_spoils_two_of_three_readings() -> None:
    found = machine("inverter")
    assert read_ohms(settled(found, "dead"), PAIRS)[:, 0] == pytest.approx([12, 12, 12], rel=1e-3)
    opened = read_ohms(settled(found, "dead", "motor:U-open"), PAIRS)[:, 0]
    assert opened[1] == pytest.approx(12, rel=1e-3)
    assert min(opened[0], opened[2]) > 1e6
    assert read_ohms(settled(found, "dead", "motor:grounded"), (("motor.V", "case.G"),))[0, 0] == pytest.approx(
        12.5, rel=0.01
    )


def test_with_the_plug_out_and_its_motor_unplugged_its_phases_are_dead() -> None:
    """And so an ohmmeter may go there: it finds nothing between them."""
    lifted = "[plug out, lift inverter.U-motor.U, lift inverter.V-motor.V, lift inverter.W-motor.W]"
    found = machine(
        "inverter", ("dead: {says: unplugged, steps: [plug out]}", f"dead: {{says: apart, steps: {lifted}}}")
    )
    assert is_dead(Predictor(found, (NOTHING_WRONG,)), found.setups["dead"])
    pairs = (("inverter.U", "inverter.V"), ("inverter.U", "inverter.N"))
    assert np.isinf(expected(Predictor(found, (NOTHING_WRONG,)), pairs, "ohms", found.setups["dead"]).mean).all()


@pytest.mark.parametrize("mode", ["volts", "low-z", "amps"])
def test_no_number_is_worked_out_at_its_phases(mode: Mode) -> None:
    found = machine("inverter")
    with pytest.raises(InputError, match=r"motor\.U is never read on a live machine: an inverter feeds"):
        expected(Predictor(found, (NOTHING_WRONG,)), (("motor.U", "inverter.U"),), mode, found.setups["spin"])


def test_only_dead_checks_are_proposed_at_its_phases_and_live_ones_at_its_mains() -> None:
    found = machine("inverter")
    actions = [action for action in candidates(Predictor(found, (NOTHING_WRONG,))) if isinstance(action, Measure)]
    assert {action.mode for action in actions if found.dead_only.keys() & set(action.points)} == {"ohms"}
    assert "volts" in {action.mode for action in actions if set(action.points) == {"inverter.L", "inverter.N"}}


LINKED = (
    ("drives: cycle spin", "link: RX-0V above 2.5 V"),
    (
        "  motor: {kind",
        "  board: {kind: board, supply: L-N, power: 4 W at 120 V, wakes at: 80 V,"
        " outputs: {spin: source TX-0V 5 V when cycle spin}, zone: case}\n  motor: {kind",
    ),
    (
        "  - red inverter.U",
        "  - black plug.L board.L\n  - white board.N plug.N\n  - yellow board.TX inverter.RX\n"
        "  - white board.0V inverter.0V\n  - red inverter.U",
    ),
)


def test_one_that_a_board_tells_by_a_line_drives_only_while_the_line_and_its_return_are_good() -> None:
    assert symptoms(machine("inverter", *LINKED), "board", "board.TX-inverter.RX", "board.0V-inverter.0V") == {
        "sound": "normal, normal, none",
        "board:dead": "none, normal, none",
        "board:spin-open": "none, normal, none",
        "board.TX-inverter.RX:open": "none, normal, none",
        "board.0V-inverter.0V:open": "none, normal, none",
    }


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("drives: cycle spin", "drives: cycle spinn"), "'cycle' has no position 'spinn'. Did you mean 'spin'?"),
        (
            ("300 W at 120 V, drives: cycle spin", "300 W at 120 V"),
            "'inverter' is never told to drive. Give `drives`, as in cycle spin, or the `link` that a board tells it "
            "on.",
        ),
        (("winding: 12 Ω", "winding: 12 V"), "'12 V' is not in Ω. Write it as in 16 Ω."),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("inverter", change)[0] == said

"""The infinite switch: it heats in cycles, without a pause at full, and one leg alone heats nothing but kills."""

import pytest

from halfsplit.predict import Predictor, share
from halfsplit.trade import NOTHING_WRONG, Suspect
from tests.unit.techsheet.kinds.tiny import machine, settled, symptoms, told, volts

#                     low     pause   high    stop    pilot   dark    simmer  boil    cool
SYMPTOMS = {
    "sound": "normal, none, normal, none, normal, none, normal, normal, none",
    "control:never-pauses": "normal, normal, normal, none, normal, none, too much, normal, none",
    "control:L1-H1-open": "none, none, none, none, normal, none, none, none, none",
    "control:L1-H1-welded": "normal, normal, normal, none, normal, none, too much, normal, none",
    "control:L2-H2-open": "none, none, none, none, normal, none, none, none, none",
    "control:L2-H2-welded": "normal, none, normal, none, normal, none, normal, normal, none",
    "control:both-welded": "normal, normal, normal, normal, normal, none, too much, normal, normal",
    "control:P-open": "normal, none, normal, none, none, none, normal, normal, none",
    "control:P-welded": "normal, none, normal, none, normal, normal, normal, normal, none",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("surfaceunit"), "control") == SYMPTOMS


def test_over_its_cycles_it_heats_by_the_share_of_the_knob_and_a_welded_contact_by_all_of_the_time() -> None:
    found = machine("surfaceunit")
    suspects = (NOTHING_WRONG, Suspect(("control:L1-H1-welded",)))
    value = share(Predictor(found, suspects), found.functions["simmer"], found.setups["low"])
    assert value[0] == pytest.approx(1, rel=0.02)
    assert value[1] == pytest.approx(1 / 0.08, rel=0.02)


def test_one_welded_leg_leaves_the_element_live_when_it_is_off() -> None:
    found = machine("surfaceunit")
    assert volts(settled(found, "off"), "element.2", "plug.G") < 5
    assert volts(settled(found, "off", "control:L2-H2-welded"), "element.2", "plug.G") == pytest.approx(120, abs=1)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('{"off": 0 %, low: 8 %,', '{"off": 0 %,'), "'control' has no share for 'low'. Add it to `heats`."),
        (
            ("high: 100 %}\n    heating", "high: 100 %, boil: 100 %}\n    heating"),
            "The setting 'knob' has no position 'boil'. Add it to that setting, or take it out of `heats`.",
        ),
        (('{"off": 0 %', '{"off": 5 %'), "'control' never stops or never heats. Give 0 % to its off position only."),
        (
            ("shows: power of element, over: control}\n  boil", "shows: power of element, over: pilot}\n  boil"),
            "'pilot' does not switch on and off by itself. Known here: control.",
        ),
        (
            ("cycling: [heating, pausing]", "cycling: [heating, pausing, resting]"),
            "The setting 'cycling' does not stand for heating or pausing. "
            "Give it two positions, as in [heating, pausing].",
        ),
        (("low: 8 %", "low: 8"), "'8' is not a share of time. Write 0 % to 100 %."),
        (("low: 8 %", "low: 800 %"), "'800 %' is not a share of time. Write 0 % to 100 %."),
        (
            ("low: 8 %", "low: [8 %]"),
            "The value of 'low' has the wrong shape. "
            "Write one text there, in quotes if it has a colon, a comma or brackets.",
        ),
        (
            ("    heating: cycling heating\n", "    heating: cycling heats\n"),
            "'cycling' has no position 'heats'. Did you mean 'heating'?",
        ),
    ],
)
def test_what_makes_no_sense_is_told(change: tuple[str, str], said: str) -> None:
    assert told("surfaceunit", change)[0] == said

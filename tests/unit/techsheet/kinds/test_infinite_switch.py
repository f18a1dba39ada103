"""The infinite switch: it heats in cycles, without a pause at full, and one leg alone heats nothing but kills."""

import pytest

from tests.unit.techsheet.kinds.tiny import machine, settled, symptoms, told, volts

#                     low     pause   high    stop    pilot   dark
SYMPTOMS = {
    "sound": "normal, none, normal, none, normal, none",
    "control:never-pauses": "normal, normal, normal, none, normal, none",
    "control:L1-H1-open": "none, none, none, none, normal, none",
    "control:L1-H1-welded": "normal, normal, normal, none, normal, none",
    "control:L2-H2-open": "none, none, none, none, normal, none",
    "control:L2-H2-welded": "normal, none, normal, none, normal, none",
    "control:both-welded": "normal, normal, normal, normal, normal, none",
    "control:P-open": "normal, none, normal, none, none, none",
    "control:P-welded": "normal, none, normal, none, normal, normal",
}


def test_every_fault_shows_as_written_down() -> None:
    assert symptoms(machine("surfaceunit"), "control") == SYMPTOMS


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

"""Setups, functions and complaints: each slip gets one sentence at its line."""

import pytest

from tests.unit.techsheet.warmer import problem, told

Change = tuple[str, str]
Said = tuple[str, str, str]

SLIPS: list[tuple[Change, list[Said]]] = [
    (
        ("[as idle, door open]", "[as idel, door open]"),
        [("open: {say", "No setup 'idel' stands above this one.", "Did you mean 'idle'?")],
    ),
    (
        ("[as idle, door open]", "[as open, door open]"),
        [("open: {say", "No setup 'open' stands above this one.", "Known here: idle.")],
    ),
    (
        ("[as idle, door open]", "[as lifted, door open]"),
        [("open: {say", "The setup 'lifted' stands below this one.", "Move it above.")],
    ),
    (
        ("[as idle, door open]", "[door open, as idle]"),
        [("open: {say", "'as idle' stands after another step.", "Let `as NAME` be the first step.")],
    ),
    (
        ("[as idle, door open]", "[as idle, dor open]"),
        [("open: {say", "'dor open' begins with no setting of this sheet.", "Did you mean 'door'?")],
    ),
    (
        ("[as idle, door open]", "[as idle, door opne]"),
        [("open: {say", "'door' has no position 'opne'.", "Did you mean 'open'?")],
    ),
    (
        ("[as idle, door open]", "[as idle, door open or shut]"),
        [("open: {say", "'door open or shut' is more than one position.", "A step sets one thing to one position.")],
    ),
    (
        ("[as idle, door open]", "[as idle, wheel stuck]"),
        [
            (
                "open: {say",
                "'wheel stuck' begins with no setting of this sheet.",
                "Known here: plug, breaker, door, air.",
            )
        ],
    ),
    (
        ("[as idle, door open]", "as idle"),
        [("open: {say", "The value of 'steps' has the wrong shape.", "Write a list, as in [one, two].")],
    ),
    (
        ("minutes: 2 min, steps", "minutes: soon, steps"),
        [("lifted: {s", "'soon' is not a quantity.", "Write a number and a unit, as in 16 Ω.")],
    ),
    (
        ("lift lamp.2-TB.N-1,", "lift lamp.2-TB.N,"),
        [("lifted: {s", "There is no wire 'lamp.2-TB.N' to lift.", "Did you mean 'lamp.2-TB.N-1'?")],
    ),
    (
        ('open: {says: "door open"', 'open: {says: ""'),
        [("open: {say", "The value of 'says' is empty.", "Write it. The state in words a customer would understand.")],
    ),
    (
        ('open: {says: "door open", ', "open: {"),
        [
            (
                "open: {ste",
                "The key 'says' is missing in 'open'.",
                "Add `says`. The state in words a customer would understand.",
            )
        ],
    ),
    (
        ('open: {says: "door open", ', 'open: {say: "door open", '),
        [("open: {say", "There is no key 'say' here.", "Did you mean 'says'?")],
    ),
    (("setup: open, shows", "setup: opn, shows"), [("light: {as", "There is no setup 'opn'.", "Did you mean 'open'?")]),
    (
        ("shows: power of lamp", "shows: power"),
        [("light: {as", "'power' does not say what is seen of which part.", "Write it as in `power of heater`.")],
    ),
    (
        ("shows: power of lamp", "shows: power of lmap"),
        [("light: {as", "There is no part 'lmap' to show anything.", "Did you mean 'lamp'?")],
    ),
    (
        ("shows: power of lamp", "shows: pwer of lamp"),
        [("light: {as", "'lamp' shows no 'pwer'.", "Did you mean 'power'?")],
    ),
    (
        ("shows: power of lamp", "shows: power of door"),
        [("light: {as", "'door' shows no 'power'.", "A person cannot see this part work: name one it feeds.")],
    ),
    (
        ("shows: power of lamp", "shows: power of lamp, needs: [wheel stuk, weel free]"),
        [
            ("light: {as", "'wheel' has no position 'stuk'.", "Did you mean 'stuck'?"),
            (
                "light: {as",
                "'weel free' begins with no setting or mechanical part of this sheet.",
                "Did you mean 'wheel'?",
            ),
        ],
    ),
    (
        ("weak without: [wheel free]", "weak_without: [wheel free]"),
        [("heat: {ask", "There is no key 'weak_without' here.", "Did you mean 'weak without'?")],
    ),
    (
        ("weak without: [wheel free]", "weak without: wheel free"),
        [("heat: {ask", "The value of 'weak without' has the wrong shape.", "Write a list, as in [one, two].")],
    ),
    (
        ('ask: "Is there light?", ', ""),
        [("light: {se", "The key 'ask' is missing in 'light'.", "Add `ask`. The question that asks for it.")],
    ),
    (
        ("{heat: none, light: normal}", "{heet: none, light: bright}"),
        [
            ("cold: {say", "There is no function 'heet'.", "Did you mean 'heat'?"),
            ("cold: {say", "'bright' is not a level.", "Levels are none, weak, normal, too much."),
        ],
    ),
    (("{heat: none, light: normal}", "{}"), [("cold: {say", "'cold' means nothing.", "Write it as in {heat: none}.")]),
    (
        ("{heat: none, light: normal}", "[heat]"),
        [("cold: {say", "The value of 'means' has the wrong shape.", "Write `key: value` lines under it.")],
    ),
    (("functions:\n", "functons:\n"), [("functons:", "There is no key 'functons' here.", "Did you mean 'functions'?")]),
    (("setups:\n", "setup:\n"), [("setup:", "There is no key 'setup' here.", "Did you mean 'setups'?")]),
]
"""What is changed (old and new text); then line, what is wrong and what would be right, for all that is said."""


@pytest.mark.parametrize(("change", "said"), SLIPS, ids=[f"{change[1]!r}" for change, _ in SLIPS])
def test_a_slip_is_named_once_at_its_line(change: Change, said: list[Said]) -> None:
    assert told(change) == [problem(*words, change) for words in said]

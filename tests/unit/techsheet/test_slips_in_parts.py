"""Keys that every part has, and what names it: each slip gets one sentence at its line."""

import pytest

from tests.unit.techsheet.warmer import problem, told

Change = tuple[str, str]
Said = tuple[str, str, str]

SLIPS: list[tuple[Change, list[Said]]] = [
    (
        ("    kind: thermal cut-off\n", "    kind: thermal cutoff\n"),
        [("kind: therma", "'cut-off' has no known kind ('thermal cutoff').", "Did you mean 'thermal cut-off'?")],
    ),
    (
        ("    kind: thermal cut-off\n", ""),
        [("cut-off:", "'cut-off' has no 'kind'.", "Add it. What it is: one of the kinds of part.")],
    ),
    (
        ("    kind: thermal cut-off\n", "    kind: [thermal cut-off]\n"),
        [("kind: [the", "'kind' must be one value.", "Write one word or quantity after the colon.")],
    ),
    (
        ("    power: 1.2 kW at 240 V\n", ""),
        [("heater:", "'heater' has no 'power'.", "Add it. Rated power at its voltage.")],
    ),
    (
        ("    power: 1.2 kW at 240 V\n", "    powr: 1.2 kW at 240 V\n"),
        [("powr: 1.2", "A part of kind 'heater' has no 'powr'.", "Did you mean 'power'?")],
    ),
    (
        ("    power: 1.2 kW at 240 V\n", "    power: 1.2 kW\n"),
        [("power: 1.2", "'1.2 kW' is not a power at a voltage.", "Write it as in 5.4 kW at 240 V.")],
    ),
    (
        ("    power: 1.2 kW at 240 V\n", "    power: [1.2 kW, 240 V]\n"),
        [("power: [1.", "'power' must be one value.", "Write one word or quantity after the colon.")],
    ),
    (
        ("    power: 1.2 kW at 240 V\n", "    power: 1.2 kW at 240 V\n    colour: red\n"),
        [
            (
                "colour: re",
                "A part of kind 'heater' has no 'colour'.",
                "Known here: power, case, kind, title, zone, price, minutes, rates, intermittent, crossable.",
            )
        ],
    ),
    (
        ("    opens at: 200 °F\n", "    opens at: 155 V\n"),
        [("opens at: 155 V", "'155 V' is not a temperature.", "Write it as in 155 °F or 68 °C.")],
    ),
    (
        ("    opens at: 200 °F\n    place: plate\n", "    opens at: 200 °F\n    place: plat\n"),
        [("place: plat", "There is no place 'plat' in `temperatures`.", "Did you mean 'plate'?")],
    ),
    (
        ("    case: metal.B\n    zone: case\n", "    case: metal.B\n    zone: caes\n"),
        [("zone: caes", "'heater' is in no known zone ('caes').", "Did you mean 'case'?")],
    ),
    (
        ("    case: metal.B\n    zone: case\n", "    case: metal.B\n"),
        [("heater:", "'heater' has no 'zone'.", "Add it. What must come off to reach it: one of `zones`.")],
    ),
    (
        ("    case: metal.B\n", "    case: metal.X\n"),
        [("case: meta", "'metal' has no terminal 'X'.", "Known here: G, B.")],
    ),
    (
        ("    case: metal.B\n", "    case: metl.B\n"),
        [("case: metl", "There is no part 'metl'.", "Did you mean 'metal'?")],
    ),
    (
        ("    case: metal.B\n", "    case: metal\n"),
        [("case: meta", "'metal' is not a point.", "Write part.terminal, as in `heater.1`.")],
    ),
    (
        ("    price: 6.50\n", "    price: $6.50\n"),
        [("price: $6.", "'$6.50' is not a price.", "Write a plain number in the sheet's currency, as in 24.")],
    ),
    (
        ("    price: 6.50\n", "    price: [6.50]\n"),
        [("price: [6.", "'price' must be one value.", "Write one word or quantity after the colon.")],
    ),
    (
        ("    minutes: 2 min\n    rates", "    minutes: -2 min\n    rates"),
        [("minutes: -", "'-2 min' is not a time in minutes.", "Write it as in 8 min.")],
    ),
    (
        ("    rates: {open: 12}\n", "    rates: {opne: 12}\n"),
        [("rates: {op", "'lamp' has no fault 'opne'.", "Did you mean 'open'?")],
    ),
    (
        ("    rates: {open: 12}\n", "    rates: {open: often}\n"),
        [("rates: {op", "'often' is not a rate.", "Write how many calls in a thousand it explains, as in 12.")],
    ),
    (
        ("    rates: {open: 12}\n", "    rates: 12\n"),
        [("rates: 12", "'rates' must be `key: value` pairs.", "Write it as in {open: 12}.")],
    ),
    (
        ("    title: door switch\n", "    title: {a: b}\n"),
        [("title: {a:", "'title' must be one value.", "Write one word or quantity after the colon.")],
    ),
    (
        ("  cut-off:\n", "  cut.off:\n"),
        [
            (
                "cut.off:",
                "'cut.off' cannot be a part's name.",
                "Begin with a letter; use plain letters, digits, spaces and dashes.",
            ),
            (
                "- blue limit ",
                "There is no part 'cut-off'.",
                "Known here: house, breaker, outlet, plug, TB, metal, door, lamp, limit, limit 2, heater, fan….",
            ),
            (
                "- blue cut",
                "There is no part 'cut-off'.",
                "Known here: house, breaker, outlet, plug, TB, metal, door, lamp, limit, limit 2, heater, fan….",
            ),
        ],
    ),
    (
        ("  cut-off:\n", "  2 cut:\n"),
        [
            (
                "2 cut:",
                "'2 cut' cannot be a part's name.",
                "Begin with a letter; use plain letters, digits, spaces and dashes.",
            ),
            (
                "- blue limit ",
                "There is no part 'cut-off'.",
                "Known here: house, breaker, outlet, plug, TB, metal, door, lamp, limit, limit 2, heater, fan….",
            ),
            (
                "- blue cut",
                "There is no part 'cut-off'.",
                "Known here: house, breaker, outlet, plug, TB, metal, door, lamp, limit, limit 2, heater, fan….",
            ),
        ],
    ),
    (
        ("  cut-off:\n", "  Limit:\n"),
        [
            ("Limit:", "'Limit' and 'limit' differ only in capitals.", "Give one another name."),
            (
                "- blue limit ",
                "There is no part 'cut-off'.",
                ("Known here: house, breaker, outlet, plug, TB, metal, door, lamp, limit, limit 2, Limit, heater…."),
            ),
            (
                "- blue cut",
                "There is no part 'cut-off'.",
                ("Known here: house, breaker, outlet, plug, TB, metal, door, lamp, limit, limit 2, Limit, heater…."),
            ),
        ],
    ),
    (
        (
            ("  cut-off:\n    kind: thermal cut-off\n    opens at: 200 °F\n    place: plate\n    zone: case\n"),
            "  cut-off: one shot\n",
        ),
        [("cut-off: o", "The value of 'cut-off' has the wrong shape.", "Write `key: value` lines under it.")],
    ),
    (
        (
            "  house:\n    kind: split-phase supply\n    zone: house\n",
            "  house:\n    kind: terminal block\n    terminals: [L1, L2, N]\n    zone: house\n",
        ),
        [("parts:", "This machine has no supply.", "Add a part of kind `split-phase supply`.")],
    ),
    (
        (
            "  house:\n    kind: split-phase supply\n    zone: house\n",
            (
                "  house:\n"
                "    kind: split-phase supply\n"
                "    zone: house\n"
                "  other:\n"
                "    kind: split-phase supply\n"
                "    zone: house\n"
            ),
        ),
        [("other:", "'other' is a second supply beside 'house'.", "Keep one: a machine has one plug.")],
    ),
]
"""What is changed (old and new text); then line, what is wrong and what would be right, for all that is said."""


@pytest.mark.parametrize(("change", "said"), SLIPS, ids=[f"{change[1]!r}" for change, _ in SLIPS])
def test_a_slip_is_named_once_at_its_line(change: Change, said: list[Said]) -> None:
    assert told(change) == [problem(*words, change) for words in said]

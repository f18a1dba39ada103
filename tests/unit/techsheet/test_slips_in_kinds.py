"""What each kind of part asks for: each slip gets one sentence at its line."""

import pytest

from tests.unit.techsheet.warmer import problem, told

Change = tuple[str, str]
Said = tuple[str, str, str]

SLIPS: list[tuple[Change, list[Said]]] = [
    (
        ("    kind: outlet\n    terminals: [L1, N, L2, G]\n", "    kind: outlet\n    terminals: [X, Y, Z, W]\n"),
        [
            ("plug:", "'plug' and 'outlet' have no terminal of the same name.", "Name slots and blades alike."),
            ("- black breaker.3", "'outlet' has no terminal 'L1'.", "Known here: X, Y, Z, W."),
            ("- red breaker.4", "'outlet' has no terminal 'L2'.", "Known here: X, Y, Z, W."),
            ("- white house.N", "'outlet' has no terminal 'N'.", "Known here: X, Y, Z, W."),
        ],
    ),
    (
        ("    into: outlet\n", "    into: outlt\n"),
        [("into: outl", "There is no part 'outlt'.", "Did you mean 'outlet'?")],
    ),
    (
        ("    into: outlet\n", "    into: lamp\n"),
        [("into: lamp", "Nothing plugs into 'lamp'.", "Name the part of kind `outlet`.")],
    ),
    (
        ("    into: outlet\n", "    into: TB\n"),
        [("into: TB", "Nothing plugs into 'TB'.", "Name the part of kind `outlet`.")],
    ),
    (
        ("    kind: outlet\n    terminals: [L1, N, L2, G]\n", "    kind: outlet\n    terminals: []\n"),
        [("terminals: []", "'terminals' must be a list.", "Write it as in [L1, N, L2].")],
    ),
    (
        ("    kind: outlet\n    terminals: [L1, N, L2, G]\n", "    kind: outlet\n    terminals: [L1, N, N, G.1]\n"),
        [
            ("terminals: [L1, N, N", "The terminal 'N' stands here twice.", "Write each terminal once."),
            (
                "terminals: [L1, N, N",
                "'G.1' cannot be a terminal.",
                "Write it as printed on the part, without spaces, points, commas and colons.",
            ),
        ],
    ),
    (
        ("    kind: outlet\n    terminals: [L1, N, L2, G]\n", "    kind: outlet\n    terminals: {L1: N}\n"),
        [("terminals: {", "'terminals' must be a list.", "Write it as in [L1, N, L2].")],
    ),
    (
        ("    rating: 30 A\n", "    rating: 30 A\n    setting: brekaer\n"),
        [("setting: b", "There is no setting 'brekaer'.", "Did you mean 'breaker'?")],
    ),
    (
        ("    rating: 30 A\n", "    rating: 30 A\n    setting: door\n"),
        [("breaker:", "The setting 'door' has no position 'on'.", "Add it to that setting.")],
    ),
    (
        ("      COM-NO: door shut\n", "      COM-NO: door shutt\n"),
        [("COM-NO: do", "'door' has no position 'shutt'.", "Did you mean 'shut'?")],
    ),
    (
        ("      COM-NO: door shut\n", "      COM-NO: dor shut\n"),
        [("COM-NO: do", "'dor shut' begins with no setting or mechanical part of this sheet.", "Did you mean 'door'?")],
    ),
    (
        ("      COM-NO: door shut\n", "      COM-NO: door\n"),
        [("COM-NO: do", "'door' has no position after it.", "Known here: shut, open.")],
    ),
    (
        ("      COM-NO: door shut\n", "      COM-NO:\n"),
        [("COM-NO:", "There is nothing here.", "Write it, or leave the line out.")],
    ),
    (
        ("      COM-NO: door shut\n", "      COM: door shut\n"),
        [
            (
                "COM: door",
                "'COM' is not a contact.",
                "Write two terminals with a dash, as in `COM-NO`, or ` - ` where their names have dashes.",
            )
        ],
    ),
    (
        ("      COM-NO: door shut\n", "      COM-NO-1: door shut\n"),
        [
            (
                "COM-NO-1:",
                "'COM-NO-1' is not a contact.",
                "Write two terminals with a dash, as in `COM-NO`, or ` - ` where their names have dashes.",
            )
        ],
    ),
    (
        ("      COM-NO: door shut\n", "      COM-COM: door shut\n"),
        [
            (
                "COM-COM: d",
                "'COM-COM' is not a contact.",
                "Write two terminals with a dash, as in `COM-NO`, or ` - ` where their names have dashes.",
            )
        ],
    ),
    (
        ("      COM-NO: door shut\n", "      NC-COM: door shut\n      COM-NO: door open\n"),
        [("NC-COM: do", "There are two contacts between NC and COM.", "Write it once, with `or`.")],
    ),
    (
        ("      COM-NC: door open\n      COM-NO: door shut\n", "      COM-NC: dor open\n      COM-NO: door shutt\n"),
        [
            (
                "COM-NC: do",
                "'dor open' begins with no setting or mechanical part of this sheet.",
                "Did you mean 'door'?",
            ),
            ("COM-NO: do", "'door' has no position 'shutt'.", "Did you mean 'shut'?"),
        ],
    ),
    (
        (
            "    opens at: 155 °F\n    place: plate\n    zone: case\n  limit 2",
            "    place: plate\n    zone: case\n  limit 2",
        ),
        [("limit:", "'limit' needs one of `opens at` and `closes at`.", "Give the temperature printed on it.")],
    ),
    (
        (
            "    opens at: 155 °F\n    place: plate\n    zone: case\n  limit 2",
            "    opens at: 155 °F\n    closes at: 160 °F\n    place: plate\n    zone: case\n  limit 2",
        ),
        [("limit:", "'limit' needs one of `opens at` and `closes at`.", "Give the temperature printed on it.")],
    ),
    (
        ("biased opens at: 135 °F", "biased opens at: 155 °F"),
        [
            (
                "limit 2:",
                "'limit 2' opens no cooler with its bias heater on than off.",
                "`biased opens at` is the lower temperature.",
            )
        ],
    ),
    (
        ('    states: {free: "", stuck: the wheel is stuck}', '    states: {free: ""}'),
        [
            (
                "states: {f",
                "'wheel' has no bad state.",
                "Write the sound state first, then a bad one with a sentence, as in `broken: it is torn`.",
            )
        ],
    ),
    (
        ('    states: {free: "", stuck: the wheel is stuck}', '    states: {free: "", stuck: ""}'),
        [("states: {f", "The bad state 'stuck' says nothing.", "Write what is wrong after the colon.")],
    ),
    (
        (
            '    states: {free: "", stuck: the wheel is stuck}',
            '    states: {free: "", stuck or worn: the wheel is stuck}',
        ),
        [
            (
                "states: {f",
                "'stuck or worn' cannot be a state.",
                "Begin with a letter or digit, without comma, colon, quotation mark or the word `or`.",
            )
        ],
    ),
    (
        ('    states: {free: "", stuck: the wheel is stuck}', "    states: free"),
        [
            (
                "states: fr",
                "'states' must be `key: value` pairs.",
                "Write it as in {whole: , broken: the belt is broken}.",
            )
        ],
    ),
    (
        ("  air flap:\n", "  air:\n"),
        [
            ("air:", "'air' is a setting and a moving part.", "Give one another name."),
            ("- RD/BK do", "'air' has no position 'flap open'.", "Known here: cold, hot."),
            ("heat: {ask", "'air' has no position 'flap open'.", "Known here: cold, hot."),
        ],
    ),
    (
        ("    main winding: 2.4 Ω\n", "    main winding: 24 Ω\n"),
        [
            (
                "fan:",
                "A winding of 24 Ω cannot pass that much current: the whole is only 5.87 Ω.",
                "Check the winding's ohms and its current.",
            )
        ],
    ),
    (
        ("    start winding: 4.4 Ω\n", "    start winding: 2 Ω\n"),
        [
            (
                "fan:",
                "A start winding of 2 Ω alone draws 54 A.",
                ("The locked current is the whole line current: well above that and the running current together."),
            )
        ],
    ),
    (
        ("    start winding: 4.4 Ω\n", "    start winding: 0 Ω\n"),
        [("start wind", "'0 Ω' is not above zero.", "Write it as in 16 Ω.")],
    ),
    (
        ("    running current: 5 A\n", "    running current: 1e999 A\n"),
        [("running cu", "'1e999 A' is too large to be real.", "Write the number on the meter or the paper.")],
    ),
    (
        ("    locked current: 45 A\n", "    locked current: 1e300 A\n"),
        [("locked cur", "'1e300 A' is beyond anything in an appliance (1e-06 to 10000 A).", "Write it as in 5 A.")],
    ),
    (
        ("    turns: wheel free\n", "    turns: wheel fre\n"),
        [("turns: whe", "'wheel' has no position 'fre'.", "Did you mean 'free'?")],
    ),
    (
        ("    turns: wheel free\n", "    turns: weel free\n"),
        [
            (
                "turns: wee",
                "'weel free' begins with no setting or mechanical part of this sheet.",
                "Did you mean 'wheel'?",
            )
        ],
    ),
    (
        ("    current: 0.04 A\n", "    current: 0.03 A\n"),
        [("clock:", "3.8 W needs more than 0.03 A at 120 V.", "Check the power and the current.")],
    ),
    (
        ("    winding: 2.4 kΩ\n", "    winding: 3.4 kΩ\n"),
        [
            (
                "clock:",
                "A winding of 3.4 kΩ cannot pass that much current: the whole is only 3 kΩ.",
                "Check the winding's ohms and its current.",
            )
        ],
    ),
    (("    winding: 2.4 kΩ\n", "    winding: -3 V\n"), [("winding: -", "'-3 V' is not in Ω.", "Write it as in 16 Ω.")]),
]
"""What is changed (old and new text); then line, what is wrong and what would be right, for all that is said."""


@pytest.mark.parametrize(("change", "said"), SLIPS, ids=[f"{change[1]!r}" for change, _ in SLIPS])
def test_a_slip_is_named_once_at_its_line(change: Change, said: list[Said]) -> None:
    assert told(change) == [problem(*words, change) for words in said]

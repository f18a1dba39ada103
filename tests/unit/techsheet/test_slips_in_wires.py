"""Wires: each slip gets one sentence at its line."""

import pytest

from tests.unit.techsheet.warmer import problem, told

Change = tuple[str, str]
Said = tuple[str, str, str]

SLIPS: list[tuple[Change, list[Said]]] = [
    (
        ("  - blue limit.2 limit 2.1", f"  - blue limit.2 limit 2.1{' and on' * 40}"),
        [
            (
                "- blue limit.2",
                "'blue limit.2 limit 2.1 and on and on and on and on and on a…' is too long to be one thing.",
                "Write one on each line.",
            )
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.3 limit 2.1"),
        [("- blue limit.", "'limit' has no terminal '3'.", "Known here: 1, 2.")],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2"),
        [("- blue limit.", "'blue limit.2' is not a wire.", "Write `colour from to`, as in `black TB.L1 door.COM`.")],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 limit"),
        [
            (
                "- blue limit.",
                "'blue limit.2 limit' is not a wire.",
                "Write `colour from to`, as in `black TB.L1 door.COM`.",
            )
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 limmit 2.1"),
        [("- blue limit.", "There is no part 'limmit 2'.", "Did you mean 'limit 2'?")],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - bleu limit.2 limit 2.1"),
        [("- bleu lim", "'bleu' is not a wire colour.", "Did you mean 'blue'?")],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue/rde limit.2 limit 2.1"),
        [("- blue/rde", "'rde' is not a wire colour.", "Did you mean 'red'?")],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 wheel.1"),
        [("- blue limit.", "'wheel' has no terminals.", "Name a part that has some.")],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 limit.2"),
        [("- blue limit.", "This wire begins and ends on limit.2.", "Write the two different terminals it joins.")],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 limit 2.1\n  - red limit 2.1 limit.2"),
        [
            (
                "- red limi",
                "There is a wire between limit 2.1 and limit.2 already (line 116).",
                "Write it once; a `when` can name two positions with `or`.",
            )
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - bleu limt.2 limit 2.9, 1 AWG 1 V"),
        [
            ("- bleu lim", "'bleu' is not a wire colour.", "Did you mean 'blue'?"),
            ("- bleu lim", "There is no part 'limt'.", "Did you mean 'limit'?"),
            ("- bleu lim", "'limit 2' has no terminal '9'.", "Known here: 1, 2, 3, 4."),
            ("- bleu lim", "'1 AWG 1 V' has no length.", "Write a gauge and a length, as in 16 AWG 0.6 m."),
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 limit 2.1, 14 AWG 1 m, 12 AWG 1 m"),
        [
            (
                "- blue limit.",
                "This wire has two gauges and lengths.",
                "Write one; for a spliced wire, the whole length.",
            )
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 limit 2.1, when door ajar"),
        [("- blue limit.", "'door' has no position 'ajar'.", "Known here: shut, open.")],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 limit 2.1, whn door open"),
        [
            (
                "- blue limit.",
                "'whn door open' is neither a gauge with a length nor a `when`.",
                "Write it as in 16 AWG 0.6 m, or as in when door shut.",
            )
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - [blue, limit.2]"),
        [
            (
                "- [blue, l",
                "Item 14 in 'wires' has the wrong shape.",
                "Write one text there, in quotes if it has a colon, a comma or brackets.",
            )
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - ''"),
        [
            (
                "- ''",
                "Item 14 in 'wires' is empty.",
                "Write it. Each as `colour from to`, then `, gauge AWG length`, then `, when setting position`.",
            )
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 limit 2.1, when door: open"),
        [
            (
                "- blue limit.",
                "Item 14 in 'wires' has the wrong shape.",
                "Write one text there, in quotes if it has a colon, a comma or brackets.",
            )
        ],
    ),
    (
        ("  - blue limit.2 limit 2.1", "  - blue limit.2 house.~L1"),
        [("- blue limit.", "'house' has no terminal '~L1'.", "Did you mean 'L1'?")],
    ),
]
"""What is changed (old and new text); then line, what is wrong and what would be right, for all that is said."""


@pytest.mark.parametrize(("change", "said"), SLIPS, ids=[f"{change[1]!r}" for change, _ in SLIPS])
def test_a_slip_is_named_once_at_its_line(change: Change, said: list[Said]) -> None:
    assert told(change) == [problem(*words, change) for words in said]

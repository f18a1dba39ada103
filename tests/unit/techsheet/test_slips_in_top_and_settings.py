"""The top of a sheet, settings, places and zones: each slip gets one sentence at its line."""

import pytest

from tests.unit.techsheet.warmer import problem, told

Change = tuple[str, str]
Said = tuple[str, str, str]

SLIPS: list[tuple[Change, list[Said]]] = [
    (
        ("title: Plate warmer\n", ""),
        [("sheet: war", "The key 'title' is missing.", "Add `title`. What the machine is, in words.")],
    ),
    (
        ("title: Plate warmer", "titel: Plate warmer"),
        [("titel: Pla", "There is no key 'titel' here.", "Did you mean 'title'?")],
    ),
    (
        ("sheet: warmer", "sheet:"),
        [("sheet:", "The value of 'sheet' is empty.", "Write it. Short name, as in `dryer`.")],
    ),
    (
        ("title: Plate warmer", "title: [Plate, warmer]"),
        [
            (
                "title: [Pl",
                "The value of 'title' has the wrong shape.",
                "Write one text there, in quotes if it has a colon, a comma or brackets.",
            )
        ],
    ),
    (
        ("currency: USD", "currency: dollars"),
        [("currency:", "'dollars' is not a currency.", "Write its three capitals, as in USD.")],
    ),
    (
        ("default wire: 16 AWG 0.6 m", "default wire: 16 mm"),
        [("default wi", "'16 mm' is not a conductor.", "Write a gauge and a length, as in 16 AWG 0.6 m.")],
    ),
    (
        ("default wire: 16 AWG 0.6 m", "default_wire: 16 AWG 0.6 m"),
        [("default_wi", "There is no key 'default_wire' here.", "Did you mean 'default wire'?")],
    ),
    (
        ("about: Invented for the tests.", "remarks: none"),
        [
            (
                "remarks: n",
                "There is no key 'remarks' here.",
                (
                    "Known here: sheet, title, family, about, currency, default wire, settings, linked, per call, "
                    "temperatures, zones, parts…."
                ),
            )
        ],
    ),
    (
        ("  door: [shut, open]\n", "  door: [shut]\n"),
        [("door: [shu", "'door' needs two different positions or more.", "Write them in [ ], the start first.")],
    ),
    (
        ("  door: [shut, open]\n", "  door: [shut, open, shut]\n"),
        [("door: [shu", "'door' needs two different positions or more.", "Write them in [ ], the start first.")],
    ),
    (
        ("  door: [shut, open]\n", "  door: shut\n"),
        [("door: shut", "The value of 'door' has the wrong shape.", "Write a list, as in [one, two].")],
    ),
    (
        ("  door: [shut, open]\n", "  door: [shut, {a: b}]\n"),
        [
            (
                "door: [shu",
                "Item 2 in 'door' has the wrong shape.",
                "Write one text there, in quotes if it has a colon, a comma or brackets.",
            )
        ],
    ),
    (
        ("  door: [shut, open]\n", "  door: [shut, ]\n"),
        [("door: [shu", "'door' needs two different positions or more.", "Write them in [ ], the start first.")],
    ),
    (
        ("  door: [shut, open]\n", "  door: [shut, open or ajar]\n"),
        [
            (
                "door: [shu",
                "'open or ajar' cannot be a position.",
                "Begin with a letter or digit, without comma, colon, quotation mark or the word `or`.",
            )
        ],
    ),
    (
        ("  door: [shut, open]\n", '  door: [shut, "a, b"]\n'),
        [
            (
                "door: [shu",
                "'a, b' cannot be a position.",
                "Begin with a letter or digit, without comma, colon, quotation mark or the word `or`.",
            )
        ],
    ),
    (
        ("  door: [shut, open]\n", "  lift door: [shut, open]\n"),
        [
            ("lift door:", "'lift door' cannot be a setting, as steps begin with `lift`.", "Give it another name."),
            (
                "COM-NC: do",
                "'door open' begins with no setting or mechanical part of this sheet.",
                "Known here: plug, breaker, air, wheel, air flap.",
            ),
            (
                "COM-NO: do",
                "'door shut' begins with no setting or mechanical part of this sheet.",
                "Known here: plug, breaker, air, wheel, air flap.",
            ),
            (
                "open: {say",
                "'door open' begins with no setting of this sheet.",
                "Known here: plug, breaker, air.",
            ),
        ],
    ),
    (
        ("  door: [shut, open]\n", "  door, front: [shut, open]\n"),
        [
            (
                "door, fron",
                "'door, front' cannot be a setting.",
                "Begin with a letter or digit, without comma, colon, quotation mark or the word `or`.",
            ),
            (
                "COM-NC: do",
                "'door open' begins with no setting or mechanical part of this sheet.",
                "Known here: plug, breaker, air, wheel, air flap.",
            ),
            (
                "COM-NO: do",
                "'door shut' begins with no setting or mechanical part of this sheet.",
                "Known here: plug, breaker, air, wheel, air flap.",
            ),
            (
                "open: {say",
                "'door open' begins with no setting of this sheet.",
                "Known here: plug, breaker, air.",
            ),
        ],
    ),
    (
        ("per call: [breaker]", "per call: [braker]"),
        [("per call:", "There is no setting 'braker'.", "Did you mean 'breaker'?")],
    ),
    (
        ("per call: [breaker]", "per call: [breaker, breaker]"),
        [("per call:", "'breaker' stands here twice.", "Keep one of them.")],
    ),
    (
        ("settings:\n  plug: [out, in]\n  breaker: [on, off]\n  door: [shut, open]\n  air: [cold, hot]\n", ""),
        [("sheet: war", "There is no section `settings`, and others ask for it.", "Add `settings:`.")],
    ),
    (
        ("{setting: air, cold: 70 °F, hot: 215 °F}", "{cold: 70 °F, hot: 215 °F}"),
        [("plate: {co", "'plate' has no `setting`.", "Add the setting that rules it, as in `setting: air`.")],
    ),
    (
        ("{setting: air, cold: 70 °F, hot: 215 °F}", "{setting: airr, cold: 70 °F, hot: 215 °F}"),
        [("plate: {se", "There is no setting 'airr'.", "Did you mean 'air'?")],
    ),
    (
        ("{setting: air, cold: 70 °F, hot: 215 °F}", "{setting: air, cold: 70 °F}"),
        [("plate: {se", "'plate' has no temperature for 'hot'.", "Add it, as in `hot: 70 °F`.")],
    ),
    (
        ("{setting: air, cold: 70 °F, hot: 215 °F}", "{setting: air, cold: 70 °F, ht: 215 °F}"),
        [("plate: {se", "'air' has no position 'ht'.", "Did you mean 'hot'?")],
    ),
    (
        ("{setting: air, cold: 70 °F, hot: 215 °F}", "{setting: air, cold: 70 °F, hot: 215 °F, boiling: 212 °F}"),
        [("plate: {se", "'air' has no position 'boiling'.", "Known here: cold, hot.")],
    ),
    (
        ("{setting: air, cold: 70 °F, hot: 215 °F}", "{setting: air, cold: 70 V, hot: 215}"),
        [
            ("plate: {se", "'70 V' is not a temperature.", "Write it as in 155 °F or 68 °C."),
            ("plate: {se", "'215' is not a temperature.", "Write it as in 155 °F or 68 °C."),
        ],
    ),
    (
        ("  plate: {setting: air, cold: 70 °F, hot: 215 °F}", "  plate: warm"),
        [("plate: war", "The value of 'plate' has the wrong shape.", "Write `key: value` lines under it.")],
    ),
    (
        ("temperatures:\n  plate: {setting: air, cold: 70 °F, hot: 215 °F}\n", ""),
        [("sheet: war", "There is no section `temperatures`, and others ask for it.", "Add `temperatures:`.")],
    ),
    (
        ("{title: under the case, open: 5 min, close: 6 min}", "{title: under the case, open: 5 V, close: -6 min}"),
        [
            ("case: {tit", "'5 V' is not a time in minutes.", "Write it as in 8 min."),
            ("case: {tit", "'-6 min' is not a time in minutes.", "Write it as in 8 min."),
        ],
    ),
    (
        ("{title: under the case, open: 5 min, close: 6 min}", "{title: under the case, open: 5 min}"),
        [
            (
                "case: {tit",
                "The key 'close' is missing in 'case'.",
                "Add `close`. Minutes to close it again, as in `5 min`.",
            )
        ],
    ),
    (
        (
            "{title: under the case, open: 5 min, close: 6 min}",
            "{title: under the case, open: 5 min, close: 6 min, torx: 20}",
        ),
        [("case: {tit", "There is no key 'torx' here.", "Known here: title, open, close.")],
    ),
    (
        (
            (
                "zones:\n"
                "  house: {title: panel and outlet, open: 1 min, close: 0 min}\n"
                "  case: {title: under the case, open: 5 min, close: 6 min}\n"
            ),
            "",
        ),
        [("sheet: war", "There is no section `zones`, and others ask for it.", "Add `zones:`.")],
    ),
]
"""What is changed (old and new text); then line, what is wrong and what would be right, for all that is said."""


@pytest.mark.parametrize(("change", "said"), SLIPS, ids=[f"{change[1]!r}" for change, _ in SLIPS])
def test_a_slip_is_named_once_at_its_line(change: Change, said: list[Said]) -> None:
    assert told(change) == [problem(*words, change) for words in said]

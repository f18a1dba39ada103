"""The JSON Schema that editors use: generated from the catalogue, and of one mind with the reader."""

from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from halfsplit.techsheet import catalogue, read_document, read_sheet, sheet_schema, sheet_text
from halfsplit.techsheet.sections.attributes import COMMON
from tests.unit.techsheet.kinds.tiny import SHEETS, text_of
from tests.unit.techsheet.warmer import FILE, SHEET, changed

SCHEMA = sheet_schema()
VALIDATOR = Draft202012Validator(SCHEMA)


def tree(text: str) -> Any:
    """The text as our own reader sees it: words only."""
    document, problems = read_document(text, FILE)
    assert problems == ()
    assert document is not None
    return document.tree


def editor_tree(text: str) -> Any:
    """The text as an editor sees it: with numbers, truth values and nothings."""
    return YAML(typ="safe", pure=True).load(text)


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize("view", [tree, editor_tree])
@pytest.mark.parametrize("text", [SHEET, sheet_text("dryer")[0]], ids=["warmer", "dryer"])
def test_a_sound_sheet_is_valid(text: str, view: Any) -> None:
    assert [error.message for error in VALIDATOR.iter_errors(view(text))] == []


@pytest.mark.parametrize("view", [tree, editor_tree])
@pytest.mark.parametrize("sheet", SHEETS)
def test_a_sound_sheet_of_any_kind_is_valid(sheet: str, view: Any) -> None:
    assert [error.message for error in VALIDATOR.iter_errors(view(text_of(sheet)))] == []


@pytest.mark.parametrize(
    ("change", "place"),
    [
        (("title: Plate warmer\n", ""), []),
        (("title: Plate warmer", "titel: Plate warmer"), []),
        (("sheet: warmer", "sheet: [warmer]"), ["sheet"]),
        (("  door: [shut, open]", "  door: shut"), ["settings", "door"]),
        (("{title: under the case, open: 5 min, ", "{title: under the case, "), ["zones", "case"]),
        (("    kind: thermal cut-off\n", "    kind: thermal cutoff\n"), ["parts", "cut-off", "kind"]),
        (("    kind: thermal cut-off\n", ""), ["parts", "cut-off"]),
        (("    power: 1.2 kW at 240 V\n", "    powr: 1.2 kW at 240 V\n"), ["parts", "heater"]),
        (("    power: 1.2 kW at 240 V\n", "    power: [1.2 kW]\n"), ["parts", "heater", "power"]),
        (("    main winding: 2.4 Ω\n", ""), ["parts", "fan"]),
        (("    case: metal.B\n    zone: case\n", "    case: metal.B\n"), ["parts", "heater"]),
        (("      COM-NO: door shut\n", "      COM-NO: [door shut]\n"), ["parts", "door", "contacts", "COM-NO"]),
        (('    states: {free: "", stuck: the wheel is stuck}', '    states: {free: ""}'), ["parts", "wheel", "states"]),
        (("  - blue limit.2 limit 2.1", "  - [blue limit.2 limit 2.1]"), ["wires", 13]),
        (("[as idle, door open]", "as idle"), ["setups", "open", "steps"]),
        (("weak without: [wheel free]", "weak_without: [wheel free]"), ["functions", "heat"]),
    ],
)
def test_a_slip_of_shape_is_found_by_editor_and_reader_alike(change: tuple[str, str], place: list[str]) -> None:
    text = changed(change)
    assert place in [list(error.absolute_path) for error in VALIDATOR.iter_errors(tree(text))]
    assert read_sheet(text, FILE)[1] != ()


@pytest.mark.parametrize("kind", catalogue().values(), ids=lambda kind: kind.name)
def test_an_editor_is_told_every_key_of_every_kind_and_what_it_means(kind: Any) -> None:
    choices = SCHEMA["$defs"]["part"]["properties"]["kind"]["oneOf"]
    assert {"const": kind.name, "description": kind.meaning} in choices
    (reference,) = [
        row["then"]["$ref"]
        for row in SCHEMA["$defs"]["part"]["allOf"]
        if row["if"]["properties"]["kind"]["const"] == kind.name
    ]
    definition = SCHEMA["$defs"][reference.removeprefix("#/$defs/")]
    meanings = {key: value["description"] for key, value in definition["properties"].items()}
    assert meanings == {attribute.name: attribute.meaning for attribute in (*COMMON, *kind.attributes)}
    assert definition["description"] == kind.meaning
    assert definition["additionalProperties"] is False
    assert set(definition["required"]) == {"kind", "zone"} | {key.name for key in kind.attributes if key.required}

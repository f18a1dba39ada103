"""The guide to writing a sheet is true: its example is a sheet, and every kind and key is in it."""

import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from halfsplit.predict import Predictor, levels
from halfsplit.techsheet import COLOURS, Machine, catalogue, read_sheet, sheet_schema
from halfsplit.techsheet.form import SheetForm
from halfsplit.trade import LEVELS, NOTHING_WRONG, Suspect
from halfsplit.units import read_quantity, read_temperature

GUIDE = (Path(__file__).parents[2] / "docs" / "writing-a-sheet.md").read_text(encoding="utf-8")
FILE = "plate-warmer.yaml"
UNITS = {"volts": "V", "ohms": "Ω", "amps": "A", "hertz": "Hz", "metres": "m", "minutes": "min"}


def blocks(language: str) -> list[str]:
    """The fenced blocks of a language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", GUIDE, re.MULTILINE | re.DOTALL)


def machine() -> Machine:
    """The machine of the guide's one sheet."""
    (text,) = blocks("yaml")
    found, problems = read_sheet(text, FILE)
    assert [str(problem) for problem in problems] == []
    assert found is not None
    return found


def kinds_section() -> str:
    """What must stand between the marks of the kinds."""
    definitions = sheet_schema()["$defs"]
    common = [key for key in definitions["kind-lamp"]["properties"] if key != "power"]
    rows = ["Every part has these keys:", "", *_table(definitions["kind-lamp"], common)]
    for name in sorted(catalogue()):
        definition = definitions[f"kind-{name.replace(' ', '-')}"]
        own = [key for key in definition["properties"] if key not in common]
        rows += ["", f"### `{name}`", "", definition["description"], "", *_table(definition, own)]
    return "\n".join(rows)


def _table(definition: dict[str, Any], keys: list[str]) -> list[str]:
    rows = ["| key | what it means | if left out |", "|---|---|---|"]
    return rows + [
        f"| `{key}` | {definition['properties'][key]['description']} | {_left_out(definition, key)} |" for key in keys
    ]


def _left_out(definition: dict[str, Any], key: str) -> str:
    default = definition["properties"][key].get("default")
    if default is None:
        return "must be given" if key in definition["required"] else "–"
    readers = {attribute.name: attribute.reader for attribute in catalogue()[definition["title"]].attributes}
    unit = UNITS.get(readers.get(key, key))
    written = f"{default:g}" if isinstance(default, float) else default
    return f"`{written} {unit}`" if unit else f"`{written}`"


def test_the_kinds_in_the_guide_are_those_of_the_catalogue_with_every_key() -> None:
    written = re.search(r"^<!-- kinds: .*? -->\n(.*?)\n<!-- end of kinds -->$", GUIDE, re.MULTILINE | re.DOTALL)
    assert written is not None
    assert written.group(1) == kinds_section()
    for kind in catalogue().values():
        assert all(f"| `{attribute.name}` |" in written.group(1) for attribute in kind.attributes)


def test_the_example_is_a_sheet_and_works_when_nothing_is_wrong() -> None:
    found = machine()
    predictor = Predictor(found, (NOTHING_WRONG,))
    shown = {
        name: LEVELS[int(np.argmax(levels(predictor, function, found.setups[function.setup])[:, 0]))]
        for name, function in found.functions.items()
    }
    assert shown == {"heat": "normal", "stops": "none", "light": "normal", "air": "normal"}


def test_the_example_loses_what_a_fault_takes() -> None:
    found = machine()
    predictor = Predictor(found, (Suspect(("limit:open",)), Suspect(("slots:blocked",)), Suspect(("limit:welded",))))
    seen = {
        name: [LEVELS[level] for level in np.argmax(levels(predictor, function, found.setups[function.setup]), axis=0)]
        for name, function in found.functions.items()
    }
    assert seen["heat"] == ["none", "weak", "normal"]
    assert seen["stops"] == ["none", "none", "normal"]
    assert seen["light"] == ["normal", "normal", "normal"]


def test_the_mistakes_in_the_guide_get_the_sentences_in_the_guide() -> None:
    (text,) = blocks("yaml")
    (said,) = blocks("text")
    for old, new in (
        ("kind: thermostat", "kind: termostat"),
        ("- blue door.NO limit.1", "- bleu door.NO limit.1"),
        ("[plug in, door open]", "[plug in, dor open]"),
        ("power: 10 W at 120 V", "power: 10 W"),
    ):
        assert text.count(old) == 1
        text = text.replace(old, new)
    _, problems = read_sheet(text, FILE)
    assert [str(problem) for problem in problems] == said.splitlines()


def test_every_section_of_a_sheet_is_in_the_example_or_explained() -> None:
    words = {field.alias or name for name, field in SheetForm.model_fields.items()}
    assert words - set(re.findall(r"^(\w[\w ]*):", blocks("yaml")[0], re.MULTILINE)) == {"per call", "linked"}
    assert "`per call: [cord]`" in GUIDE
    assert "\n    linked:\n" in GUIDE


def test_every_colour_level_and_aspect_is_named() -> None:
    colours, codes = list(COLOURS), [code for code in COLOURS.values() if code.isupper()]
    assert f"Colours are {', '.join(colours[:-1])} and {colours[-1]}," in " ".join(GUIDE.split())
    assert f"({' '.join(codes)})" in " ".join(GUIDE.split())
    assert all(f"`{level}`" in GUIDE for level in LEVELS)
    for aspect in ("power", "speed", "hum", "holding", "state"):
        assert f"`{aspect} of`" in GUIDE


@pytest.mark.parametrize(
    ("text", "unit", "value"), [("16 Ω", "Ω", 16), ("16 ohm", "Ω", 16), ("2.4 kΩ", "Ω", 2400), ("2.4k", "Ω", 2400)]
)
def test_the_quantities_in_the_guide_are_read(text: str, unit: str, value: float) -> None:
    assert f"`{text}`" in GUIDE
    assert read_quantity(text, unit) == value


def test_the_limit_of_the_example_moves_between_two_of_its_positions() -> None:
    assert read_temperature("150 °F") < read_temperature("195 °F") < read_temperature("240 °F")
    assert all(f"({degrees} °F)" in GUIDE for degrees in (150, 195, 240))

"""Widths of text are guessed high: a browser never needs more room than the layout left."""

import json
import re
import subprocess
from pathlib import Path

import pytest

from halfsplit.drawing import draw_machine, drawing_css
from halfsplit.drawing.letters import STYLES, width, wrap
from halfsplit.techsheet import COLOURS
from tests.unit.drawing.machines import NAMES, machine

MEASURE = """
<script>
const texts = [...document.querySelectorAll("text.wd-t")];
const told = texts.map(text => [text.textContent, text.className.baseVal, text.getComputedTextLength()]);
document.title = "";
document.body.innerHTML = "<pre id=told></pre>";
document.getElementById("told").textContent = JSON.stringify(told);
</script>
"""


@pytest.mark.parametrize("name", NAMES)
def test_no_text_is_wider_in_a_browser_than_the_layout_allows(name: str, tmp_path: Path, chromium_path: Path) -> None:
    page = tmp_path / "drawing.html"
    style = f"<style>{drawing_css()} .wd {{ width: 358px; }}</style>"
    page.write_text(
        f"<!doctype html><meta charset=utf-8>{style}<body>{draw_machine(machine(name))}{MEASURE}", encoding="utf-8"
    )
    options = ("--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={tmp_path / 'profile'}", "--dump-dom")
    done = subprocess.run(
        [chromium_path, *options, page.as_uri()], capture_output=True, text=True, check=True, timeout=120
    )
    told = re.search(r'<pre id="told">(.*?)</pre>', done.stdout, flags=re.S)
    assert told, done.stdout[:400]
    measured = json.loads(told[1].replace("&amp;", "&").replace("&lt;", "<").replace("&gt;", ">"))
    assert len(measured) > 20
    for text, classes, wide in measured:
        style_name = next(part.removeprefix("wd-") for part in classes.split() if part.removeprefix("wd-") in STYLES)
        assert 0 < wide <= width(text, style_name), (text, style_name)


def test_lines_keep_to_their_room_and_lose_no_letter() -> None:
    text = "operating thermostat in the reardutyofanunbelievablylongwordindeedwithoutanyspaces of the machine"
    lines = wrap(text, "name", 120.0)
    assert max(width(line, "name") for line in lines) <= 120.0
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_words_stay_whole_where_they_fit() -> None:
    assert wrap("drive motor, heater contact", "part", 150.0) == ("drive motor,", "heater contact")


def test_the_widest_colour_words_fit_one_line() -> None:
    widest = max(COLOURS, key=len)
    assert len(wrap(f"YE/VT {widest}/{widest}", "wire", 206.0)) == 1

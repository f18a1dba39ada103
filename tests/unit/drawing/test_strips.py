"""The whole wiring strip by strip: the state it shows, taps, boards as boxes, and a page that stands alone."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from halfsplit.call import standing_of
from halfsplit.drawing import View, as_page, draw_machine, draw_strips, drawing_css
from halfsplit.drawing.picture import COLUMN
from halfsplit.errors import InputError
from halfsplit.techsheet import Machine, load_machine
from tests.unit.drawing.read_back import SVG, netlist_of_drawing, netlist_of_machine
from tests.unit.techsheet.kinds.tiny import machine


def _dryer() -> Machine:
    return load_machine("dryer")


def test_all_strips_together_read_back_as_the_machine() -> None:
    drawn = set().union(*(netlist_of_drawing(strip.svg) for strip in draw_strips(_dryer(), View())))
    assert drawn == netlist_of_machine(_dryer()) == netlist_of_drawing(draw_machine(_dryer()))


def test_where_current_flows_is_marked_and_nowhere_else() -> None:
    """Running on high: the heater's and the motor's ways; the lamp stands behind an open door contact."""
    strips = draw_strips(_dryer(), View(standing_of(_dryer(), "running")))
    flowing = {
        group.get("data-link")
        for strip in strips
        for group in ElementTree.fromstring(strip.svg).iter(f"{SVG}g")
        if group.find(f"{SVG}path[@class='wd-flow']") is not None
    }
    assert {"high limit.2-heater.1", "TB.L1-door.COM", "motor:main-standing"} - flowing == set()
    assert not {"door.NC-lamp.1", "lamp:filament", "house.G-outlet.G", "start:1-2"} & flowing


def test_what_is_live_is_marked_in_the_state_asked_for() -> None:
    running, dead = (standing_of(_dryer(), name) for name in ("running", "dead"))
    assert {"heater.1", "heater.2", "TB.L1"} <= running.live
    assert not {"TB.N", "chassis.G", "lamp.1"} & running.live
    assert {point for point in dead.live if not point.startswith(("house", "breaker", "outlet"))} == set()


def test_an_isolated_rail_is_not_called_live() -> None:
    live = standing_of(machine("boards"), "baking").live
    assert "main board.H2" in live
    assert not {"main board.5V", "main board.0V", "display.12V"} & live


def test_a_board_is_a_box_with_every_terminal_and_its_wires() -> None:
    strips = {strip.name: strip for strip in draw_strips(machine("boards"), View())}
    root = ElementTree.fromstring(strips["display: its connectors"].svg)
    (box,) = [rect for rect in root.iter(f"{SVG}rect") if rect.get("class") == "wd-board"]
    circles = {circle.get("data-point"): circle for circle in root.iter(f"{SVG}circle")}
    assert list(circles) == ["display.12V", "display.0V", "display.5R", "display.K1", "display.RX"]
    top, bottom = float(box.attrib["y"]), float(box.attrib["y"]) + float(box.attrib["height"])
    assert all(top < float(circle.attrib["cy"]) < bottom for circle in circles.values())
    assert {float(circle.attrib["cx"]) for circle in circles.values()} == {COLUMN}
    texts = [text.text for text in root.iter(f"{SVG}text")]
    assert "RD/WH to main board.12V" in texts


def test_a_tap_leads_where_the_page_says() -> None:
    strips = draw_strips(_dryer(), View(address=lambda number, point: f"?a={point}#{number}"))
    links = [
        str(a.get("href")).partition("#")[0]
        for strip in strips
        for a in ElementTree.fromstring(strip.svg).iter(f"{SVG}a")
    ]
    assert "?a=heater.1" in links
    assert set(links) == {f"?a={point}" for point in _dryer().points}


def test_a_probe_on_no_terminal_is_refused() -> None:
    with pytest.raises(InputError):
        draw_strips(_dryer(), View(probes=("heater.1", "heater.9")))


def test_a_page_stands_alone() -> None:
    page = as_page("A & B", "running", draw_strips(_dryer(), View()))
    assert page.count("<svg") == len(draw_strips(_dryer(), View()))
    assert drawing_css() in page
    assert "A &amp; B" in page
    assert "http" not in page.replace('xmlns="http://www.w3.org/2000/svg"', "")

"""The whole wiring on a page: a state, two taps, and what a meter would read, sound and under the leading suspects."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.test import Client

from halfsplit.call import advise, standing_of
from halfsplit.desk.pages.shown.wiringpage import Asked, Known, wiring_of
from halfsplit.desk.records import store
from halfsplit.desk.records.values import CallRecord, case_of
from halfsplit.trade import Look, Reading, Seen
from tests.unit.techsheet.kinds.tiny import machine
from tests.walkthrough.technician import HiddenTruth

pytestmark = pytest.mark.django_db


def _addresses(page: str) -> dict[str, str]:
    """Terminal to where a tap on it leads."""
    found = re.findall(r'<a class="wd-go" href="([^"]+)" aria-label="probe on ([^"]+)"', page)
    return {unescape(point): unescape(address) for address, point in found}


def test_two_taps_put_the_probes_and_tell_what_a_sound_machine_reads(client: Client) -> None:
    first = client.get("/wiring/dryer/?setup=running").content.decode()
    assert "Tap a terminal" in first
    second = client.get(_addresses(first)["heater.1"]).content.decode()
    assert "Red on heater.1" in second
    third = client.get(_addresses(second)["heater.2"]).content.decode()
    assert "Red on heater.1, black on heater.2" in third
    assert "<strong>234\u00a0V</strong> Nothing wrong" in third.replace(" V<", "\u00a0V<")
    again = client.get(_addresses(third)["TB.L1"]).content.decode()
    assert "Red on TB.L1. Tap another" in again


def test_where_the_machine_is_dead_ohms_are_told(client: Client) -> None:
    page = client.get("/wiring/dryer/?setup=dead&a=heater.1&b=heater.2").content.decode()
    assert "10.7" in page
    assert "Ω" in page


def test_a_call_tells_what_its_leading_suspects_would_read(client: Client, call: CallRecord) -> None:
    store.add_entry(call.number, Seen("drum turns", "normal", "technician", "running"))
    page = client.get(f"/calls/{call.number}/wiring/?setup=running&a=heater.1&b=heater.2").content.decode()
    assert "The heater is open" in page
    assert page.count("<strong>") >= 3


def test_a_call_opens_on_its_next_check_and_marks_what_is_suspected_and_cleared(
    client: Client, call: CallRecord
) -> None:
    store.add_entry(call.number, Reading(("heater.1", "heater.2"), "ohms", "dead", 10.7))
    truth = HiddenTruth(call.machine, ("thermal cut-off:open",))
    while isinstance(look := advise(call.machine, case_of(store.entries(call.number))).next.action, Look):
        store.add_entry(call.number, truth.answer(look))
    page = client.get(f"/calls/{call.number}/wiring/").content.decode()
    assert 'data-probe="A"' in page
    assert "wd-is-suspected" in page
    heater = page.split('data-link="heater:lower"')[0].rsplit("<g ", 1)[1]
    assert "wd-is-cleared" in heater


def test_every_rung_is_there_in_strokes_and_in_words(client: Client) -> None:
    page = client.get("/wiring/dryer/").content.decode()
    assert page.count("<svg") == page.split("The same in words")[1].count("<li>") >= 8


def test_a_sheet_or_a_terminal_that_is_not_there_is_said_so(client: Client) -> None:
    assert client.get("/wiring/spaceship/").status_code == 404
    assert client.get("/wiring/dryer/?a=heater.9").status_code == 422


def test_an_unknown_setup_falls_back_to_the_first(client: Client) -> None:
    assert client.get("/wiring/dryer/?setup=nonsense").status_code == 200


def test_terminals_for_a_dead_machine_only_are_drawn_live_and_say_why_they_read_nothing() -> None:
    found = machine("highvoltage")
    page = wiring_of(found, Asked("/wiring", "cooking", "transformer.S", "case.G"), Known())
    assert page.says == (
        "transformer.S is never read on a live machine: it carries kilovolts that kill. "
        "Read ohms there in a setup with the plug out."
    )
    assert page.readings == ()
    assert set(found.dead_only) <= standing_of(found, "cooking").live
    assert set(found.dead_only).isdisjoint(standing_of(found, "dead").live)
    dead = wiring_of(found, Asked("/wiring", "dead", "transformer.S", "transformer.G"), Known())
    assert [line.shows for line in dead.readings] == ["80 Ω"]

"""Pages without a browser: queries, escaping, methods, sizes, and what stands on them when things go wrong."""

from __future__ import annotations

import math
import re
from importlib import resources

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from halfsplit.call import advise
from halfsplit.desk.pages.shown.check import _drawing
from halfsplit.desk.pages.words import ENDING_WORDS, LEVEL_WORDS
from halfsplit.desk.records import store
from halfsplit.desk.records.entries import Skipped, TakenBack
from halfsplit.desk.records.models import Call
from halfsplit.desk.records.values import CallRecord, case_of
from halfsplit.drawing import describe_rungs, standing_in
from halfsplit.techsheet import library_names, sheet_text
from halfsplit.trade import Measure, Reading

HOSTILE = "<script>alert(1)</script>"
ESCAPED = "&lt;script&gt;alert(1)&lt;/script&gt;"
HEATER = ("heater.1", "heater.2")


def address(call: CallRecord, name: str = "call") -> str:
    return reverse(name, args=[call.number])


def text_of(client: Client, path: str) -> str:
    answer = client.get(path)
    assert answer.status_code == 200
    return answer.content.decode()


def answer_form(call: CallRecord, **fields: str) -> dict[str, str]:
    return {"a": "heater.1", "b": "heater.2", "mode": "ohms", "setup": "dead", "value": "10.7", "at": "now"} | fields


def test_three_calls_cost_no_more_queries_than_one(
    client: Client, call: CallRecord, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    with django_assert_num_queries(1):
        assert text_of(client, "/").count('class="call"') == 1
    for _ in range(2):
        other = store.start_call(*sheet_text("dryer"), complaint="dead")
        store.remember_standing(other.number, "keep looking", "…", 0)
    with django_assert_num_queries(1):
        assert text_of(client, "/").count('class="call"') == 3


def test_a_long_call_costs_no_more_queries_than_a_short_one(
    client: Client, call: CallRecord, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    text_of(client, address(call))
    with django_assert_num_queries(3):  # the call, its entries, where it stood
        text_of(client, address(call))
    for value in (10.7, 10.8, 10.9):
        store.add_entry(call.number, Reading(HEATER, "ohms", "dead", value))
    text_of(client, address(call))
    with django_assert_num_queries(3):
        text_of(client, address(call))


def test_what_was_typed_is_shown_and_never_run(client: Client, call: CallRecord) -> None:
    store.start_call(*sheet_text("dryer"), note=HOSTILE)
    answer = client.post(address(call, "add_reading"), answer_form(call, at="reading", value=HOSTILE))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert f'value="{ESCAPED}"' in page
    assert HOSTILE not in page
    assert ESCAPED in text_of(client, "/")
    assert HOSTILE not in text_of(client, "/")


def offered_reading(call: CallRecord) -> Measure:
    """A reading that is worth its time now; looks are skipped until there is one."""
    for _ in range(30):
        advice = advise(call.machine, case_of(store.entries(call.number)))
        checks = [check.action for check in (advice.next, *advice.others) if check is not None]
        readings = [action for action in checks if isinstance(action, Measure)]
        if readings:
            return readings[-1]
        for action in checks:
            store.add_entry(call.number, Skipped(action))
    raise AssertionError("no reading is ever offered")


def refused_page(client: Client, call: CallRecord, action: Measure) -> tuple[str, dict[str, str]]:
    a, b = action.points
    form = answer_form(call, a=a, b=b, mode=action.mode, setup=action.setup, value="banana")
    return client.post(address(call, "add_reading"), form).content.decode(), form


def test_a_refused_answer_stands_under_its_own_check(client: Client, call: CallRecord) -> None:
    offered = offered_reading(call)
    page, form = refused_page(client, call, offered)
    answer = re.search(r'<form class="type".*?</form>', page, re.DOTALL)
    assert answer is not None
    assert all(f'name="{name}" value="{form[name]}"' in answer.group() for name in ("a", "b", "mode", "setup"))
    assert 'value="banana"' in answer.group()


def test_a_refused_answer_to_a_check_that_is_gone_keeps_its_points(client: Client, call: CallRecord) -> None:
    """An entry from a second telephone or the terminal may have moved the search on meanwhile."""
    page, form = refused_page(client, call, Measure(("belt switch.1", "start.2"), "ohms", "dead"))
    assert 'value="banana"' not in page.partition('id="reading"')[0]
    assert '<section id="reading" class="fold">\n<details open>' in page
    assert all(f'name="{name}" value="{form[name]}"' in page for name in ("a", "b", "value"))


@pytest.mark.parametrize("at", ["now", "reading"])
@pytest.mark.parametrize("field", ["a", "b", "mode", "setup", "value"])
def test_no_field_of_a_reading_lets_markup_through(client: Client, call: CallRecord, field: str, at: str) -> None:
    answer = client.post(address(call, "add_reading"), answer_form(call, at=at, **{field: f'"{HOSTILE}'}))
    assert answer.status_code == 422
    assert HOSTILE not in answer.content.decode()


def test_a_sheet_with_markup_in_its_words_is_shown_as_words(client: Client, db: None) -> None:
    text, file = sheet_text("dryer")
    hostile = text.replace("title: heater", f'title: "{HOSTILE}"')
    hostile = hostile.replace("says: It turns but does not heat", f'says: "{HOSTILE}"')
    assert hostile.count(HOSTILE) == 1
    call = store.start_call(hostile, file, complaint="no heat")
    page = text_of(client, address(call))
    assert ESCAPED in page
    assert HOSTILE not in page
    assert "<script" not in page


def test_an_unknown_call_is_a_plain_page(client: Client, db: None) -> None:
    for path in ("/calls/999/", "/calls/99999999999999999999999/"):
        answer = client.get(path)
        assert answer.status_code == 404
        assert re.search(r"There is no call \d+\. Look for it in the list of calls\.", answer.content.decode())
    assert client.post("/calls/999/skip/", {"at": "now"}).status_code == 404
    assert "There is no page at this address." in client.get("/calls/x/").content.decode()


@pytest.mark.parametrize("name", ["add_reading", "add_seen", "skip", "cannot_reach", "set_to", "take_back"])
def test_what_writes_is_not_reached_by_looking(client: Client, call: CallRecord, name: str) -> None:
    before = store.entries(call.number)
    assert client.get(address(call, name)).status_code == 405
    assert store.entries(call.number) == before


@pytest.mark.parametrize("path", ["/", "/calls/1/", "/drawing.css"])
def test_what_only_shows_takes_no_form(client: Client, call: CallRecord, path: str) -> None:
    assert client.post(path).status_code == 405
    assert client.delete("/new/").status_code == 405


def test_a_form_from_elsewhere_writes_nothing(call: CallRecord) -> None:
    careful = Client(enforce_csrf_checks=True, SERVER_NAME="localhost")
    before = store.entries(call.number)
    answer = careful.post(address(call, "add_reading"), answer_form(call))
    assert answer.status_code == 403
    assert "That was not written down." in answer.content.decode()
    careful.get(address(call))
    foreign = careful.post(address(call, "add_reading"), answer_form(call), HTTP_ORIGIN="http://evil.example")
    assert foreign.status_code == 403
    assert store.entries(call.number) == before


def test_our_own_form_is_taken_with_the_checks_on(call: CallRecord) -> None:
    careful = Client(enforce_csrf_checks=True, SERVER_NAME="localhost")
    page = careful.get(address(call)).content.decode()
    token = re.search(r'name="csrfmiddlewaretoken" value="(\w+)"', page)
    assert token is not None
    form = answer_form(call, csrfmiddlewaretoken=token.group(1))
    answer = careful.post(address(call, "add_reading"), form, HTTP_ORIGIN="http://localhost:8000")
    assert answer.status_code == 403
    answer = careful.post(address(call, "add_reading"), form, HTTP_ORIGIN="http://localhost")
    assert answer.status_code == 302


def test_a_huge_form_is_refused_and_writes_nothing(client: Client, call: CallRecord) -> None:
    before = store.entries(call.number)
    assert client.post(address(call, "add_reading"), answer_form(call, value="9" * 1_100_000)).status_code == 400
    many = {f"field{number}": "x" for number in range(200)}
    assert client.post(address(call, "add_reading"), answer_form(call, **many)).status_code == 400
    assert store.entries(call.number) == before


def test_a_reading_goes_back_to_where_it_came_from(client: Client, call: CallRecord) -> None:
    for at in ("now", "reading"):
        answer = client.post(address(call, "add_reading"), answer_form(call, at=at))
        last = store.entries(call.number)[-1]
        assert answer.status_code == 302
        assert answer.headers["Location"] == f"{address(call)}?at={at}&done={last.number}#{at}"
        assert last.what == Reading(HEATER, "ohms", "dead", 10.7)


@pytest.mark.parametrize(
    ("mode", "setup", "value", "told"),
    [
        ("dc", "running", "-0.1", "heater.1 (red) to heater.2 reads -0.1 V DC"),
        ("ac+dc", "running", "236", "heater.1 to heater.2 reads 236 V AC+DC"),
        ("continuity", "dead", "beeps", "heater.1 to heater.2: the meter beeps"),
        ("insulation-500", "dead", "200", "heater.1 to heater.2 reads 200 MΩ at 500 V DC"),
        ("insulation-250", "dead", "0.3", "heater.1 to heater.2 reads 300 kΩ at 250 V DC"),
    ],
)
def test_a_reading_in_any_mode_stands_in_the_log_in_its_own_words(
    client: Client, call: CallRecord, mode: str, setup: str, value: str, told: str
) -> None:
    client.post(address(call, "add_reading"), answer_form(call, at="reading", mode=mode, setup=setup, value=value))
    assert told in text_of(client, address(call) + "?at=log")


def test_watts_at_the_plug_need_no_points(client: Client, call: CallRecord) -> None:
    form = answer_form(call, at="reading", a="", b="", mode="watts", setup="running", value="5.2 kW")
    answer = client.post(address(call, "add_reading"), form)
    assert answer.status_code == 302
    page = text_of(client, answer.headers["Location"])
    assert "5.2 kW: at the plug" in page
    assert "the plug takes 5.2 kW" in page


def test_what_does_not_say_whether_it_beeps_is_refused_beside_its_field(client: Client, call: CallRecord) -> None:
    form = answer_form(call, at="reading", mode="continuity", value="12")
    page = client.post(address(call, "add_reading"), form).content.decode()
    assert "does not say whether the meter beeps" in page
    assert 'aria-describedby="value-error"' in page


def test_ohms_on_a_live_machine_are_never_written_down(client: Client, call: CallRecord) -> None:
    before = store.entries(call.number)
    answer = client.post(address(call, "add_reading"), answer_form(call, a="TB.L1", b="TB.L2", setup="running"))
    assert answer.status_code == 422
    assert "Read ohms in a setup with the plug out." in answer.content.decode()
    assert store.entries(call.number) == before


@pytest.mark.parametrize("anchor", ["//evil.example", "a\r\nSet-Cookie: b=c", '"><script>'])
def test_where_to_go_back_to_cannot_be_abused(client: Client, call: CallRecord, anchor: str) -> None:
    answer = client.post(address(call, "add_reading"), answer_form(call, anchor=anchor))
    assert answer.status_code == 302
    assert answer.headers["Location"].startswith(f"{address(call)}?at=now&done=")
    assert not re.search(r"[\r\n\"<>]", answer.headers["Location"])


@pytest.mark.parametrize(
    "query",
    ["done=x", "done=99999999999999999999", "done=-1", "at=nowhere", "by=nobody", "check=none", "done=1&at=log"],
)
def test_an_address_that_makes_no_sense_still_shows_the_call(client: Client, call: CallRecord, query: str) -> None:
    assert "Next check" in text_of(client, f"{address(call)}?{query}")


@pytest.mark.parametrize(
    ("name", "form", "sentence"),
    [
        ("add_seen", {"saw": "none/flying", "by": "technician", "at": "seen"}, "There is no function"),
        ("add_seen", {"saw": "lots/heat", "by": "technician", "at": "seen"}, "is not a level"),
        ("add_seen", {"saw": "none/heat", "by": "neighbour", "at": "seen"}, "is not an observer"),
        ("skip", {"a": "heater.1", "b": "heater.2", "mode": "ohms", "setup": "plug in", "at": "log"}, "is not a setup"),
        ("cannot_reach", {"point": "moon.1", "at": "log"}, "There is no part"),
        ("set_to", {"set": "5-wire/cord", "at": "log"}, "is not a position of cord"),
        ("set_to", {"set": "open/door", "at": "log"}, "is not a setting of a whole call"),
        ("take_back", {"entry": "first", "at": "log"}, "There is no such entry"),
    ],
)
def test_a_form_that_no_page_of_ours_sends_is_one_sentence(
    client: Client, call: CallRecord, name: str, form: dict[str, str], sentence: str
) -> None:
    before = store.entries(call.number)
    answer = client.post(address(call, name), form)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert store.entries(call.number) == before


def test_taking_back_an_entry_of_another_call_is_not_found(client: Client, call: CallRecord) -> None:
    other = store.start_call(*sheet_text("dryer"))
    foreign = store.entries(other.number)[0].number
    assert client.post(address(call, "take_back"), {"entry": foreign, "at": "log"}).status_code == 404


def test_a_call_whose_sheet_cannot_be_read_any_more_says_so(client: Client, db: None) -> None:
    row = Call.objects.create(created=timezone.now(), sheet="x", title="X", file="x.yaml", text="sheet: [")
    answer = client.get(f"/calls/{row.pk}/")
    assert answer.status_code == 422
    assert "x.yaml:1:" in answer.content.decode()


def test_an_entry_the_engine_refuses_leaves_the_log_open(client: Client, call: CallRecord) -> None:
    """Older versions may have taken what this one cannot weigh."""
    bad = store.add_entry(call.number, Reading(("TB.L1", "TB.L2"), "ohms", "running", 1.0))
    page = text_of(client, address(call))
    assert "This cannot be weighed" in page
    assert "Read ohms in a setup with the plug out." in page
    client.post(address(call, "take_back"), {"entry": bad.number, "at": "log"})
    assert "This cannot be weighed" not in text_of(client, address(call))


def test_a_setup_typed_in_a_terminal_is_shown_even_when_taken_back(client: Client, call: CallRecord) -> None:
    typed = Reading(HEATER, "ohms", "plug out, lift heater.2-motor.1", 10.7)
    entry = store.add_entry(call.number, typed)
    assert "plug out, lift heater.2-motor.1" in text_of(client, address(call))
    store.add_entry(call.number, TakenBack(entry.number))
    assert "plug out, lift heater.2-motor.1" in text_of(client, address(call))


def test_an_open_reading_and_a_skip_stand_in_the_log(client: Client, call: CallRecord) -> None:
    store.add_entry(call.number, Reading(HEATER, "ohms", "dead", math.inf))
    store.add_entry(call.number, Skipped(Measure(HEATER, "ohms", "dead")))
    page = text_of(client, address(call))
    assert "heater.1 to heater.2 reads OL" in page
    assert "Skipped: Read ohms from heater.1 to heater.2" in page


def test_the_list_goes_on_to_older_calls(client: Client, db: None) -> None:
    assert "No calls yet." in text_of(client, "/")
    numbers = [store.start_call(*sheet_text("dryer")).number for _ in range(51)]
    assert f'href="/?before={numbers[1]}"' in text_of(client, "/")
    older = text_of(client, f"/?before={numbers[1]}")
    assert re.findall(r'href="/calls/(\d+)/"', older) == [str(numbers[0])]
    assert text_of(client, "/?before=nonsense").count('class="call"') == 50


def test_the_style_shows_the_fields_of_every_machine_in_the_library() -> None:
    """Which fields belong to the machine chosen is decided by style alone, one line for each place in the list."""
    css = resources.files("halfsplit.desk.pages").joinpath("static/desk/desk.css").read_text(encoding="utf-8")
    places = [int(place) for place in re.findall(r'\.for-sheet\[data-sheet="(\d+)"\]', css)]
    assert places == list(range(1, len(places) + 1))
    assert len(library_names()) <= len(places)


def test_one_page_shows_every_pattern(client: Client, db: None) -> None:
    page = text_of(client, "/patterns/")
    for words in (*ENDING_WORDS.values(), *LEVEL_WORDS.values(), "DANGER", "CAUTION"):
        assert f">{words}<" in page or f" {words}<" in page
    assert 'class="wd"' in page


def test_looking_at_a_call_adds_no_entry(client: Client, call: CallRecord) -> None:
    before = store.entries(call.number)
    text_of(client, address(call))
    text_of(client, address(call))
    assert store.entries(call.number) == before


def test_the_words_of_a_drawing_tell_of_the_rungs_that_it_shows(call: CallRecord) -> None:
    standing = standing_in(call.machine.setups["dead auto"])
    action = Measure(("timer.A", "timer.B"), "ohms", "dead auto")
    drawn = _drawing(call.machine, action)
    assert drawn is not None
    assert drawn.words != describe_rungs(call.machine, action.points)  # at rest another rung would be told of
    assert drawn.words == describe_rungs(call.machine, action.points, standing)

"""Sheets written here: begun, saved as versions, looked over, and used by calls that keep the version they had."""

from __future__ import annotations

import pytest
from django.test import Client

from halfsplit.desk.guard.headers import POLICY
from halfsplit.desk.records import sheets, store
from halfsplit.desk.records.values import NoSuchRecordError
from halfsplit.techsheet import sheet_text, skeleton

pytestmark = pytest.mark.django_db
SKELETON = skeleton("washer")
BROKEN = SKELETON.replace("  - orange lid.2 lamp.1\n", "  - orang lid.2 lamp.9\n")


def _begun(client: Client, chosen: str = "family washer") -> str:
    answer = client.post("/sheets/begin/", {"from": chosen})
    assert answer.status_code == 302
    return str(answer["Location"])


def test_a_sheet_begins_with_a_skeleton_or_with_a_built_in_sheet(client: Client) -> None:
    assert _begun(client) == "/sheets/1/"
    assert sheets.find_version(1).text == SKELETON
    assert _begun(client, "sheet dryer") == "/sheets/2/"
    assert sheets.find_version(2).text == sheet_text("dryer")[0]


@pytest.mark.parametrize("chosen", ["", "family spaceship", "sheet spaceship"])
def test_a_beginning_that_is_none_is_refused_and_nothing_is_written(client: Client, chosen: str) -> None:
    assert client.post("/sheets/begin/", {"from": chosen}).status_code == 422
    assert sheets.own_sheets() == ()


def test_what_is_saved_with_mistakes_is_kept_and_every_mistake_told_with_its_line(client: Client) -> None:
    address = _begun(client)
    saved = client.post(address, {"text": BROKEN.replace("\n", "\r\n")})
    assert saved["Location"] == "/sheets/1/?saved=2#looked"
    last = sheets.find_version(1)
    assert (last.version, last.text, last.mistakes) == (2, BROKEN, 2)
    page = client.get("/sheets/1/").content.decode()
    line = next(number for number, text in enumerate(BROKEN.splitlines(), 1) if "lamp.9" in text)
    assert page.count(f"Line {line}:") == 2
    assert "- orang lid.2 lamp.9" in page


def test_the_same_text_saved_again_adds_no_version(client: Client) -> None:
    address = _begun(client)
    client.post(address, {"text": BROKEN})
    assert client.post(address, {"text": BROKEN})["Location"] == "/sheets/1/?saved=2#looked"
    assert [one.version for one in sheets.versions(1)] == [2, 1]


def test_an_older_version_can_be_seen_and_saved_anew(client: Client) -> None:
    address = _begun(client)
    client.post(address, {"text": BROKEN})
    assert "- orange lid.2 lamp.1" in client.get(f"{address}?version=1").content.decode()
    client.post(address, {"text": SKELETON})
    assert [(one.version, one.mistakes) for one in sheets.versions(1)] == [(3, 0), (2, 2), (1, 0)]


def test_a_call_keeps_the_version_it_began_with(client: Client) -> None:
    address = _begun(client)
    answer = client.post(f"{address}call/", {"version": "1"})
    assert answer["Location"] == "/calls/1/"
    client.post(address, {"text": SKELETON.replace("10 W", "25 W")})
    call = store.find_call(1)
    assert (call.text, call.file) == (SKELETON, "own sheet 1, version 1")


def test_a_version_with_mistakes_starts_no_call_and_says_why(client: Client) -> None:
    address = _begun(client)
    client.post(address, {"text": BROKEN})
    page = client.post(f"{address}call/", {"version": "2"})
    assert page.status_code == 422
    assert "is not a wire colour" in page.content.decode()
    assert store.calls() == ()


def test_looking_over_saves_nothing_and_shows_mistakes_or_the_wiring(client: Client) -> None:
    _begun(client)
    assert "2 things to correct" in client.post("/sheets/look/", {"text": BROKEN}).content.decode()
    sound = client.post("/sheets/look/", {"text": SKELETON}).content.decode()
    assert "Nothing to correct" in sound
    assert "<svg" in sound
    doubtful = client.post("/sheets/look/", {"text": SKELETON.replace("10 W at 120 V", "10 W at 240 V")})
    assert "never gets more than 25% of its rated power" in doubtful.content.decode()
    assert [one.version for one in sheets.versions(1)] == [1]


def test_only_the_editor_may_load_a_script_and_only_ours(client: Client) -> None:
    address = _begun(client)
    assert client.get(address)["Content-Security-Policy"] == f"{POLICY}; script-src 'self'; connect-src 'self'"
    for other in ("/", "/sheets/", "/sheets/begin/", "/new/"):
        assert client.get(other)["Content-Security-Policy"] == POLICY


def test_a_hostile_text_is_shown_as_text(client: Client) -> None:
    address = _begun(client)
    client.post(address, {"text": "title: </textarea><script>alert(1)</script>\n"})
    for page in (client.get(address), client.get("/sheets/")):
        assert "<script>alert" not in page.content.decode()


def test_a_sheet_that_is_not_there_is_said_so(client: Client) -> None:
    assert client.get("/sheets/7/").status_code == 404
    with pytest.raises(NoSuchRecordError):
        sheets.save_version(7, "x")


def test_a_version_stands_as_it_was_saved(client: Client) -> None:
    from halfsplit.desk.records.models import SheetVersion

    _begun(client)
    row = SheetVersion.objects.get()
    with pytest.raises(TypeError):
        row.save()
    with pytest.raises(TypeError):
        row.delete()

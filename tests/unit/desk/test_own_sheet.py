"""A call with a sheet of one's own: every mistake in one go, nothing typed is lost, too much is one sentence."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from halfsplit.desk.records import store
from halfsplit.techsheet import sheet_text

pytestmark = pytest.mark.django_db
ADDRESS = "/new/own-sheet/"
DRYER = sheet_text("dryer")[0]
LAUGHS = "a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nsheet: c\n"


def _file(content: bytes, name: str = "mine.yaml") -> dict[str, SimpleUploadedFile]:
    return {"file": SimpleUploadedFile(name, content)}


def _errors(client: Client, fields: dict[str, object]) -> str:
    page = client.post(ADDRESS, fields)
    assert page.status_code == 422
    assert store.calls() == ()
    return page.content.decode()


def test_a_sound_sheet_starts_a_call_that_keeps_its_text(client: Client) -> None:
    mine = DRYER.replace("title: Electric clothes dryer", "title: My own dryer")
    answer = client.post(ADDRESS, {"text": mine})
    assert answer.status_code == 302
    call = store.find_call(1)
    assert (call.text.strip(), call.title) == (mine.strip(), "My own dryer, 120/240 V, mechanical timer")
    assert client.get(answer["Location"]).status_code == 200


def test_a_file_starts_a_call_under_its_name(client: Client) -> None:
    assert client.post(ADDRESS, _file(DRYER.encode())).status_code == 302
    assert store.find_call(1).file == "mine.yaml"


def test_a_file_saved_with_a_byte_order_mark_is_read(client: Client) -> None:
    assert client.post(ADDRESS, _file(b"\xef\xbb\xbf" + DRYER.replace("\n", "\r\n").encode())).status_code == 302
    assert store.find_call(1).text == DRYER


def test_every_mistake_is_told_at_once_with_its_line_and_the_text_stays(client: Client) -> None:
    wrong = DRYER.replace("- blue door.NO timer.A", "- blu door.NO timer.A").replace(
        "- violet start.2 motor.6", "- violet start.2 motor.9"
    )
    page = _errors(client, {"text": wrong})
    assert "2 things to correct" in page
    for words in ("- blu ", "motor.9"):
        line = next(number for number, text in enumerate(wrong.splitlines(), 1) if words in text)
        assert f"Line {line}:" in page
    assert "- blu door.NO timer.A" in page


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"sheet: [", "Line"),
        (LAUGHS.encode(), "The mark"),
        (b"x" * 10_000_000, "larger than 256 kB"),
        (b"\xff\xfe\x00binary", "not UTF-8 text"),
    ],
)
def test_a_file_that_cannot_be_a_sheet_is_one_sentence(client: Client, content: bytes, sentence: str) -> None:
    page = _errors(client, _file(content))
    assert sentence in page
    assert "to correct" in page


def test_nothing_sent_is_one_sentence(client: Client) -> None:
    assert "Paste its text, or choose its file." in _errors(client, {"text": "  "})


def test_a_huge_pasted_text_is_a_page_with_a_sentence(client: Client) -> None:
    page = client.post(ADDRESS, {"text": "x" * 10_000_000}, content_type="application/x-www-form-urlencoded")
    assert page.status_code in (400, 422)
    assert store.calls() == ()


def test_what_is_typed_comes_back_as_text_and_not_as_markup(client: Client) -> None:
    page = _errors(client, {"text": "sheet: <script>alert(1)</script>\n"})
    assert "<script>" not in page
    assert "&lt;script&gt;" in page

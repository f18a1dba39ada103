"""Who may come in, under which name, and what a browser is told."""

from __future__ import annotations

import socket

import pytest
from django.http.response import ResponseHeaders
from django.test import Client
from pytest_django import Settings

from halfsplit.desk.guard.headers import POLICY
from halfsplit.desk.guard.hosts import is_ours, own_addresses
from halfsplit.desk.guard.key import COOKIE, is_this_machine

pytestmark = pytest.mark.django_db
KEY = "abcdefghjkmnpqrs"


@pytest.fixture
def telephone() -> Client:
    """A browser on another machine (address for documentation, RFC 5737)."""
    return Client(SERVER_NAME="localhost", REMOTE_ADDR="203.0.113.77")


def headers_of(client: Client, path: str) -> ResponseHeaders:
    """Headers of an answer; one that is a file is closed again."""
    answer = client.get(path)
    answer.close()
    return answer.headers


@pytest.mark.parametrize(
    ("address", "own"),
    [
        ("127.0.0.1", True),
        ("127.8.9.10", True),
        ("::1", True),
        ("::ffff:127.0.0.1", True),
        ("::ffff:203.0.113.77", False),
        ("203.0.113.77", False),
        ("fe80::1", False),
        ("localhost", False),
        ("", False),
    ],
)
def test_only_loopback_is_this_machine(address: str, own: bool) -> None:
    assert is_this_machine(address) is own


@pytest.mark.parametrize("address", ["127.0.0.1", "::1"])
def test_this_machine_needs_no_key(client: Client, address: str) -> None:
    assert client.get("/", REMOTE_ADDR=address).status_code == 200


@pytest.mark.parametrize("path", ["/", "/new/", "/calls/1/", "/nowhere", "/drawing.css", "/?key=", "/?key=wrong"])
def test_another_machine_without_the_key_gets_one_sentence(telephone: Client, path: str) -> None:
    answer = telephone.get(path)
    assert answer.status_code == 403
    assert "This desk needs its key" in answer.content.decode()
    assert "New call" not in answer.content.decode()
    assert not answer.cookies


def test_another_machine_cannot_write_without_the_key(telephone: Client) -> None:
    assert telephone.post("/new/?key=wrong", {"sheet": "dryer"}).status_code == 403


def test_the_key_lets_in_once_and_the_cookie_from_then_on(telephone: Client) -> None:
    first = telephone.get(f"/?key={KEY}")
    assert (first.status_code, first.headers["Location"]) == (302, "/")
    cookie = first.cookies[COOKIE]
    assert KEY not in cookie.value
    assert (cookie["httponly"], cookie["samesite"]) == (True, "Lax")
    assert telephone.get("/").status_code == 200


def test_the_key_leads_to_the_list_and_nowhere_else(telephone: Client) -> None:
    answer = telephone.get(f"//evil.example/?key={KEY}")
    assert answer.headers["Location"] == "/"


@pytest.mark.parametrize("forged", ["", KEY, "abc:def:ghi"])
def test_a_made_up_cookie_lets_nobody_in(telephone: Client, forged: str) -> None:
    telephone.cookies[COOKIE] = forged
    assert telephone.get("/").status_code == 403


def test_a_new_key_shuts_out_old_cookies(telephone: Client, settings: Settings) -> None:
    telephone.get(f"/?key={KEY}")
    settings.HALFSPLIT_ACCESS_KEY = "another"
    assert telephone.get("/").status_code == 403


def test_a_cookie_signed_by_another_desk_lets_nobody_in(telephone: Client, settings: Settings) -> None:
    telephone.get(f"/?key={KEY}")
    settings.SECRET_KEY = "another"
    assert telephone.get("/").status_code == 403


def test_a_desk_without_a_key_opens_to_no_other_machine(client: Client, telephone: Client, settings: Settings) -> None:
    settings.HALFSPLIT_ACCESS_KEY = ""
    assert telephone.get("/?key=").status_code == 403
    assert client.get("/", REMOTE_ADDR="127.0.0.1").status_code == 200


@pytest.mark.parametrize(
    ("name", "ours"),
    [
        ("localhost", True),
        ("127.0.0.1", True),
        ("[::1]", True),
        (socket.gethostname().lower(), True),
        ("evil.example", False),
        ("localhost.evil.example", False),
        ("203.0.113.1", False),
        ("0.0.0.0", False),
        ("[::]", False),
        ("[2001:db8::1]", False),
    ],
)
def test_only_names_and_addresses_of_this_machine_are_ours(name: str, ours: bool) -> None:
    assert is_ours(name) is ours


def test_the_addresses_told_to_a_telephone_are_ours() -> None:
    assert all(is_ours(f"[{address}]" if ":" in address else address) for address in own_addresses())


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8000", "203.0.113.1", "bad host", "0.0.0.0:8000"])
def test_a_name_that_is_not_ours_is_refused(client: Client, host: str, capfd: pytest.CaptureFixture[str]) -> None:
    answer = client.get("/", HTTP_HOST=host)
    assert answer.status_code == 400
    assert "New call" not in answer.content.decode()
    assert capfd.readouterr().err == "", "someone else's mistake fills our log"


@pytest.mark.parametrize("host", ["localhost:8517", "127.0.0.1:8517", "[::1]:8517"])
def test_our_own_names_are_answered(client: Client, host: str) -> None:
    assert client.get("/", HTTP_HOST=host).status_code == 200


@pytest.mark.parametrize("path", ["/", "/new/", "/nowhere", "/drawing.css", "/static/desk/desk.css"])
def test_every_answer_forbids_what_we_do_not_use(client: Client, path: str) -> None:
    headers = headers_of(client, path)
    assert headers["Content-Security-Policy"] == POLICY
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["X-Frame-Options"] == "DENY"


def test_the_policy_is_the_one_decided() -> None:
    assert POLICY == (
        "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; "
        "frame-ancestors 'none'"
    )


def test_pages_are_kept_by_nobody_in_between_and_styles_are_kept_for_days(client: Client) -> None:
    assert headers_of(client, "/")["Cache-Control"] == "private, no-cache"
    assert "max-age=604800" in headers_of(client, "/drawing.css")["Cache-Control"]
    assert "max-age=86400" in headers_of(client, "/static/desk/desk.css")["Cache-Control"]

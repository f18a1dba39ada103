"""Other machines bring a key: it is part of the address that the desk prints, and then stays in a signed cookie.

This machine itself needs none. A proxy on this machine would make everyone look like this machine: do not put one
before the desk without a sign-in of its own.
"""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Callable
from ipaddress import IPv6Address, ip_address

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render

COOKIE = "halfsplit_key"
_SALT = "halfsplit.desk.key"
_DAYS = 30
_SECONDS = _DAYS * 24 * 60 * 60


class KeyFromOtherMachines:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if is_this_machine(request.META.get("REMOTE_ADDR", "")):
            return self.get_response(request)
        if is_key(request.GET.get("key", "")):
            return _let_in()
        if _same(_ticket(), request.get_signed_cookie(COOKIE, "", salt=_SALT, max_age=_SECONDS) or ""):
            return self.get_response(request)
        return render(request, "desk/no_key.html", status=403)


def is_this_machine(address: str) -> bool:
    """Whether a peer's address is loopback, an IPv4 one written as IPv6 included; what is no address is not."""
    try:
        peer = ip_address(address)
    except ValueError:
        return False
    mapped = peer.ipv4_mapped if isinstance(peer, IPv6Address) else None
    return (mapped or peer).is_loopback


def is_key(given: str) -> bool:
    """Whether this is the key of the data folder; takes the same time however much of it is right."""
    return _same(settings.HALFSPLIT_ACCESS_KEY, given)


def _let_in() -> HttpResponse:
    """To the list of calls, without the key in the address, where it would stay in the history."""
    response = HttpResponseRedirect("/")
    response.set_signed_cookie(COOKIE, _ticket(), salt=_SALT, max_age=_SECONDS, httponly=True, samesite="Lax")
    return response


def _ticket() -> str:
    """Changes with the key, so that a new key shuts out old cookies."""
    key = settings.HALFSPLIT_ACCESS_KEY
    return hashlib.sha256(key.encode()).hexdigest() if key else ""


def _same(right: str, given: str) -> bool:
    return bool(right) and secrets.compare_digest(right.encode(), given.encode())

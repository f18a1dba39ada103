"""Under which names the desk answers: loopback, and this machine's own names and addresses.

A page of a stranger can point a name of its own at this machine (DNS rebinding) and would then read our pages; it
cannot make the browser send a name or an address that is ours.
"""

from __future__ import annotations

import socket
from collections.abc import Callable
from ipaddress import ip_address

from django.core.exceptions import DisallowedHost
from django.http import HttpRequest, HttpResponse
from django.http.request import split_domain_port


class OwnNamesOnly:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        name, _ = split_domain_port(request.get_host())
        if not is_ours(name):
            raise DisallowedHost(f"The desk does not answer under the name {name!r}.")
        return self.get_response(request)


def is_ours(name: str) -> bool:
    """Whether a name or address (IPv6 in brackets) is this machine's own."""
    if name in own_names():
        return True
    try:
        address = ip_address(name.strip("[]"))
    except ValueError:
        return False
    return address.is_loopback or (not address.is_unspecified and _is_own_address(str(address)))


def own_names() -> tuple[str, ...]:
    """Names that mean this machine; the last is what a home network calls it (multicast DNS, RFC 6762)."""
    host = socket.gethostname().lower()
    return ("localhost", host, f"{host.partition('.')[0]}.local")


def own_addresses() -> tuple[str, ...]:
    """Addresses under which other machines most likely reach this one: those it would speak from. Sends nothing."""
    found = (_speaks_from(socket.AF_INET, "192.0.2.1"), _speaks_from(socket.AF_INET6, "2001:db8::1"))
    return tuple(address for address in found if address)


def _is_own_address(address: str) -> bool:
    """Only an address of this machine can be taken by a socket; that needs no list and no name server."""
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    try:
        with socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.bind((address, 0))
    except OSError:
        return False
    return True


def _speaks_from(family: socket.AddressFamily, documentation_address: str) -> str:
    try:
        with socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.connect((documentation_address, 9))  # chooses a route, sends nothing (RFC 5737, RFC 3849)
            return str(probe.getsockname()[0])
    except OSError:
        return ""

"""Reverse proxies: whose word is taken on who calls, by which name, and whether by https."""

from __future__ import annotations

import ipaddress
from collections.abc import Iterable
from ipaddress import IPv4Network, IPv6Address, IPv6Network, ip_address, ip_network
from typing import TYPE_CHECKING, Any

from werkzeug.middleware.proxy_fix import ProxyFix

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment


class TrustedProxies:
    """Believes X-Forwarded headers that came from one of ours, and no others."""

    def __init__(self, app: WSGIApplication, count: int, networks: str) -> None:
        """count: how many stand in a row; networks: as `networks_of` reads them, of the last."""
        self._app, self._believing = app, ProxyFix(app, *[count] * 3)
        self._networks = networks_of(networks)

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        believed = self._is_ours(environ.get("REMOTE_ADDR", ""))
        return (self._believing if believed else self._app)(environ, start_response)

    def _is_ours(self, address: str) -> bool:
        try:
            found = ip_address(address)
        except ValueError:
            return False
        if isinstance(found, IPv6Address) and found.ipv4_mapped:
            found = found.ipv4_mapped
        return any(found in network for network in self._networks)


def networks_of(text: str) -> list[IPv4Network | IPv6Network]:
    """Addresses and networks, separated by commas. Raises ValueError."""
    return [ip_network(each.strip()) for each in text.split(",") if each.strip()]


def install(app: Any, count: int, networks: str) -> None:
    """Let the app believe its proxies, where there are any."""
    if count:
        app.wsgi_app = TrustedProxies(app.wsgi_app, count, networks)


def is_loopback(host: str) -> bool:
    """Whether an IP address, in brackets or not, or a host name is this machine's own."""
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return host == "localhost"

"""Whether an address can be reached from this machine only."""

from __future__ import annotations

import ipaddress


def is_loopback(host: str) -> bool:
    """Whether an IP address, in brackets or not, or a host name is this machine's own."""
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return host == "localhost"

"""Tells the operator's own address what happened, event by event, each at least once, a recipe's in order.

As the Standard Webhooks specification has it: the headers webhook-id, webhook-timestamp and
webhook-signature, the latter "v1," and the base64 of HMAC-SHA256 over "id.timestamp.body" with the shared
secret. One process at a time delivers; where it ended is kept in the store, and moves on only after the
receiver has said 2xx. What it refuses of one recipe (`OF_ONE_EVENT`) holds back that recipe alone; anything
else, no answer among it, holds back all.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import hmac
import ipaddress
import json
import logging
import socket
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import timedelta
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

import certifi
import urllib3

from ..core.errors import SaltledgerError

if TYPE_CHECKING:
    from ..store.database import Database
    from ..store.records import Event

log = logging.getLogger(__name__)

SECRET_PREFIX = "whsec_"
LEAST_SECRET_BYTES = 24
"""What the specification asks of a secret: 24 to 64 bytes."""

CONNECT_SECONDS, READ_SECONDS = 5.0, 15.0
LOOK_EVERY_SECONDS = 1.0
LEASE = timedelta(seconds=60)
MOST_AT_ONCE = 50


OF_ONE_EVENT = frozenset({400, 409, 413, 422})
"""By these a receiver says that it does not take this event; by anything else, that it takes none now."""


class NotDelivered(SaltledgerError):
    """An event that the receiver did not take; reason: in words.

    event_alone: whether it is about this event, not about the receiver. after: when it asks to be tried
    again at the soonest, None where it says nothing of it.
    """

    def __init__(self, reason: str, *, event_alone: bool = False, after: timedelta | None = None) -> None:
        self.reason, self.event_alone, self.after = reason, event_alone, after
        super().__init__(reason)

    def __str__(self) -> str:
        return f"The receiver of webhooks {self.reason}."


class BadWebhook(SaltledgerError):
    """A webhook setting that cannot be used."""

    def __init__(self, setting: str, fault: str) -> None:
        self.setting, self.fault = setting, fault
        super().__init__(setting, fault)

    def __str__(self) -> str:
        return f"{self.setting}: {self.fault}."


def secret_of(text: str) -> bytes:
    """The bytes of a secret as settings give it, "whsec_" and base64. Raises BadWebhook."""
    try:
        if not text.startswith(SECRET_PREFIX):
            raise ValueError
        secret = base64.b64decode(text.removeprefix(SECRET_PREFIX), validate=True)
    except (ValueError, binascii.Error):
        raise BadWebhook("SALTLEDGER_WEBHOOK_SECRET", "wanted whsec_ and base64") from None
    if not LEAST_SECRET_BYTES <= len(secret) <= 64:
        raise BadWebhook("SALTLEDGER_WEBHOOK_SECRET", f"wanted {LEAST_SECRET_BYTES} to 64 bytes")
    return secret


def signature(secret: bytes, message_id: str, timestamp: int, body: bytes) -> str:
    """What the receiver checks: "v1," and base64 of the HMAC-SHA256 of what is sent."""
    signed = f"{message_id}.{timestamp}.".encode() + body
    return "v1," + base64.b64encode(hmac.new(secret, signed, hashlib.sha256).digest()).decode()


@dataclass(frozen=True, slots=True)
class Receiver:
    """Where events go. url: http or https. private: whether it may be an address of a private network."""

    url: str
    secret: bytes = field(repr=False)
    private: bool = False
    now: Callable[[], float] = time.time
    resolve: Callable[..., Any] = socket.getaddrinfo

    def __post_init__(self) -> None:
        parts = urlsplit(self.url)
        if parts.scheme not in ("http", "https") or not parts.hostname or parts.username or parts.password:
            raise BadWebhook(
                "SALTLEDGER_WEBHOOK_URL", "wanted http:// or https:// and a host, without a password"
            )

    def send(self, message_id: str, body: bytes) -> None:
        """Deliver one message, following no redirect. Raises NotDelivered unless the receiver says 2xx."""
        parts = urlsplit(self.url)
        assert parts.hostname is not None
        port = parts.port or (443 if parts.scheme == "https" else 80)
        address = self._address(parts.hostname, port)
        timestamp = int(self.now())
        headers = {
            "Host": parts.netloc,
            "Content-Type": "application/json",
            "User-Agent": "saltledger",
            "webhook-id": message_id,
            "webhook-timestamp": str(timestamp),
            "webhook-signature": signature(self.secret, message_id, timestamp, body),
        }
        target = (parts.path or "/") + (f"?{parts.query}" if parts.query else "")
        # The connection goes to the very address that was looked at: a name may mean another the next moment.
        with _pool(parts.scheme, address, port, parts.hostname) as pool:
            try:
                response = pool.request(
                    "POST", target, body=body, headers=headers, redirect=False, preload_content=False
                )
                response.close()
            except urllib3.exceptions.HTTPError as fault:
                raise NotDelivered(f"could not be reached ({type(fault).__name__})") from None
        if not 200 <= response.status < 300:
            after = _seconds(response.headers.get("Retry-After", ""))
            alone = response.status in OF_ONE_EVENT
            raise NotDelivered(f"answered {response.status}", event_alone=alone, after=after)

    def _address(self, host: str, port: int) -> str:
        """An address of the host that may be called. Raises NotDelivered."""
        try:
            found = self.resolve(host, port, type=socket.SOCK_STREAM)
        except OSError:
            raise NotDelivered("is at a name that cannot be looked up") from None
        addresses = [str(each[4][0]).partition("%")[0] for each in found]
        allowed = [each for each in addresses if self.private or _is_public(each)]
        if not allowed:
            raise NotDelivered(
                "is in a private network; to allow it set SALTLEDGER_WEBHOOK_PRIVATE to allowed"
            )
        return allowed[0]


def _seconds(text: str) -> timedelta | None:
    """A Retry-After in seconds; None for any other, dates among them."""
    return timedelta(seconds=int(text)) if text.isdecimal() and len(text) < 9 else None


_HOLDING_OTHERS = tuple(map(ipaddress.ip_network, ("::/96", "64:ff9b::/96")))
"""IPv6 addresses that stand for the IPv4 address in their last four bytes (RFC 4291, RFC 6052)."""
_NEVER_PUBLIC = tuple(map(ipaddress.ip_network, ("192.0.0.0/24", "64:ff9b:1::/48")))
"""Of a network's own use (RFC 6890, RFC 8215), whatever `is_global` says of them."""


def _is_public(address: str) -> bool:
    found = ipaddress.ip_address(address)
    inner = getattr(found, "ipv4_mapped", None) or getattr(found, "sixtofour", None)
    if any(found in network for network in _HOLDING_OTHERS):
        inner = ipaddress.IPv4Address(int(found) & 0xFFFFFFFF)
    if found.is_multicast or any(found in network for network in _NEVER_PUBLIC):
        return False
    return found.is_global and (inner is None or _is_public(str(inner)))


def _pool(scheme: str, address: str, port: int, host: str) -> urllib3.HTTPConnectionPool:
    timeout = urllib3.Timeout(connect=CONNECT_SECONDS, read=READ_SECONDS)
    if scheme == "http":
        return urllib3.HTTPConnectionPool(address, port, timeout=timeout, retries=False)
    return urllib3.HTTPSConnectionPool(
        address,
        port,
        timeout=timeout,
        retries=False,
        server_hostname=host,
        assert_hostname=host,
        ca_certs=certifi.where(),
    )


def message_of(event: Event) -> bytes:
    """An event as it is sent: its kind as `type`, when it happened, and what the feed gives of it."""
    data = {"id": event.id, "kind": event.kind, "created_at": event.created_at, **event.payload}
    document = {"type": event.kind, "timestamp": event.created_at, "data": data}
    return json.dumps(document, ensure_ascii=False, separators=(",", ":")).encode()


class Deliveries:
    """Carries the feed of a store to a receiver, from where it ended."""

    def __init__(self, database: Callable[[], Database], receiver: Receiver) -> None:
        self._open, self._receiver = database, receiver

    def round(self) -> None:
        """Deliver what has happened since, until there is no more or the receiver does not take it.

        Raises StoreUnavailable, NotDelivered.
        """
        for _ in range(MOST_AT_ONCE):
            if not self._deliver_one():
                return

    def _deliver_one(self) -> bool:
        from ..store import deliveries  # it loads SQLAlchemy

        url = self._receiver.url
        with self._open().read() as connection:
            if not deliveries.any_due(connection, url):
                return False
        with self._open().write() as connection:
            event = deliveries.claim(connection, url, LEASE)
        if event is None:
            return False
        try:
            self._receiver.send(f"event_{event.id}", message_of(event))
        except NotDelivered as fault:
            with self._open().write() as connection:
                if fault.event_alone:
                    deliveries.refused(connection, url, event, fault.after)
                else:
                    deliveries.failed(connection, url, fault.after)
            if not fault.event_alone:
                raise
            told = "Webhook of event %s about %r was refused (%s); that recipe's later events wait for it"
            log.warning(told, event.id, event.payload["key"], fault.reason)
            return True
        with self._open().write() as connection:
            deliveries.done(connection, url, event)
        return True

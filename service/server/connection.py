"""A connection of a worker: its socket, the request that is coming in, and what is still to be sent."""

from __future__ import annotations

import select
import socket
import time
from collections.abc import Callable
from typing import Any

from ..config import Settings

STREAM_BYTES = 1024 * 1024
"""What a streamed answer may be ahead of its reader."""


class TooSlow(TimeoutError):
    """The other end sends or takes less than it must."""


class Outbox:
    """What gunicorn takes for the socket when it writes. Only a streamed answer waits for its reader."""

    def __init__(self, sock: socket.socket) -> None:
        self._sock = sock
        self._kept = bytearray()
        self.sent = 0
        self.most_bytes: int | None = None
        self.most_seconds = 0.0

    def sendall(self, data: bytes) -> None:
        """Send what can be sent now, and keep the rest. Raises OSError: the reader is gone, or TooSlow."""
        self._kept += data
        self.flush()
        while self.most_bytes is not None and len(self._kept) > self.most_bytes:
            if not _wait(self._sock, select.POLLOUT, self.most_seconds):
                raise TooSlow("the answer is not taken")
            self.flush()

    def send(self, data: bytes) -> int:
        self.sendall(data)
        return len(data)

    def flush(self) -> bool:
        """Send what can be sent now; whether nothing is left."""
        while self._kept:
            try:
                sent = self._sock.send(self._kept[:262144])
            except BlockingIOError:
                return False
            del self._kept[:sent]
            self.sent += sent
        return True

    def fileno(self) -> int:
        return self._sock.fileno()

    def shutdown(self, how: int) -> None:
        """Refused: the worker ends connections, not the thread that answers."""
        raise OSError("not here")

    def close(self) -> None:
        """Left to the worker."""


class Inflow:
    """The rest of a streamed body, waited for as long as it comes fast enough."""

    def __init__(self, sock: socket.socket, settings: Settings) -> None:
        self._sock, self._rate = sock, settings.body_rate
        self._patience = float(settings.body_seconds)

    def __call__(self, most_bytes: int) -> bytes:
        """Some bytes, none at the end. Raises TooSlow."""
        began = time.monotonic()
        if not _wait(self._sock, select.POLLIN, self._patience):
            raise TooSlow("the body does not come")
        data = self._sock.recv(most_bytes)
        self._patience += len(data) / self._rate - (time.monotonic() - began)
        return data


class Connection:
    """One client. `sock`, `client` and `server` are what gunicorn's request handling asks for."""

    def __init__(self, sock: socket.socket, client: Any, server: Any) -> None:
        sock.setblocking(False)
        self.socket, self.client, self.server = sock, client, server
        self.sock = Outbox(sock)
        self.arrival: Any = None
        self.since = self.deadline = 0.0
        self.late: Callable[[Connection], None] | None = None
        self.keep = False
        self.to_drain = 0

    @property
    def idle(self) -> bool:
        """Whether nothing of a request has come."""
        return self.arrival.size == 0  # type: ignore[no-any-return]


def _wait(sock: socket.socket, event: int, seconds: float) -> bool:
    poll = select.poll()
    poll.register(sock, event)
    return seconds > 0 and bool(poll.poll(seconds * 1000))

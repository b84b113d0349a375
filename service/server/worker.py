"""A worker that hands a request to a thread only when it is whole, and never lets a thread wait for a reader.

One thread keeps all connections: it reads heads and bodies as they come, sends what answers leave behind, and
ends what takes too long. So slow clients cost memory (bounded), not threads. Batches, which are read as they
are answered, have threads of their own; so has the health of the service, which is answered always.
"""

from __future__ import annotations

import logging
import selectors
import socket
import sys
import time
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from functools import partial
from typing import Any

from gunicorn.http.errors import ParseException
from gunicorn.workers.gthread import ThreadWorker

from ..config import Settings
from ..core.logs import new_request_id
from . import refusals
from .arrival import Arrival
from .connection import STREAM_BYTES, Connection, Inflow

KEEP_SECONDS = 5
"""How long a connection may stay open without a request."""
LINGER_SECONDS = 2.0
"""The same in a worker that is to end: a client may be sending already."""
QUIET_SECONDS = 0.5
"""Without a byte for so long, a client whose body was refused has stopped sending it."""
DRAIN_BYTES = 128 * 1024 * 1024
HELD_BYTES = 64 * 1024 * 1024
"""Of all requests that are coming in to a worker."""
SWEEP_SECONDS = 0.25
ACCEPTS = 8
RECEIVE_BYTES = 256 * 1024

STREAMED = frozenset({("POST", "/v1/batches"), ("POST", "/v1/recipes")})
"""What is read while it is answered."""
HEALTH = "/health/"

log = logging.getLogger("saltledger")


class FrontWorker(ThreadWorker):  # type: ignore[misc]
    """gunicorn's worker with threads, with a front of its own."""

    def init_process(self) -> None:
        self.settings: Settings = self.app.settings
        self.waiting: dict[Connection, None] = {}  # those whose client it is to act, the longest first
        self.held = self.streams = 0
        self.health = ThreadPoolExecutor(2, "health")
        self.streaming = ThreadPoolExecutor(self.settings.batches, "batch")
        # Threads that calculate give way sooner to the one that keeps the connections.
        sys.setswitchinterval(0.001)
        super().init_process()

    def run(self) -> None:
        queue = self.method_queue
        self.poller.register(queue.fileno(), selectors.EVENT_READ, queue.run_callbacks)
        while self.alive and self.is_parent_alive():
            self.set_accept_enabled(self.nr_conns < self.worker_connections or bool(self.waiting))
            self._turn()
        self._finish()

    def _turn(self) -> None:
        self.notify()
        self.wait_for_and_dispatch_events(SWEEP_SECONDS)
        now = time.monotonic()
        for conn in [each for each in self.waiting if each.deadline < now]:
            self._late(conn)

    def _finish(self) -> None:
        """Serve who is here, for as long as a worker that is to end may; take nobody new."""
        self.set_accept_enabled(False)
        now = time.monotonic()
        for conn in self.waiting:
            if conn.idle:
                conn.deadline = min(conn.deadline, now + LINGER_SECONDS)
        while self.nr_conns > 0 and time.monotonic() < now + self.cfg.graceful_timeout:
            self._turn()
        for pool in (self.tpool, self.health, self.streaming):
            pool.shutdown(wait=False)
        self.poller.close()
        self.method_queue.close()
        for listener in self.sockets:
            listener.close()

    # Connections: each waits for its client, or is with a thread.

    def accept(self, listener: Any) -> None:
        for _ in range(ACCEPTS):
            try:
                sock, client = listener.accept()
            except BlockingIOError:
                return
            except OSError as fault:  # it was gone already, or there are no more file descriptors
                log.warning("a connection could not be taken: %s", fault)
                return
            sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self.nr_conns += 1
            self._begin(Connection(sock, client, listener.getsockname()), self.settings.head_seconds)
            while self.nr_conns > self.worker_connections and self.waiting:
                self._evict(next(iter(self.waiting)))

    def _wait(
        self,
        conn: Connection,
        event: int,
        act: Callable[..., None],
        seconds: float,
        late: Callable[..., None],
    ) -> None:
        conn.since = time.monotonic()
        conn.deadline, conn.late = conn.since + seconds, late
        self.waiting[conn] = None
        self.poller.register(conn.socket, event, partial(act, conn))

    def _leave(self, conn: Connection) -> None:
        if conn in self.waiting:
            del self.waiting[conn]
            self.poller.unregister(conn.socket)

    def _late(self, conn: Connection) -> None:
        self._leave(conn)
        assert conn.late is not None
        conn.late(conn)

    def _evict(self, conn: Connection) -> None:
        """Give the place of who has waited longest for its own request to somebody new."""
        if conn.late == self._too_late and not conn.idle:
            self._tell(conn, 503, "too many connections")
        self._drop(conn)

    def _drop(self, conn: Connection) -> None:
        self._leave(conn)
        self.held -= conn.arrival.size
        self.nr_conns -= 1
        conn.arrival.size = 0
        conn.socket.close()

    # A request comes in.

    def _begin(self, conn: Connection, seconds: float, first: bytes = b"") -> None:
        conn.arrival = Arrival(self.cfg, conn.client, self._most_bytes)
        self._wait(conn, selectors.EVENT_READ, self._received, seconds, self._too_late)
        if first:
            self._feed(conn, first)

    def _most_bytes(self, request: Any) -> int | None:
        is_streamed = (request.method, request.path) in STREAMED
        return None if is_streamed else self.settings.body_bytes

    def _received(self, conn: Connection, _: Any) -> None:
        data = _come(conn)
        if data:
            self._feed(conn, data)
        elif data is not None:
            self._drop(conn)

    def _feed(self, conn: Connection, data: bytes) -> None:
        arrival, was_idle, had_head = conn.arrival, conn.idle, conn.arrival.request is not None
        self.held += len(data)
        try:
            ready = arrival.feed(data)
        except ParseException as fault:
            self._leave(conn)
            self._refuse(conn, refusals.status_of(fault), str(fault))
            return
        if ready or self.held > HELD_BYTES:
            self._leave(conn)
            self._hand_on(conn) if ready else self._refuse(conn, 503, "too much is coming in")
        elif arrival.request is not None:
            self._await_body(conn, began=not had_head)
        elif was_idle:
            conn.deadline = time.monotonic() + self.settings.head_seconds

    def _await_body(self, conn: Connection, *, began: bool) -> None:
        if began:
            conn.since = time.monotonic()
            self._go_on(conn)
        grace = self.settings.body_seconds + conn.arrival.size / self.settings.body_rate
        conn.deadline = conn.since + grace

    def _go_on(self, conn: Connection) -> None:
        if conn.arrival.request._expected_100_continue:
            conn.sock.sendall(b"HTTP/1.1 100 Continue\r\n\r\n")

    def _too_late(self, conn: Connection) -> None:
        if conn.idle:
            self._drop(conn)
        else:
            self._refuse(conn, 408, "it came too slowly")

    # A thread answers.

    def _hand_on(self, conn: Connection) -> None:
        arrival = conn.arrival
        if arrival.streamed:
            if self.streams >= self.settings.batches:
                self._refuse(conn, 503, "as many batches as may be are being answered")
                return
            self.streams += 1
            self._go_on(conn)
            arrival.unreader.more = Inflow(conn.socket, self.settings)
            conn.sock.most_bytes, conn.sock.most_seconds = STREAM_BYTES, self.settings.body_seconds
        if not arrival.ended:
            arrival.request.force_close()
        arrival.request._expected_100_continue = False
        conn.keep = False
        answered = self._pool(arrival).submit(self.handle, conn)
        answered.add_done_callback(lambda future: self.method_queue.defer(self.finish_request, conn, future))

    def _pool(self, arrival: Arrival) -> ThreadPoolExecutor:
        if arrival.streamed:
            return self.streaming
        assert arrival.request is not None
        return self.health if arrival.request.path.startswith(HEALTH) else self.tpool

    def handle(self, conn: Connection) -> bool:
        """Answer the request of a connection, in a thread; whether the connection may be kept."""
        try:
            return bool(self.handle_request(conn.arrival.request, conn))
        except (OSError, StopIteration) as fault:
            log.debug("a connection ended early: %s", fault)
        except Exception as fault:
            self.handle_error(conn.arrival.request, conn.sock, conn.client, fault)
        return False

    def handle_error(self, req: Any, client: Any, addr: Any, exc: Exception) -> None:
        log.error("a request could not be answered", exc_info=exc)
        client.sendall(refusals.response(refusals.status_of(exc), new_request_id()))

    def finish_request(self, conn: Connection, fs: Future[bool]) -> None:
        """Send the rest of an answer, then take the next request or part."""
        self.streams -= conn.arrival.streamed
        conn.keep = not fs.cancelled() and fs.exception() is None and fs.result() and conn.arrival.ended
        self._flush(conn)

    def _refuse(self, conn: Connection, status: int, reason: str) -> None:
        conn.keep = False
        if self._tell(conn, status, reason):
            self._flush(conn)
        else:
            self._drop(conn)

    def _tell(self, conn: Connection, status: int, reason: str) -> bool:
        request_id = new_request_id()
        refusals.log_refusal(conn.client, conn.arrival.request, status, reason, request_id)
        try:
            conn.sock.sendall(refusals.response(status, request_id))
        except OSError:
            return False
        return True

    def _flush(self, conn: Connection, _: Any = None) -> None:
        try:
            done = conn.sock.flush()
        except OSError:
            self._drop(conn)
            return
        if done:
            self._leave(conn)
            self._next(conn) if conn.keep else self._part(conn)
            return
        if conn not in self.waiting:
            self._wait(conn, selectors.EVENT_WRITE, self._flush, 0, self._drop)
        conn.deadline = conn.since + self.settings.body_seconds + conn.sock.sent / self.settings.body_rate

    def _next(self, conn: Connection) -> None:
        try:
            first = conn.arrival.rest()
        except Exception as fault:  # trailers, say, that nobody had read yet
            log.debug("a connection cannot go on: %s", fault)
            self._part(conn)
            return
        self.held -= conn.arrival.size
        self._begin(conn, KEEP_SECONDS if self.alive else LINGER_SECONDS, first)

    # A connection ends: what its client still sends is taken and thrown away, so that it reads the answer.

    def _part(self, conn: Connection) -> None:
        conn.to_drain = DRAIN_BYTES
        if conn.arrival.ended:
            self._close_out(conn)
        else:
            self._wait(conn, selectors.EVENT_READ, self._drain, QUIET_SECONDS, self._close_out)

    def _close_out(self, conn: Connection) -> None:
        try:
            conn.socket.shutdown(socket.SHUT_WR)
        except OSError:
            self._drop(conn)
            return
        self._wait(conn, selectors.EVENT_READ, self._drain, LINGER_SECONDS, self._drop)

    def _drain(self, conn: Connection, _: Any) -> None:
        data = _come(conn)
        if data is None:
            return
        conn.to_drain -= len(data)
        if not data or conn.to_drain < 0:
            self._drop(conn)
        elif conn.late == self._close_out:
            conn.deadline = time.monotonic() + QUIET_SECONDS


def _come(conn: Connection) -> bytes | None:
    """What has come on a connection: None for nothing yet, b"" where no more will come."""
    try:
        return conn.socket.recv(RECEIVE_BYTES)
    except BlockingIOError:
        return None
    except OSError:
        return b""

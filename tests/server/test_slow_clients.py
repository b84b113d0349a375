"""Clients that are slow, greedy or silent take nothing from the others: each over a real socket."""

from __future__ import annotations

import json
import socket
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager, suppress
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import requests
from saltledger.http.examples import SHORT

from ..serving import Service, served

BODY = json.dumps(SHORT).encode()
HEAD = b"POST /v1/calculations HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
BATCH = HEAD.replace(b"calculations", b"batches").replace(b"application/json", b"application/x-ndjson")
STATED = HEAD + b"Content-Length: %d\r\n\r\n"
CHUNKED = HEAD + b"Transfer-Encoding: chunked\r\n\r\n"


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    folder = tmp_path_factory.mktemp("slow")
    settings = {"head_seconds": "2", "body_seconds": "2", "connections": "60", "batches": "2"}
    with served(f"sqlite:///{folder / 'store.db'}", folder / "log", **settings) as service:
        yield service


def connect(service: Service) -> socket.socket:
    where = urlsplit(service.url)
    return socket.create_connection((where.hostname, where.port), timeout=20)


def read(sock: socket.socket) -> bytes:
    """All that comes until the other side closes."""
    parts = []
    while data := sock.recv(65536):
        parts.append(data)
    return b"".join(parts)


def ask(service: Service, *parts: bytes, pause: float = 0) -> bytes:
    with closing(connect(service)) as sock:
        for part in parts:
            sock.sendall(part)
            time.sleep(pause)
        return read(sock)


def refusal(answer: bytes, status: int) -> dict[str, object]:
    head, _, body = answer.partition(b"\r\n\r\n")
    assert head.startswith(b"HTTP/1.1 %d " % status), answer
    assert b"application/problem+json" in head
    assert b"Connection: close" in head
    document: dict[str, object] = json.loads(body)
    assert document["status"] == status
    return document


@contextmanager
def many(service: Service, count: int, sends: bytes) -> Iterator[list[socket.socket]]:
    with ExitStack() as stack:
        opened = []
        for _ in range(count):
            opened.append(stack.enter_context(closing(connect(service))))
            opened[-1].sendall(sends)
        yield opened


def answered(opened: list[socket.socket], seconds: float) -> Iterator[bytes]:
    """What has come on each, waiting no longer than so for it."""
    for sock in opened:
        sock.settimeout(seconds)
        with suppress(OSError):
            yield sock.recv(65536)


HALF = {
    "nothing": b"",
    "half a head": HEAD,
    "half a body": STATED % len(BODY) + BODY[:40],
    "half a chunk": CHUNKED + b"%x\r\n" % len(BODY) + BODY[:40],
    "half a batch": BATCH + b"Content-Length: 90000\r\n\r\n" + BODY + b"\n",
}


@pytest.mark.parametrize("half", HALF)
@pytest.mark.parametrize("count", [8, 200])
def test_health_and_work_go_on_beside_slow_clients(service: Service, half: str, count: int) -> None:
    with many(service, count, HALF[half]):
        assert requests.get(f"{service.url}/health/live", timeout=2).status_code == 200
        assert requests.get(f"{service.url}/health/ready", timeout=2).status_code == 200
        assert requests.post(f"{service.url}/v1/calculations", json=SHORT, timeout=10).status_code == 200


def test_clients_that_do_not_read_hold_no_thread(service: Service) -> None:
    request = STATED % len(BODY) + BODY
    with many(service, 24, request * 40):
        assert requests.get(f"{service.url}/health/live", timeout=2).status_code == 200
        assert requests.post(f"{service.url}/v1/calculations", json=SHORT, timeout=20).status_code == 200


@pytest.mark.parametrize(
    "begun", [HEAD, STATED % len(BODY) + BODY[:-1], CHUNKED + b"5\r\nab"], ids=["head", "body", "chunk"]
)
def test_what_does_not_come_in_time_is_told_so(service: Service, begun: bytes) -> None:
    assert "in time" in str(refusal(ask(service, begun), 408)["detail"])


def test_a_batch_that_stops_coming_ends(service: Service) -> None:
    refusal(ask(service, BATCH + b"Content-Length: 90000\r\n\r\n" + BODY), 408)


def test_what_came_of_a_batch_is_answered_before_it_stops(service: Service) -> None:
    answer = ask(service, BATCH + b"Content-Length: 90000\r\n\r\n" + BODY + b"\n")
    assert answer.startswith(b"HTTP/1.1 200 ")
    *_, first, last = (json.loads(line) for line in answer.splitlines() if line.startswith(b"{"))
    assert (first["title"], last["status"]) == (SHORT["title"], 408)


def test_who_says_nothing_is_let_go_of(service: Service) -> None:
    assert ask(service) == b""


@pytest.mark.parametrize(
    ("sent", "status"),
    [
        (b"GET / HTTP/1.1\nHost: localhost\n\n", 400),
        (b"\x16\x03\x01\x02\x00", 400),
        (b"GET /" + b"x" * 9000, 414),
        (b"GET / HTTP/1.1\r\n" + b"A: b\r\n" * 200 + b"\r\n", 431),
        (b"GET / HTTP/1.1\r\nA: " + b"x" * 70_000, 431),
        (b"GET / HTTP/1.1\r\nHost: localhost\r\nA B: c\r\n\r\n", 400),
        (b"GET / HTTP/9.9\r\nHost: localhost\r\n\r\n", 505),
        (HEAD + b"Content-Length: -5\r\n\r\n", 400),
        (HEAD + b"Content-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n", 400),
        (HEAD + b"Transfer-Encoding: hot\r\n\r\n", 501),
        (HEAD + b"Expect: miracles\r\n\r\n", 417),
        (CHUNKED + b"ZZ\r\nab\r\n0\r\n\r\n", 400),
        (CHUNKED + b"-5\r\nabcde\r\n0\r\n\r\n", 400),
        (CHUNKED + b"2\r\nabcde\r\n0\r\n\r\n", 400),
        (CHUNKED + b"1" * 5000, 400),
        (STATED % 2_000_000_000, 413),
    ],
    ids=lambda value: value if isinstance(value, int) else value[-12:].decode("latin-1"),
)
def test_what_the_server_itself_refuses_is_a_problem_too(service: Service, sent: bytes, status: int) -> None:
    assert refusal(ask(service, sent), status)["title"]


def test_a_connection_more_than_there_may_be_takes_the_oldest_place(service: Service) -> None:
    with many(service, 130, HEAD) as opened:
        assert requests.get(f"{service.url}/health/live", timeout=2).status_code == 200
        assert any(answer.startswith(b"HTTP/1.1 503 ") for answer in answered(opened, 0.05))


def test_requests_in_a_row_on_one_connection_are_each_answered(service: Service) -> None:
    plain, last = STATED % len(BODY) + BODY, HEAD + b"Connection: close\r\nContent-Length: 0\r\n\r\n"
    chunked = CHUNKED + b"%x\r\n" % len(BODY) + BODY + b"\r\n0\r\n\r\n"
    answer = ask(service, plain + chunked + plain + last)
    assert answer.count(b"HTTP/1.1 200 OK") == 3
    assert answer.count(b"HTTP/1.1 400 ") == 1


def one_by_one(service: Service) -> bytes:
    request = HEAD + b"Connection: close\r\nTransfer-Encoding: chunked\r\n\r\n" + chunks(BODY, 7)
    with closing(connect(service)) as sock:
        sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        for i in range(len(request)):
            sock.sendall(request[i : i + 1])
        return read(sock)


def chunks(body: bytes, size: int) -> bytes:
    parts = [body[i : i + size] for i in range(0, len(body), size)]
    return b"".join(b"%x;a=b\r\n%s\r\n" % (len(part), part) for part in parts) + b"0\r\nX-Sum: 1\r\n\r\n"


def continued(service: Service) -> bytes:
    head = HEAD + b"Connection: close\r\nExpect: 100-continue\r\nContent-Length: %d\r\n\r\n" % len(BODY)
    with closing(connect(service)) as sock:
        sock.sendall(head)
        assert sock.recv(100) == b"HTTP/1.1 100 Continue\r\n\r\n"
        sock.sendall(BODY)
        return read(sock)


@pytest.mark.parametrize("way", [one_by_one, continued])
def test_a_request_may_come_in_pieces(service: Service, way: Callable[[Service], bytes]) -> None:
    assert way(service).startswith(b"HTTP/1.1 200 OK")


def test_who_waits_to_send_too_much_is_not_asked_to(service: Service) -> None:
    head = HEAD + b"Expect: 100-continue\r\nContent-Length: 100000000\r\n\r\n"
    assert "split the request" in str(refusal(ask(service, head), 413)["detail"])


def test_more_batches_than_may_be_are_asked_to_wait(service: Service, tmp_path: Path) -> None:
    with many(service, 12, BATCH + b"Content-Length: 90000\r\n\r\n") as opened:
        refused = [answer for answer in answered(opened, 0.5) if answer.startswith(b"HTTP/1.1 503 ")]
    assert len(refused) >= 8

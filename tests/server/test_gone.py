"""Work for somebody who has gone is stopped, by a real server and a real socket."""

from __future__ import annotations

import socket
import time
from contextlib import closing
from pathlib import Path
from urllib.parse import urlsplit

import requests

from ..adversary.greedy import recipe
from ..serving import served

LIMITS = {"work_ms": "1000000", "cpu_seconds": "600", "deadline_seconds": "600"}


def test_a_calculation_ends_soon_after_its_caller_has_gone(tmp_path: Path) -> None:
    log = tmp_path / "log"
    body = requests.Request("POST", "http://localhost", json=recipe("soak", 40, 40, 9)).prepare().body
    assert isinstance(body, bytes)
    head = b"POST /v1/calculations HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
    with served(f"sqlite:///{tmp_path}/s.db", log, **LIMITS) as service:
        where = urlsplit(service.url)
        with closing(socket.create_connection((where.hostname, where.port), timeout=20)) as sock:
            sock.sendall(head + b"Content-Length: %d\r\n\r\n" % len(body) + body)
            time.sleep(0.5)
        deadline = time.monotonic() + 20
        while b"/v1/calculations" not in log.read_bytes() and time.monotonic() < deadline:
            time.sleep(0.1)
        told = [line for line in log.read_bytes().splitlines() if b"/v1/calculations" in line]
    assert told
    assert b"503" in told[0]

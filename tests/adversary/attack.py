"""Sending hostile requests, and what every answer must be: never a 5xx, a problem document for a refusal."""

from __future__ import annotations

import json
import socket
from contextlib import closing, suppress

from flask.testing import FlaskClient

from .hostile import NDJSON, Hostile

PATIENCE_SECONDS = 10.0


def fault_of(client: FlaskClient, asked: Hostile) -> str | None:
    """What is wrong with the answer to a hostile request, in words; None where nothing is."""
    response = client.open(asked.path, method=asked.method, data=asked.data, content_type=asked.media_type)
    if response.status_code >= 500:
        return f"{response.status_code} for {asked.method} {asked.path} {asked.data[:300]!r}"
    if asked.media_type == NDJSON and response.status_code == 200:
        documents = [json.loads(line) for line in response.data.splitlines()]
        failed = [each for each in documents if "line" in each and each["status"] >= 500]
        return f"{failed[0]} in {asked.data[:300]!r}" if failed else None
    if response.status_code < 400:
        json.loads(response.data)
        return None
    document = json.loads(response.data)
    is_problem = (
        response.mimetype == "application/problem+json" and document["status"] == response.status_code
    )
    return None if is_problem else f"no problem document for {asked.path} {asked.data[:300]!r}"


def answer_to(address: tuple[str, int], raw: bytes) -> bytes:
    """All that a server sends to raw bytes until it closes, or has answered and waits for more."""
    received = b""
    sock = socket.create_connection(address, timeout=PATIENCE_SECONDS)
    with closing(sock), suppress(ConnectionError, TimeoutError):
        sock.sendall(raw)
        sock.shutdown(socket.SHUT_WR)
        while data := sock.recv(65536):
            received += data
    return received

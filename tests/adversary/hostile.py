"""A hostile corpus, made from small tables: values that no field wants, bodies that are no JSON, raw requests.

Every good body of the API is spoilt at every place by every value, and cut, doubled and garbled as a text.
"""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from saltledger.http.examples import BATH, COMPARISON, LINES, SHORT, TARGET, WRITTEN, recipe_example

JSON, NDJSON = "application/json", "application/x-ndjson"
VERDICT = {"verdict": "signed", "name": "Ines Ware"}
OVERRULE = {
    "reviewer": "Ines Ware",
    "overrules": [{"pointer": "/ingredients/0", "field": "grams", "value": 9, "reason": "weighed"}],
}
GOOD: dict[tuple[str, str], Any] = {
    ("POST", "/v1/calculations"): recipe_example(),
    ("POST", "/v1/lines"): LINES,
    ("POST", "/v1/baths"): BATH,
    ("POST", "/v1/targets"): TARGET,
    ("POST", "/v1/comparisons"): COMPARISON,
    ("POST", "/v1/readings"): WRITTEN,
    ("PUT", "/v1/recipes/hostile"): SHORT,
    ("POST", "/v1/recipes/hostile/sign-offs"): VERDICT,
    ("POST", "/v1/recipes/hostile/overrules"): OVERRULE,
}
"""What each route takes."""

LONG = "x" * 5_000
VALUES: tuple[Any, ...] = (
    None, True, False, 0, -1, 1e-300, 1e308, -1e308, 10**400, "", " ", LONG, "\0", "\u202e", "\ud800", "’", "½ ½ ½",
    "1/0 cup salt", "-3 g salt", "1e999 g salt", "../../etc/passwd", "<script>alert(1)</script>", "'; DROP TABLE recipes;--",
    "{{7*7}}", "%s%n", [], [[]], {}, {"": None}, {"line": {"line": "salt"}}, ["salt"] * 600, [None], "/components/01/ingredients/0",
)  # fmt: skip
LITERALS = (
    b"NaN",
    b"-Infinity",
    b"1" * 5_000,
    b"[" * 3_000,
    b'{"a":' * 3_000,
    b"01",
    b"+1",
    b".5",
    b"'x'",
    b"undefined",
)
"""What is put in place of a value although it is no JSON."""

TEXTS = (
    b"", b" ", b"\n", b"null", b"[]", b"{}", b"0", b'"', b"{", b"\xff\xfe{}", b"\xef\xbb\xbf{}", b"\x00", b"{}{}", b'{"a":1,"a":2}',
    b'{"\\ud800":1}', b"[" * 100_000, b'{"a":' * 50_000, b"\x1f\x8b\x08\x00", b"--x\r\n\r\n", b"a=1&b=2", b"<a/>", b"{}" * 60_000,
)  # fmt: skip
TYPES = (
    "",
    "text/plain",
    "application/json; charset=utf-16",
    "application/xml",
    "multipart/form-data",
    "x/y;" * 50,
    NDJSON,
)
"""Media types that are not what the route takes."""


@dataclass(frozen=True)
class Hostile:
    """A request that wants to break something."""

    method: str
    path: str
    data: bytes
    media_type: str = JSON


def corpus() -> Iterator[Hostile]:
    """Every spoilt body, always the same ones."""
    for (method, path), good in GOOD.items():
        whole = json.dumps(good).encode()
        yield from (Hostile(method, path, data) for data in (*spoilt(good), *TEXTS, *cut(whole)))
        yield from (Hostile(method, path, whole, media_type) for media_type in TYPES)
    lines = [json.dumps(SHORT).encode(), *TEXTS[:16], *(data for data in spoilt(SHORT))]
    for start in range(0, len(lines), 10):
        yield Hostile("POST", "/v1/batches", b"\n".join(lines[start : start + 10]), NDJSON)


def made_up(seed: int) -> Iterator[Hostile]:
    """Without end: bodies spoilt at several places at once, and bytes turned over."""
    rng = random.Random(seed)
    kinds = list(GOOD.items())
    while True:
        (method, path), good = rng.choice(kinds)
        document = copy.deepcopy(good)
        for _ in range(rng.randint(1, 4)):
            document = with_value(document, rng.choice(list(places(document)) or [()]), rng.choice(VALUES))
        data = bytearray(json.dumps(document).encode())
        if rng.random() < 0.3:
            for _ in range(rng.randint(1, 8)):
                data[rng.randrange(len(data))] = rng.randrange(256)
        yield Hostile(method, path, bytes(data))


def spoilt(good: Any) -> Iterator[bytes]:
    """A body with each of its places spoilt in turn."""
    for at, place in enumerate(places(good)):
        yield from (json.dumps(with_value(good, place, value)).encode() for value in VALUES)
        marked = json.dumps(with_value(good, place, "@@")).encode()
        yield marked.replace(b'"@@"', LITERALS[at % len(LITERALS)])


def places(document: Any, place: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The path of every value in a document but the whole."""
    inside = (
        document.items()
        if isinstance(document, dict)
        else enumerate(document)
        if isinstance(document, list)
        else ()
    )
    for key, value in inside:
        yield (*place, key)
        yield from places(value, (*place, key))


def with_value(document: Any, place: tuple[Any, ...], value: Any) -> Any:
    """A copy with another value at a place."""
    if not place:
        return value
    made = copy.deepcopy(document)
    holder = made
    for key in place[:-1]:
        holder = holder[key]
    holder[place[-1]] = value
    return made


def cut(whole: bytes) -> Iterator[bytes]:
    """A body that ends too early."""
    yield from (whole[: len(whole) * part // 8] for part in range(1, 8))


LINE = b"POST /v1/calculations HTTP/1.1\r\n"
HEAD = LINE + b"Host: localhost\r\nContent-Type: application/json\r\n"
RAW = (
    b"\r\n\r\n", b"GET\r\n\r\n", b"GET /\r\n\r\n", b"\x00\x01\x02\r\n\r\n", b"GET / HTTP/9.9\r\n\r\n", b"get / http/1.1\r\n\r\n",
    b"GET /health/live HTTP/1.1\r\n\r\n", b"GET /health/live HTTP/1.0\r\n\r\n", b"GET " + b"/" * 9_000 + b" HTTP/1.1\r\nHost: a\r\n\r\n",
    b"GET /?" + b"a" * 9_000 + b" HTTP/1.1\r\nHost: a\r\n\r\n", b"GET http://other/health/live HTTP/1.1\r\nHost: a\r\n\r\n",
    b"GET /%00 HTTP/1.1\r\nHost: a\r\n\r\n", b"GET /%zz HTTP/1.1\r\nHost: a\r\n\r\n", b"GET /\xff\xfe HTTP/1.1\r\nHost: a\r\n\r\n",
    b"GET /health/live HTTP/1.1\r\nHost: [::1\r\n\r\n", b"GET /health/live HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
    b"GET /health/live HTTP/1.1\r\nHost: a\r\n" + b"X: y\r\n" * 500 + b"\r\n", b"GET / HTTP/1.1\r\nHost: a\r\nX: " + b"y" * 70_000 + b"\r\n\r\n",
    b"GET / HTTP/1.1\r\nHost: a\r\nbad header\r\n\r\n", b"GET / HTTP/1.1\r\nHost: a\r\nX : y\r\n\r\n", b"GET / HTTP/1.1\r\nHost: a\r\nX: y\r\n z\r\n\r\n",
    b"GET / HTTP/1.1\r\nHost: a\r\nX: \x00\r\n\r\n", b"TRACE / HTTP/1.1\r\nHost: a\r\n\r\n", b"CONNECT a:1 HTTP/1.1\r\nHost: a\r\n\r\n",
    b"OPTIONS * HTTP/1.1\r\nHost: a\r\n\r\n", b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",
    HEAD + b"Content-Length: -5\r\n\r\n{}", HEAD + b"Content-Length: 1e3\r\n\r\n{}", HEAD + b"Content-Length: 2, 3\r\n\r\n{}",
    HEAD + b"Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}", HEAD + b"Content-Length: 99999999999999\r\n\r\n{}",
    HEAD + b"Transfer-Encoding: chunked\r\nContent-Length: 2\r\n\r\n0\r\n\r\n", HEAD + b"Transfer-Encoding: gzip\r\n\r\n{}",
    HEAD + b"Transfer-Encoding: chunked\r\n\r\nZZ\r\n{}\r\n0\r\n\r\n", HEAD + b"Transfer-Encoding: chunked\r\n\r\n-5\r\n{}\r\n0\r\n\r\n",
    HEAD + b"Transfer-Encoding: chunked\r\n\r\n" + b"f" * 20 + b"\r\n{}\r\n0\r\n\r\n", HEAD + b"Transfer-Encoding: chunked\r\n\r\n2;" + b"x" * 9_000 + b"\r\n{}\r\n0\r\n\r\n",
    HEAD + b"Transfer-Encoding: chunked\r\n\r\n2\r\n{}XX0\r\n\r\n", HEAD + b"Transfer-Encoding: xchunked\r\n\r\n{}",
    HEAD + b"Expect: 200-maybe\r\nContent-Length: 2\r\n\r\n{}", HEAD + b"Content-Encoding: gzip\r\nContent-Length: 2\r\n\r\n{}",
    HEAD + b"Authorization: Bearer\r\nContent-Length: 2\r\n\r\n{}", HEAD + b"Authorization: \xff\r\nContent-Length: 2\r\n\r\n{}",
    HEAD + b"If-Match: \"\r\nContent-Length: 2\r\n\r\n{}", HEAD + b"Accept: " + b"*/*," * 900 + b"\r\nContent-Length: 2\r\n\r\n{}",
    HEAD + b"Upgrade: websocket\r\nConnection: Upgrade\r\nContent-Length: 2\r\n\r\n{}", HEAD + b"Range: bytes=0-\r\nContent-Length: 2\r\n\r\n{}",
)  # fmt: skip
"""Requests as bytes, each whole as far as its sender goes; a server answers or closes, and lives on."""

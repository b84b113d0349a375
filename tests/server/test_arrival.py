"""What has come of a request, without a socket."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from gunicorn.config import Config
from saltledger.server.arrival import Arrival

HEAD = b"POST /v1/recipes HTTP/1.1\r\nHost: localhost\r\n"
LINE = b'{"key": "soup"}\n'


def streamed(head: bytes, more: Callable[[], bytes]) -> Arrival:
    """A request whose body is read as it is answered, of which the head has come."""
    arrival = Arrival(Config(), ("127.0.0.1", 1), lambda _: None)
    assert arrival.feed(head)
    arrival.unreader.more = lambda _: more()
    return arrival


def nothing() -> bytes:
    raise AssertionError("it waits, though something has come")


STATED = HEAD + b"Content-Length: %d\r\n\r\n" % (2 * len(LINE))
CHUNKED = HEAD + b"Transfer-Encoding: chunked\r\n\r\n"
CHUNK = b"%x\r\n%b\r\n" % (len(LINE), LINE)


@pytest.mark.parametrize(("head", "line"), [(STATED, LINE), (CHUNKED, CHUNK)])
def test_a_body_read_as_it_is_answered_gives_what_has_come(head: bytes, line: bytes) -> None:
    body = streamed(head + line, nothing).request.body
    assert body.read(64 * 1024) == LINE


@pytest.mark.parametrize(
    ("head", "rest"), [(STATED, [LINE + HEAD]), (CHUNKED, [CHUNK[:7], CHUNK[7:] + b"0\r\n\r\n" + HEAD])]
)
def test_it_waits_only_for_what_is_to_come_and_ends_where_the_next_begins(
    head: bytes, rest: list[bytes]
) -> None:
    came: Iterator[bytes] = iter(rest)
    first = LINE if head is STATED else CHUNK
    arrival = streamed(head + first, lambda: next(came))
    found = list(iter(lambda: arrival.request.body.read(64 * 1024), b""))
    assert b"".join(found) == LINE + LINE
    assert arrival.ended
    assert arrival.rest() == HEAD


def test_a_read_gives_no_more_than_was_asked_for() -> None:
    body = streamed(STATED + LINE, nothing).request.body
    assert [body.read(1), body.read(5), body.read(100)] == [LINE[:1], LINE[1:6], LINE[6:]]

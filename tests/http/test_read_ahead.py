"""Reading ahead: every line comes out whole and in order, however the stream is cut into pieces."""

from __future__ import annotations

import io
import threading
from typing import IO, cast

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.http import read_ahead
from saltledger.http.bodies import BrokenBody
from saltledger.http.read_ahead import ReadAhead


class Pieces:
    """A stream that gives one piece at a read, as a socket may; an exception among them is raised."""

    def __init__(self, *pieces: bytes | Exception) -> None:
        self.pieces = list(pieces)

    def read(self, size: int) -> bytes:
        piece = self.pieces.pop(0) if self.pieces else b""
        if isinstance(piece, Exception):
            raise piece
        return piece


def lines(*pieces: bytes | Exception, most: int = 1_000, most_line: int = 100) -> list[bytes | None]:
    return list(ReadAhead(cast(IO[bytes], Pieces(*pieces)), most).lines(most_line))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.binary(min_size=1, max_size=12), max_size=20))
def test_lines_are_those_of_the_whole(pieces: list[bytes]) -> None:
    whole = b"".join(pieces)
    expected = whole.split(b"\n")
    if expected[-1] == b"":
        expected.pop()
    assert lines(*pieces, most_line=10_000) == expected


def test_a_line_too_long_is_none_wherever_it_stands() -> None:
    assert lines(b"a" * 101 + b"\nok\n" + b"b" * 50, b"b" * 60, b"\n" + b"c" * 300) == [
        None,
        b"ok",
        None,
        None,
    ]


def test_a_stream_too_long_is_cut_and_says_so() -> None:
    body = ReadAhead(io.BytesIO(b"x\n" * 1_000), 11)
    assert list(body.lines(100)) == [b"x"] * 5
    assert body.cut


def test_what_reading_raised_is_raised_after_the_lines_before_it() -> None:
    body = ReadAhead(cast(IO[bytes], Pieces(b"one\ntwo\n", OSError("gone"))), 1_000).lines(100)
    assert [next(body), next(body)] == [b"one", b"two"]
    with pytest.raises(BrokenBody):
        next(body)


def test_the_stream_is_read_to_its_end_while_nobody_takes_lines() -> None:
    """The client sends all before it reads: it must never stand still."""
    ended = threading.Event()

    class Watched(io.BytesIO):
        def read(self, size: int | None = -1, /) -> bytes:
            chunk = super().read(size)
            if not chunk:
                ended.set()
            return chunk

    size = 3 * read_ahead.IN_MEMORY_BYTES
    body = ReadAhead(Watched(b"a" * 99 + b"\n" + b"b" * size), size * 2)
    assert ended.wait(20)
    assert next(body.lines(100)) == b"a" * 99


def test_leaving_early_ends_the_reading() -> None:
    body = ReadAhead(io.BytesIO(b"x\n" * 10), 100)
    taken = body.lines(100)
    assert next(taken) == b"x"
    taken.close()
    assert not any(thread.name == "read-ahead" and thread.is_alive() for thread in threading.enumerate())

"""Reading ahead: every line comes out whole and in order, however the stream is cut into pieces."""

from __future__ import annotations

import io
import threading
from collections.abc import Iterator
from typing import IO, cast

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.http import read_ahead
from saltledger.http.bodies import BrokenBody, NoRoom
from saltledger.http.read_ahead import WAITING, Line, ReadAhead, Spool

ROOM = Spool(1_000_000_000)


class Pieces:
    """A stream that gives one piece at a read, as a socket may; an exception among them is raised."""

    def __init__(self, *pieces: bytes | Exception) -> None:
        self.pieces = list(pieces)

    def read(self, size: int) -> bytes:
        piece = self.pieces.pop(0) if self.pieces else b""
        if isinstance(piece, Exception):
            raise piece
        return piece


def come(lines: Iterator[Line]) -> Iterator[Line]:
    """Lines as they come, without the places where the reader was not so far yet, which fall by chance."""
    return (line for line in lines if line is not WAITING)


def lines(*pieces: bytes | Exception, most: int = 1_000, most_line: int = 100) -> list[Line]:
    return list(come(ReadAhead(cast(IO[bytes], Pieces(*pieces)), most, ROOM).lines(most_line)))


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


def test_all_bodies_together_have_so_much_room_and_no_more(monkeypatch: pytest.MonkeyPatch) -> None:
    room = Spool(100)
    first = ReadAhead(io.BytesIO(b"x" * 59 + b"\n"), 1_000, room)
    first._reader.join()
    with pytest.raises(NoRoom):
        list(ReadAhead(io.BytesIO(b"y" * 59 + b"\n"), 1_000, room).lines(100))
    assert list(come(first.lines(100))) == [b"x" * 59]
    assert list(come(ReadAhead(io.BytesIO(b"z" * 99 + b"\n"), 1_000, room).lines(100))) == [b"z" * 99]


def test_a_file_begins_anew_when_its_lines_were_taken() -> None:
    room = Spool(100)
    pieces = [b"x" * 39 + b"\n"] * 25
    handed = iter(pieces)

    class OneByOne(io.BytesIO):
        def read(self, size: int | None = -1) -> bytes:
            taken.acquire()
            return next(handed, b"")

    taken = threading.Semaphore(1)
    found = []
    for line in ReadAhead(OneByOne(), 10_000, room).lines(100):
        if line is not WAITING:
            found.append(line)
            taken.release()
    assert found == [b"x" * 39] * 25


def test_a_full_disk_is_no_room(monkeypatch: pytest.MonkeyPatch) -> None:
    class Full(io.BytesIO):
        def write(self, data: object) -> int:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(read_ahead, "SpooledTemporaryFile", lambda max_size: Full())
    with pytest.raises(NoRoom):
        list(ReadAhead(io.BytesIO(b"x\n"), 1_000, ROOM).lines(100))


def test_a_stream_too_long_is_cut_and_says_so() -> None:
    body = ReadAhead(io.BytesIO(b"x\n" * 1_000), 11, ROOM)
    assert list(come(body.lines(100))) == [b"x"] * 5
    assert body.cut


def test_what_reading_raised_is_raised_after_the_lines_before_it() -> None:
    body = come(ReadAhead(cast(IO[bytes], Pieces(b"one\ntwo\n", OSError("gone"))), 1_000, ROOM).lines(100))
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
    body = ReadAhead(Watched(b"a" * 99 + b"\n" + b"b" * size), size * 2, ROOM)
    assert ended.wait(20)
    assert next(come(body.lines(100))) == b"a" * 99


def test_leaving_early_ends_the_reading() -> None:
    body = ReadAhead(io.BytesIO(b"x\n" * 10), 100, ROOM)
    taken = body.lines(100)
    assert next(come(taken)) == b"x"
    taken.close()
    assert not any(thread.name == "read-ahead" and thread.is_alive() for thread in threading.enumerate())


def test_what_there_is_no_room_for_is_still_taken() -> None:
    """The client must come to the end of its sending before it reads that there was no room."""
    stream = io.BytesIO(b"x\n" * 200_000)
    body = ReadAhead(stream, 1_000_000, Spool(100_000))
    body._reader.join(10)
    assert not stream.read()
    with pytest.raises(NoRoom):
        list(body.lines(100))


def test_what_a_full_disk_lost_is_not_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    class Forgetful(io.BytesIO):
        def read(self, size: int | None = -1) -> bytes:
            return b""

    monkeypatch.setattr(read_ahead, "SpooledTemporaryFile", lambda max_size: Forgetful())
    with pytest.raises(NoRoom):
        list(ReadAhead(io.BytesIO(b"x\n"), 1_000, ROOM).lines(100))

"""What has come of a request: its head, read by gunicorn's own parser, and how much of its body is to come.

Nothing here waits. Bytes are fed in as they come, and an arrival says when the request can be handed on: when
it is whole, or when waiting for more would be in vain (it is too long, malformed, or read as it is answered).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, Protocol

from gunicorn.http.body import Body as WholeBody
from gunicorn.http.body import ChunkedReader
from gunicorn.http.errors import InvalidRequestLine, LimitRequestHeaders, NoMoreData
from gunicorn.http.message import Request
from gunicorn.http.unreader import Unreader

LONGEST_HEAD = 64 * 1024
LONGEST_CHUNK_LINE = 4096
LONGEST_TRAILERS = 8192

_BARE_LINE_END = re.compile(rb"(?<!\r)\n")
_SIZE = re.compile(rb"[0-9A-Fa-f]{1,15}[ \t]*(;.*)?\Z", re.DOTALL)


class Fed(Unreader):  # type: ignore[misc]
    """The bytes of a connection that came, for gunicorn's parser; `more`, where set, waits for others."""

    def __init__(self) -> None:
        super().__init__()
        self.more: Callable[[int], bytes] | None = None

    def chunk(self, size_hint: int | None = None) -> bytes:
        return self.more(size_hint or 8192) if self.more else b""

    def append(self, data: bytes) -> None:
        """Put bytes behind those that wait."""
        self.buf.seek(0, 2)
        self.buf.write(data)


class Body(Protocol):
    """How much of a body has come. ended: it is whole; vain: it never will be, or may not."""

    ended: bool
    vain: bool

    def feed(self, data: bytes) -> None: ...


class StatedBody:
    """A body of a length that the head states."""

    def __init__(self, length: int, most_bytes: int) -> None:
        self._left = length
        self.ended, self.vain = length == 0, length > most_bytes

    def feed(self, data: bytes) -> None:
        self._left -= len(data)
        self.ended = self._left <= 0


class ChunkedBody:
    """A body in chunks, followed only as far as needed to know where it ends and how long it is."""

    def __init__(self, most_bytes: int) -> None:
        self.ended = self.vain = False
        self._room, self._most_raw = most_bytes, 2 * most_bytes + LONGEST_HEAD
        self._waiting = bytearray()
        self._in_chunk, self._after_chunk = 0, False
        self._trailers: int | None = None

    def feed(self, data: bytes) -> None:
        self._most_raw -= len(data)
        self._waiting += data
        while not (self.ended or self.vain) and (self._skip_data() if self._in_chunk else self._read_line()):
            pass
        self.vain = self.vain or self._most_raw < 0

    def _skip_data(self) -> bool:
        came = min(self._in_chunk, len(self._waiting))
        self._room -= came
        self._in_chunk -= came
        del self._waiting[:came]
        self._after_chunk = self._in_chunk == 0
        self.vain = self._room < 0
        return came > 0

    def _read_line(self) -> bool:
        end = self._waiting.find(b"\r\n")
        if end < 0:
            most = 1 if self._after_chunk else LONGEST_CHUNK_LINE
            self.vain = len(self._waiting) > most
            return False
        line = bytes(self._waiting[:end])
        del self._waiting[: end + 2]
        if self._after_chunk:
            self._after_chunk, self.vain = False, bool(line)
        elif self._trailers is not None:
            self._read_trailer(line)
        elif _SIZE.match(line):
            self._begin(int(line.partition(b";")[0], 16))
        else:
            self.vain = True
        return True

    def _begin(self, size: int) -> None:
        self._in_chunk = size
        self._trailers = None if size else 0

    def _read_trailer(self, line: bytes) -> None:
        assert self._trailers is not None
        self._trailers += len(line) + 2
        self.ended, self.vain = not line, self._trailers > LONGEST_TRAILERS


class ComingBody(WholeBody):  # type: ignore[misc]
    """A body that is read while it is answered: a read gives what has come, and waits where nothing has.

    gunicorn's own waits until it has all that was asked for; who sends a line and waits for its answer would
    wait for ever.
    """

    def read(self, size: int | None = None) -> bytes:
        if size is None or size < 1 or self.buf.tell():
            return bytes(super().read(size))
        first = bytes(self._read_reader(1))
        if not first:
            return first
        chunked = isinstance(self.reader, ChunkedReader)
        came = (self.reader if chunked else self.reader.unreader).buf.getbuffer().nbytes
        return first + bytes(self._read_reader(min(size - 1, came)))


class Arrival:
    """One request on its way. request: its head as gunicorn reads it, None until that has come."""

    def __init__(self, cfg: Any, client: Any, most_bytes: Callable[[Request], int | None]) -> None:
        """most_bytes: the longest body that a request may have; None: it is read as it is answered."""
        self._cfg, self._client, self._most_bytes = cfg, client, most_bytes
        self.unreader = Fed()
        self.request: Request | None = None
        self.body: Body | None = None
        self.size = 0
        self._head, self._lines = bytearray(), 0

    @property
    def streamed(self) -> bool:
        """Whether the body is read while it is answered."""
        return self.request is not None and self.body is None

    @property
    def ended(self) -> bool:
        """Whether all of it has come."""
        if self.body is not None or self.request is None:
            return self.body is not None and self.body.ended
        reader = self.request.body.reader
        return reader.parser is None if isinstance(reader, ChunkedReader) else reader.length == 0

    def feed(self, data: bytes) -> bool:
        """Take bytes that came; whether the request can be handed on.

        Raises gunicorn's ParseException: the head is malformed or too long.
        """
        self.size += len(data)
        if self.request is None:
            if not self._head_can_be_read(data):
                return False
            self._read_head()
        else:
            self.unreader.append(data)
            self._follow(data)
        return self.body is None or self.body.ended or self.body.vain

    def rest(self) -> bytes:
        """What came after the request: the beginning of the next."""
        assert self.request is not None
        while self.request.body.read(65536):
            pass
        left: bytes = self.unreader.take_buffered()
        return left

    def _head_can_be_read(self, data: bytes) -> bool:
        # Beyond a whole head: one that the parser refuses as it is, so that nobody waits for its end. Only
        # what is new is looked at, or bytes that come one by one would cost more with every byte.
        old = bytes(self._head[-3:])
        new = old + data
        self._head += data
        self._lines += data.count(b"\n")
        return (
            b"\r\n\r\n" in new
            or len(self._head) > LONGEST_HEAD
            or bool(_BARE_LINE_END.search(new, len(old)))
            or (not self._lines and len(self._head) > self._cfg.limit_request_line + 2)
            or not (self._head[:1].isalpha() or self._head[:1] == b"\r")
        )

    def _read_head(self) -> None:
        self.unreader.append(bytes(self._head))
        try:
            self.request = Request(self._cfg, self.unreader, self._client)
        except (NoMoreData, StopIteration) as fault:
            if len(self._head) > LONGEST_HEAD:
                raise LimitRequestHeaders("the head does not end") from fault
            raise InvalidRequestLine("this is not HTTP") from fault
        most_bytes = self._most_bytes(self.request)
        if most_bytes is None:
            self.request.body = ComingBody(self.request.body.reader)
        else:
            reader = self.request.body.reader
            chunked = isinstance(reader, ChunkedReader)
            self.body = ChunkedBody(most_bytes) if chunked else StatedBody(reader.length, most_bytes)
            self._follow(self.unreader.buf.getvalue())

    def _follow(self, data: bytes) -> None:
        if self.body is not None and data:
            self.body.feed(data)

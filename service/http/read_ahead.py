"""Reading a request's body ahead of the answer, so that neither side waits on the other.

A client that sends a long body before it reads would stand still for ever against a server that answers
line by line: both buffers fill. So a thread reads all that comes into a spool (memory first, then a
temporary file), while lines are taken from its other end. What all requests of a process have in such files
is bounded, and a file begins anew whenever its lines have been taken.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from enum import Enum
from tempfile import SpooledTemporaryFile
from threading import Condition, Lock, Thread
from typing import IO

from flask import Flask
from werkzeug.exceptions import HTTPException

from .bodies import NoRoom, read

CHUNK_BYTES = 64 * 1024
DISCARDED_BYTES = 128 * 1024 * 1024
IN_MEMORY_BYTES = 4 * 1024 * 1024


class Waiting(Enum):
    """What stands among lines where no more has come as yet."""

    WAITING = "waiting"


WAITING = Waiting.WAITING
Line = bytes | None | Waiting


class Spool:
    """The room that all requests of a process have for what they read ahead."""

    def __init__(self, most_bytes: int) -> None:
        self._left = most_bytes
        self._lock = Lock()

    def take(self, count: int) -> None:
        """Raises NoRoom."""
        with self._lock:
            if count > self._left:
                raise NoRoom
            self._left -= count

    def give_back(self, count: int) -> None:
        with self._lock:
            self._left += count


def register(app: Flask) -> None:
    """Give the app the room of its process."""
    app.extensions["saltledger-spool"] = Spool(app.extensions["saltledger"].spool_bytes)


class ReadAhead:
    """The lines of a stream that is read as fast as it comes."""

    def __init__(self, stream: IO[bytes], most_bytes: int, room: Spool) -> None:
        """most_bytes: where a longer stream is cut off, with the line that is not whole; `cut` says so."""
        self.cut = False
        self._room = room
        self._stream, self._most_bytes = stream, most_bytes
        self._spool = SpooledTemporaryFile(max_size=IN_MEMORY_BYTES)  # noqa: SIM115  # closed by `lines`
        self._written = self._read = self._begins = self._taken = 0
        self._done = False
        self._fault: BaseException | None = None
        self._changed = Condition()
        self._abandoned = False
        self._reader = Thread(target=self._fill, name="read-ahead", daemon=True)
        self._reader.start()

    def lines(self, most_bytes: int) -> Iterator[Line]:
        """Every line without its end; None for one longer than `most_bytes`, whose text is not kept; WAITING
        whenever no more has come as yet, so that nobody who waits for answers is left waiting.

        Raises what reading the stream raised, after the lines that came whole before it.
        """
        held = bytearray()
        too_long = False
        try:
            for chunk in self._chunks():
                if not chunk:
                    yield WAITING
                    continue
                *ends, rest = chunk.split(b"\n")
                for end in ends:
                    held += end
                    yield None if too_long or len(held) > most_bytes else bytes(held)
                    held, too_long = bytearray(), False
                held += rest
                if len(held) > most_bytes:
                    held, too_long = bytearray(), True
            if (held or too_long) and not self.cut:
                yield None if too_long else bytes(held)
        finally:
            self._abandoned = True
            self._reader.join()
            self._room.give_back(self._taken)
            with suppress(OSError):  # what could not be written cannot be written now either
                self._spool.close()

    def _chunks(self) -> Iterator[bytes]:
        """What has come, part by part; nothing whenever it has to be waited for."""
        while True:
            with self._changed:
                waits = self._read == self._written and not self._done
            if waits:
                yield b""
            with self._changed:
                self._changed.wait_for(lambda: self._read < self._written or self._done)
                if self._read == self._written:
                    break
                chunk = self._take()
            yield chunk
        if self._fault is not None:
            raise self._fault

    def _take(self) -> bytes:
        with _no_room_where_the_disk_is_full():
            self._spool.seek(self._read - self._begins)
            chunk = self._spool.read(min(CHUNK_BYTES, self._written - self._read))
            if not chunk:  # lost with a disk that filled up while the file was made
                raise NoRoom
            self._read += len(chunk)
            if self._read == self._written:
                self._begin_anew()
        return chunk

    def _begin_anew(self) -> None:
        self._spool.seek(0)
        self._spool.truncate()
        self._room.give_back(self._taken)
        self._taken = 0
        self._begins = self._written

    def _fill(self) -> None:
        try:
            while not self._abandoned and (chunk := read(self._stream, CHUNK_BYTES)):
                room = self._most_bytes - self._written
                self.cut = len(chunk) > room
                self._keep(chunk[:room])
                if self.cut:
                    break
        except Exception as fault:  # handed on to the thread that answers
            self._fault = fault
        finally:
            with self._changed:
                self._done = True
                self._changed.notify()
        if self.cut or isinstance(self._fault, NoRoom):
            self._discard()

    def _discard(self) -> None:
        """Take what still comes, or a client that sends all before it reads would never come to read."""
        left = DISCARDED_BYTES
        with suppress(HTTPException):
            while not self._abandoned and left > 0 and (chunk := read(self._stream, CHUNK_BYTES)):
                left -= len(chunk)

    def _keep(self, chunk: bytes) -> None:
        with self._changed, _no_room_where_the_disk_is_full():
            self._room.take(len(chunk))
            self._taken += len(chunk)
            self._spool.seek(self._written - self._begins)
            self._spool.write(chunk)
            self._spool.flush()
            self._written += len(chunk)
            self._changed.notify()


@contextmanager
def _no_room_where_the_disk_is_full() -> Iterator[None]:
    try:
        yield
    except OSError as fault:
        raise NoRoom from fault

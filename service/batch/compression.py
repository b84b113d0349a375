"""Gzip and Zstandard: told apart by their first bytes where they come in, written in parts that stand alone.

Parts written one after another make one file that every reader of the format takes, and such a file may be
cut off between two of them. That is what lets a long run go on where it was stopped.
"""

from __future__ import annotations

import gzip
import io
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any, Literal, cast

import zstandard

from ..core.errors import SaltledgerError

Compression = Literal["none", "gzip", "zstd"]

SUFFIXES: dict[str, Compression] = {".gz": "gzip", ".zst": "zstd"}
_BEGINNINGS: dict[bytes, Compression] = {b"\x1f\x8b": "gzip", zstandard.FRAME_HEADER: "zstd"}

GZIP_LEVEL, ZSTD_LEVEL = 4, 3
READ_BYTES = 256 * 1024
FRAME_BYTES = 1024
"""Of Zstandard, so much is unpacked at once: four bytes can hold 128 KiB, and memory is to stay bounded."""


class BrokenInput(SaltledgerError):
    """Compressed bytes that end too early, or are none."""

    def __str__(self) -> str:
        return "The input is compressed and cannot be read to its end; use a whole copy of it."


def named(file: Path) -> Compression:
    """How a file of this name is compressed."""
    return SUFFIXES.get(file.suffix, "none")


def found_in(beginning: bytes) -> Compression:
    """How bytes are compressed, by the first of them."""
    return next((how for mark, how in _BEGINNINGS.items() if beginning.startswith(mark)), "none")


def reading(source: IO[bytes], how: Compression | None = None) -> IO[bytes]:
    """What a stream holds, unpacked as it is read. how: None where its first bytes say it.

    Reading from it raises what `told` makes BrokenInput of.
    """
    buffered = (
        source if isinstance(source, io.BufferedReader) else io.BufferedReader(cast(io.RawIOBase, source))
    )
    match how or found_in(buffered.peek(4)[:4]):
        case "gzip":
            return cast("IO[bytes]", gzip.GzipFile(fileobj=buffered))
        case "zstd":
            return io.BufferedReader(_Frames(buffered), READ_BYTES)
    return buffered


class _Frames(io.RawIOBase):
    """The content of Zstandard frames; the library's own reader takes a frame that breaks off for its end."""

    def __init__(self, source: IO[bytes]) -> None:
        self._source, self._unpacker = source, zstandard.ZstdDecompressor().decompressobj()
        self._begun, self._held, self._rest = False, b"", b""

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: Any) -> int:
        while not self._held and (packed := self._rest or self._source.read(FRAME_BYTES)):
            if self._unpacker.eof:
                self._unpacker = zstandard.ZstdDecompressor().decompressobj()
            self._held, self._begun = self._unpacker.decompress(packed), True
            self._rest = self._unpacker.unused_data
        if not self._held and self._begun and not self._unpacker.eof:
            raise EOFError
        given, self._held = self._held[: len(buffer)], self._held[len(buffer) :]
        buffer[: len(given)] = given
        return len(given)


@contextmanager
def told() -> Iterator[None]:
    """Raises BrokenInput for what reading compressed bytes that are not whole raises."""
    try:
        yield
    except (EOFError, gzip.BadGzipFile, zlib.error, zstandard.ZstdError) as fault:
        raise BrokenInput from fault


def packed(part: bytes, how: Compression) -> bytes:
    """Bytes as a part of a file that is compressed so."""
    match how:
        case "gzip":
            return gzip.compress(part, GZIP_LEVEL, mtime=0)
        case "zstd":
            return zstandard.ZstdCompressor(ZSTD_LEVEL, write_checksum=True).compress(part)
    return part

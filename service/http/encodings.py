"""Compressed bodies: requests of many lines, their answers, and the pages (RFC 9110, 8.4)."""

from __future__ import annotations

import gzip
import io
import zlib
from collections.abc import Iterator
from typing import IO, Literal, cast

import zstandard
from flask import Flask, Response, request
from werkzeug.exceptions import UnsupportedMediaType

from ..batch.compression import GZIP_LEVEL, ZSTD_LEVEL, BrokenInput, reading, told
from .bodies import BrokenPacking

Encoding = Literal["gzip", "zstd"]
ENCODINGS: tuple[Encoding, ...] = ("zstd", "gzip")

SMALLEST_BYTES = 1000
"""Of pages; below that compressing saves next to nothing."""


class _Unpacked:
    """The body of a request, unpacked as it is read. Reading raises BrokenPacking."""

    def __init__(self, stream: IO[bytes], how: Encoding) -> None:
        self._stream, self._how = stream, how
        self._opened: IO[bytes] | None = None

    def read(self, size: int = -1) -> bytes:
        try:
            with told():
                self._opened = self._opened or reading(self._stream, self._how)
                return cast(io.BufferedReader, self._opened).read1(size)
        except BrokenInput as fault:
            raise BrokenPacking from fault


def unpacked(stream: IO[bytes]) -> IO[bytes]:
    """The body of the current request as it was before it was compressed. Raises UnsupportedMediaType."""
    how = request.headers.get("Content-Encoding", "identity").strip().lower()
    if how == "identity":
        return stream
    if how not in ENCODINGS:
        raise UnsupportedMediaType(
            f"Found Content-Encoding {how[:40]}, wanted {' or '.join(ENCODINGS)}, or none."
        )
    return cast("IO[bytes]", _Unpacked(stream, how))


def streamed(response: Response) -> Response:
    """A response whose parts are compressed as they come, where the caller accepts that."""
    response.vary.add("Accept-Encoding")
    how = _accepted(ENCODINGS)
    if how is not None:
        response.response = _packed(cast("Iterator[bytes]", response.response), how)
        response.headers["Content-Encoding"] = how
    return response


def _accepted(offered: tuple[Encoding, ...]) -> Encoding | None:
    """The first of these that the caller names, and wants as much as any other."""
    quality = {each: request.accept_encodings.quality(each) for each in offered}
    best = max(quality.values())
    named = any(value != "identity" for value, _ in request.accept_encodings)
    return next(each for each in offered if quality[each] == best) if named and best > 0 else None


def _packed(parts: Iterator[bytes], how: Encoding) -> Iterator[bytes]:
    """Parts compressed so that each can be read when it has come."""
    if how == "gzip":
        packer = zlib.compressobj(GZIP_LEVEL, zlib.DEFLATED, 16 + zlib.MAX_WBITS)
        for part in parts:
            yield packer.compress(part) + packer.flush(zlib.Z_SYNC_FLUSH)
        yield packer.flush()
        return
    writer = zstandard.ZstdCompressor(ZSTD_LEVEL).compressobj()
    for part in parts:
        yield writer.compress(part) + writer.flush(zstandard.COMPRESSOBJ_FLUSH_BLOCK)
    yield writer.flush()


def register(app: Flask) -> None:
    """Compress pages for those who accept it."""
    app.after_request(_compress_page)


def _compress_page(response: Response) -> Response:
    if response.mimetype != "text/html" or response.is_streamed or "Content-Encoding" in response.headers:
        return response
    response.vary.add("Accept-Encoding")
    if response.status_code == 200 and _accepted(("gzip",)) and response.content_length is not None:
        body = response.get_data()
        if len(body) >= SMALLEST_BYTES:
            response.set_data(gzip.compress(body, GZIP_LEVEL, mtime=0))
            response.headers["Content-Encoding"] = "gzip"
    return response

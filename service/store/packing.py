"""Answers as they are kept: JSON in UTF-8, compressed by Zstandard to about a quarter."""

from __future__ import annotations

import hashlib
import json
import threading
from typing import Any

import orjson
import zstandard
from sqlalchemy import LargeBinary
from sqlalchemy.types import TypeDecorator

from ..core.documents import json_bytes
from ..core.errors import StoreUnavailable

LEVEL = 1
"""Levels above save 3 % of the room and take half as long again."""


class UnreadableDocument(StoreUnavailable):
    """What stands in the store was put there past the service; `saltledger verify` names it."""


class Packed(bytes):
    """A document that is packed already, as a process that only prepared it hands it on."""


def text_of(document: Any) -> bytes:
    """A JSON document as the text by which it is kept: packing its text and unpacking gives the same text."""
    try:
        return json_bytes(document)
    except TypeError:  # a name or number that orjson does not take, and gives back otherwise
        return json_bytes(orjson.loads(json.dumps(document, ensure_ascii=False)))


def text_sha256(text: bytes) -> str:
    """The fingerprint of a document by its text, keys in the order in which they stand."""
    return hashlib.sha256(text).hexdigest()


def packed(document: Any) -> Packed:
    """A JSON document, packed."""
    return packed_text(text_of(document))


def packed_text(text: bytes) -> Packed:
    """A document whose text is at hand, packed."""
    return Packed(_compressor().compress(text))


def _compressor() -> zstandard.ZstdCompressor:
    """Making one takes as long as packing a short answer, and no two threads may use one at a time."""
    try:
        made: zstandard.ZstdCompressor = _own.compressor
    except AttributeError:
        made = _own.compressor = zstandard.ZstdCompressor(LEVEL)
    return made


_own = threading.local()


def unpacked(kept: bytes) -> Any:
    """The document that was packed, key for key. Raises UnreadableDocument: nobody packed it so."""
    try:
        return orjson.loads(unpacked_text(kept))
    except (TypeError, ValueError, zstandard.ZstdError) as fault:
        raise UnreadableDocument(f"A document of the store cannot be read: {fault}") from fault


def unpacked_text(kept: bytes) -> bytes:
    """The text of a document that was packed. Raises zstandard.ZstdError: nobody packed it so."""
    return zstandard.ZstdDecompressor().decompress(kept)


class PackedJson(TypeDecorator[Any]):
    """A column of JSON documents that are kept packed."""

    impl = LargeBinary
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Any) -> bytes | None:
        if value is None or isinstance(value, Packed):
            return value
        return packed(value)

    def process_result_value(self, value: Any, dialect: Any) -> Any:
        return None if value is None else unpacked(value)

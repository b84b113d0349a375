"""Answers as they are kept: JSON in UTF-8, compressed by Zstandard to about a quarter."""

from __future__ import annotations

import json
from typing import Any

import orjson
import zstandard
from sqlalchemy import LargeBinary
from sqlalchemy.types import TypeDecorator

from ..core.documents import json_bytes
from ..core.errors import StoreUnavailable

LEVEL = 3


class UnreadableDocument(StoreUnavailable):
    """What stands in the store was put there past the service; `saltledger verify` names it."""


class Packed(bytes):
    """A document that is packed already, as a process that only prepared it hands it on."""


def packed(document: Any) -> Packed:
    """A JSON document, packed; a name or number that orjson does not take is written by json."""
    try:
        text = json_bytes(document)
    except TypeError:
        text = json.dumps(document, ensure_ascii=False, separators=(",", ":")).encode()
    return Packed(zstandard.ZstdCompressor(LEVEL).compress(text))


def unpacked(kept: bytes) -> Any:
    """The document that was packed, key for key. Raises UnreadableDocument: nobody packed it so."""
    try:
        return orjson.loads(zstandard.ZstdDecompressor().decompress(kept))
    except (TypeError, ValueError, zstandard.ZstdError) as fault:
        raise UnreadableDocument(f"A document of the store cannot be read: {fault}") from fault


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

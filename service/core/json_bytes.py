"""Documents as bytes of JSON, in the order in which they were made, in UTF-8 and without spaces."""

from __future__ import annotations

from typing import Any

import orjson


def json_bytes(document: Any) -> bytes:
    """A document as JSON. A figure in it must be finite (`documents.figure` sees to that): NaN would become
    null.

    Raises orjson.JSONEncodeError (a TypeError): something in it is no JSON.
    """
    return orjson.dumps(document, option=orjson.OPT_SERIALIZE_NUMPY)


def json_line(document: Any) -> bytes:
    """The same with a line end behind it: the body of an answer, or a line of newline-delimited JSON."""
    return orjson.dumps(document, option=orjson.OPT_SERIALIZE_NUMPY | orjson.OPT_APPEND_NEWLINE)

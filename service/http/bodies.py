"""Bodies of unstated length (chunked): read whole and held to the limit before anything is made of them."""

from __future__ import annotations

from io import BytesIO
from typing import IO

from flask import Flask, request
from werkzeug.exceptions import BadRequest, HTTPException, RequestEntityTooLarge, RequestTimeout

STREAMED = frozenset({"batches.answer_batch", "recipes.save_recipes"})
"""Routes that read their bodies themselves, while they answer."""


class NoRoom(HTTPException):
    """What is read ahead of the answers fills the disk, or more of it than it may."""

    code = 507
    description = "There is no room here to take the request just now; send a smaller one, or send it later."


class BrokenPacking(BadRequest):
    """A compressed body that cannot be unpacked to its end."""

    def __init__(self) -> None:
        super().__init__(
            "The body is compressed and breaks off, or is no such data; send a whole copy of it."
        )


class BrokenBody(BadRequest):
    """A body that did not come as its framing said: a chunk size that is no number, no end."""

    description = "The body broke off, or its chunks are malformed; send it again, whole."


def register(app: Flask) -> None:
    """Read such bodies for the app's routes. To be registered after what refuses callers."""
    app.before_request(_read_unstated)


def read(stream: IO[bytes], most_bytes: int) -> bytes:
    """At most `most_bytes` more of a request's body. Raises BrokenBody, RequestTimeout."""
    try:
        return stream.read(most_bytes)
    except (RequestEntityTooLarge, BrokenPacking):
        raise
    except Exception as fault:  # each server has errors of its own for what a client sent wrongly
        if isinstance(fault, TimeoutError) or isinstance(fault.__context__, TimeoutError):
            raise RequestTimeout("The body came too slowly; send it again, faster, or in parts.") from fault
        raise BrokenBody from fault


def _read_unstated() -> None:
    if request.endpoint is None or request.endpoint in STREAMED:
        return
    environ, most_bytes = request.environ, request.max_content_length
    if request.content_length is not None or not environ.get("wsgi.input_terminated") or most_bytes is None:
        return
    # One byte more than the limit tells a body that fills it from one that goes on.
    body = read(environ["wsgi.input"], most_bytes + 1)
    if len(body) > most_bytes:
        raise RequestEntityTooLarge
    environ["wsgi.input"], environ["CONTENT_LENGTH"] = BytesIO(body), str(len(body))
    environ.pop("HTTP_TRANSFER_ENCODING", None)

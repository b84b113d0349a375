"""Newline-delimited JSON in and out, streamed: how routes read lines and answer them one by one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextvars import copy_context

from flask import Flask, Response, current_app, request, stream_with_context
from werkzeug.exceptions import HTTPException, RequestEntityTooLarge, UnsupportedMediaType

from ..batch.standing_pool import StandingPool
from ..config import Settings
from ..core.assumptions import rows_in_force
from ..core.documents import json_line
from ..gate.problem_details import problem
from ..jobs.rounds import Rounds
from . import encodings, media_types
from .problems import problem_of
from .read_ahead import Line, ReadAhead

MEDIA_TYPE = "application/x-ndjson"


def answered(answer_each: Callable[[Iterator[Line]], Iterator[bytes]], wanted: str) -> Response:
    """The response that answers the lines of the request while they come.

    The body may be compressed, and so is the answer where that is accepted; all limits are of unpacked bytes.
    wanted: what a line is to be, in words. Raises UnsupportedMediaType, NotAcceptable, RequestEntityTooLarge.
    """
    if request.mimetype != MEDIA_TYPE:
        raise UnsupportedMediaType(
            f"Found Content-Type {request.content_type or '(none)'}, wanted {MEDIA_TYPE}: {wanted} a line."
        )
    media_types.negotiate([MEDIA_TYPE])
    settings: Settings = current_app.extensions["saltledger"]
    request.max_content_length = settings.batch_bytes
    if (request.content_length or 0) > settings.batch_bytes:
        raise RequestEntityTooLarge
    # One byte more may be read, so that a body of unstated length that is too long is noticed and answered.
    request.max_content_length = settings.batch_bytes + 1
    body = ReadAhead(
        encodings.unpacked(request.stream), settings.batch_bytes, current_app.extensions["saltledger-spool"]
    )
    lines = _as_begun(answer_each(body.lines(settings.body_bytes)))
    # What is wrong with the body before its first line is answered still has a status of its own.
    first = next(lines, b"")
    answers = stream_with_context(_answers(first, lines, body, settings))
    return encodings.streamed(Response(answers, mimetype=MEDIA_TYPE))


def _as_begun(lines: Iterator[bytes]) -> Iterator[bytes]:
    """Lines made with all that held when the request came: its saved recipes and its kitchen's own figures,
    which the end of the request takes away before the last line is made."""
    context = copy_context()
    while (line := context.run(next, lines, None)) is not None:
        yield line


def _answers(first: bytes, rest: Iterator[bytes], body: ReadAhead, settings: Settings) -> Iterator[bytes]:
    yield first
    try:
        yield from rest
    except HTTPException as fault:
        yield json_line(problem_of(fault))
    if body.cut:
        detail = f"The batch has more than {settings.batch_bytes:,} bytes; the rest was not read, split it."
        yield json_line(problem(413, detail))


EXTENSION = "saltledger-line-pool"
UNUSED_SECONDS = 60.0
LOOK_EVERY_SECONDS = 15.0


class LinePool(StandingPool):
    """A pool with a thread that lets its processes go when nobody has needed them for a while."""

    def __init__(self, count: int) -> None:
        super().__init__(count, [f"{__package__}.warm_process"])
        self.rounds = Rounds("Batch processes", lambda: self.let_go(UNUSED_SECONDS), LOOK_EVERY_SECONDS)


def register(app: Flask) -> None:
    """Give the app its pool; no process is started before it is needed."""
    settings: Settings = app.extensions["saltledger"]
    app.extensions[EXTENSION] = LinePool(settings.batch_processes)


def pool() -> LinePool | None:
    """The pool where the answers to the current request rest on the bundle alone: neither kept foods of the
    second source nor a kitchen's own figures are at hand in other processes. None elsewhere."""
    settings: Settings = current_app.extensions["saltledger"]
    if settings.batch_processes == 1 or settings.remote_foods != "off" or rows_in_force() is not None:
        return None
    found: LinePool = current_app.extensions[EXTENSION]
    found.rounds.begin()
    return found

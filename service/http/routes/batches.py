"""Many recipes: one JSON document a line in, one answer a line out, in order.

A line that cannot be answered gives its problem (with `line`, counted from 1) and does not end the stream.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from flask import Response, current_app, request, stream_with_context
from werkzeug.exceptions import HTTPException, RequestEntityTooLarge, UnsupportedMediaType

from ...batch.stream import answer_each, as_line
from ...calculator import answer_recipe, costs_of
from ...config import Settings
from ...core.checkpoint import watched
from ...gate.problems import problem
from .. import known_foods, media_types
from ..api import Blueprint
from ..examples import SHORT
from ..problems import problem_of
from ..read_ahead import ReadAhead
from ..watch import allow, watch_of_request

MEDIA_TYPE = "application/x-ndjson"

blueprint = Blueprint("batches", __name__, description="Many recipes in one request.")


@blueprint.route("/v1/batches", methods=["POST"])
@blueprint.said(
    requestBody={
        "required": True,
        "description": "One recipe a line, each as in POST /v1/calculations.",
        "content": {MEDIA_TYPE: {"schema": {"type": "string"}, "example": json.dumps(SHORT) + "\n"}},
    }
)
@blueprint.gives({"type": "string"}, "One answer or problem a line, in the order of the recipes.", MEDIA_TYPE)
@blueprint.fails(406, 408, 413, 415, 507)
def answer_batch() -> Response:
    """Work out many recipes, one a line

    Newline-delimited JSON in and out, streamed. Line n of the answer belongs to line n of the request. A line
    that cannot be answered gives its problem, with its number in `line`, and the rest go on.
    """
    if request.mimetype != MEDIA_TYPE:
        raise UnsupportedMediaType(
            f"Found Content-Type {request.content_type or '(none)'}, wanted {MEDIA_TYPE}: one recipe a line."
        )
    media_types.negotiate([MEDIA_TYPE])
    settings: Settings = current_app.extensions["saltledger"]
    request.max_content_length = settings.batch_bytes
    if (request.content_length or 0) > settings.batch_bytes:
        raise RequestEntityTooLarge
    # One byte more may be read, so that a body of unstated length that is too long is noticed and answered.
    request.max_content_length = settings.batch_bytes + 1
    body = ReadAhead(request.stream, settings.batch_bytes, current_app.extensions["saltledger-spool"])
    lines = map(as_line, answer_each(body.lines(settings.body_bytes), _answer_watched))
    # What is wrong with the body before its first line is answered still has a status of its own.
    first = next(lines, b"")
    return Response(stream_with_context(_answers(first, lines, body, settings)), mimetype=MEDIA_TYPE)


def _answers(first: bytes, rest: Iterator[bytes], body: ReadAhead, settings: Settings) -> Iterator[bytes]:
    yield first
    try:
        yield from rest
    except HTTPException as fault:
        yield as_line(problem_of(fault))
    if body.cut:
        detail = f"The batch has more than {settings.batch_bytes:,} bytes; the rest was not read, split it."
        yield as_line(problem(413, detail))


def _answer_watched(recipe: dict[str, Any]) -> dict[str, Any]:
    """The answer to one recipe, which may cost as much, and take as long, as it may alone."""
    allow(costs_of(recipe))
    with watched(watch_of_request()):
        return answer_recipe(recipe, known_foods.foods())

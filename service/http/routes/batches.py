"""Many recipes: one JSON document a line in, one answer a line out, in order.

A line that cannot be answered gives its problem (with `line`, counted from 1) and does not end the stream.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from flask import Response, current_app, request, stream_with_context
from werkzeug.exceptions import HTTPException, RequestEntityTooLarge, UnsupportedMediaType

from ...config import Settings
from ...core.checkpoint import watched
from ...gate.reading import load, parse_json
from ...gate.recipe_schema import RecipeSchema
from .. import known_foods, media_types
from ..api import Blueprint
from ..examples import SHORT
from ..problems import problem, problem_of
from ..read_ahead import ReadAhead
from ..read_recipes import costs_of
from ..watch import CallerGone, allow, watch_of_request
from .calculations import answer_recipe

MEDIA_TYPE = "application/x-ndjson"

blueprint = Blueprint("batches", __name__, description="Many recipes in one request.")
_recipe = RecipeSchema()

Answer = Callable[[dict[str, Any]], dict[str, Any]]
"""From a schema-checked recipe to its answer."""


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


def answer_each(lines: Iterable[bytes | None], answer: Answer = answer_recipe) -> Iterator[dict[str, Any]]:
    """The answer to each line, or its problem (which alone has `line`), in order. None: a line too long.

    Raises CallerGone, since nobody reads on then.
    """
    for number, line in enumerate(lines, 1):
        yield _too_long(number) if line is None else answer_line(line, number, answer)


def answer_line(line: bytes, number: int, answer: Answer = answer_recipe) -> dict[str, Any]:
    """The answer to the recipe in `line`, or the problem with it. Raises CallerGone."""
    try:
        return answer(load(_recipe, parse_json(line)))
    except CallerGone:
        raise
    except Exception as error:  # one bad line must not end the stream; problem_of logs what is ours
        return {**problem_of(error), "line": number}


def as_line(document: dict[str, Any]) -> bytes:
    """A document as one line of newline-delimited JSON."""
    return json.dumps(document, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode() + b"\n"


def _too_long(number: int) -> dict[str, Any]:
    return problem(
        413, "The line is too long; a line may be as long as the body of one request.", line=number
    )

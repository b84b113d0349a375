"""Many recipes: one JSON document a line in, one answer a line out, in order.

A line that cannot be answered gives its problem (with `line`, counted from 1) and does not end the stream.
"""

from __future__ import annotations

import json
from collections import deque
from collections.abc import Iterator
from typing import Any

from flask import Response, current_app

from ...batch.answers import answer_line
from ...batch.executors import Ahead
from ...batch.parts import MOST_ITEMS, Part
from ...batch.standing_pool import PAUSE
from ...calculator import answer_recipe, costs_of
from ...core.checkpoint import watched
from ...core.documents import json_line
from .. import known_foods
from ..api import Blueprint
from ..examples import SHORT
from ..line_streams import MEDIA_TYPE, LinePool, answered, pool
from ..pool_work import AnswerWatched
from ..read_ahead import Line, Waiting
from ..watch import allow, watch_of_request

blueprint = Blueprint("batches", __name__, description="Many recipes in one request.")


@blueprint.route("/v1/batches", methods=["POST"])
@blueprint.said(
    requestBody={
        "required": True,
        "description": 'One recipe a line, as in POST /v1/calculations, or `{"key", "recipe"}`.',
        "content": {MEDIA_TYPE: {"schema": {"type": "string"}, "example": json.dumps(SHORT) + "\n"}},
    }
)
@blueprint.gives({"type": "string"}, "One answer or problem a line, in the order of the recipes.", MEDIA_TYPE)
@blueprint.fails(406, 408, 413, 415, 507)
def answer_batch() -> Response:
    """Work out many recipes, one a line

    Newline-delimited JSON in and out, streamed. Line n of the answer belongs to line n of the request. A line
    that cannot be answered gives its problem, with its number in `line`, and the rest go on. A line may be an
    object with `key` and `recipe`: its answer or problem then has the `key` too. Requests and answers may be
    compressed by gzip or zstd (`Content-Encoding`, `Accept-Encoding`).
    """
    executor = pool() or _here
    work = AnswerWatched(current_app.extensions["saltledger"]) if isinstance(executor, LinePool) else _Here()
    return answered(lambda lines: _answers(lines, executor, work), "one recipe")


def _answers(lines: Iterator[Line], executor: Any, work: Any) -> Iterator[bytes]:
    """The answer to each line."""
    kept: deque[Part[bytes | None]] = deque()

    def noted() -> Iterator[Any]:
        for part in _parts(lines):
            if part is not PAUSE:
                kept.append(part)
            yield part

    for found in executor(work, noted()):
        part = kept.popleft()
        for number, (line, answer) in enumerate(zip(part.items, found, strict=True), part.first):
            yield json_line(answer_line(line, number, _answer_watched)) if answer is None else answer


def _parts(lines: Iterator[Line]) -> Iterator[Any]:
    """The lines in parts, with PAUSE where no more has come."""
    held: list[bytes | None] = []
    first, come = 1, Ahead(lines)
    while taken := come.take(1):
        (line,) = taken
        if not isinstance(line, Waiting):
            held.append(line)
        if held and (isinstance(line, Waiting) or len(held) == MOST_ITEMS):
            yield Part(first, tuple(held), {}, 0)
            first, held = first + len(held), []
        if isinstance(line, Waiting):
            yield PAUSE
    if held:
        yield Part(first, tuple(held), {}, 0)
    come.end()


class _Here:
    """Leaves every line to this process, which has the store and the foods of today."""

    def __call__(self, part: Part[bytes | None]) -> list[None]:
        return [None] * len(part.items)


def _here(work: _Here, parts: Iterator[Any]) -> Iterator[list[None]]:
    return (work(part) for part in parts if part is not PAUSE)


def _answer_watched(recipe: dict[str, Any]) -> dict[str, Any]:
    """The answer to one recipe, which may cost as much, and take as long, as it may alone."""
    allow(costs_of(recipe))
    with watched(watch_of_request()):
        return answer_recipe(recipe, known_foods.foods())

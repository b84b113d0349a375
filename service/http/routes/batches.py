"""Many recipes: one JSON document a line in, one answer a line out, in order.

A line that cannot be answered gives its problem (with `line`, counted from 1) and does not end the stream.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from flask import Response

from ...batch.stream import answer_each
from ...calculator import answer_recipe, costs_of
from ...core.checkpoint import watched
from .. import known_foods
from ..api import Blueprint
from ..examples import SHORT
from ..line_streams import MEDIA_TYPE, answered
from ..read_ahead import Line, Waiting
from ..watch import allow, watch_of_request

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
    return answered(lambda lines: answer_each(_come(lines), _answer_watched), "one recipe")


def _come(lines: Iterator[Line]) -> Iterator[bytes | None]:
    """The lines that have come, each answered by itself as it comes."""
    return (line for line in lines if not isinstance(line, Waiting))


def _answer_watched(recipe: dict[str, Any]) -> dict[str, Any]:
    """The answer to one recipe, which may cost as much, and take as long, as it may alone."""
    allow(costs_of(recipe))
    with watched(watch_of_request()):
        return answer_recipe(recipe, known_foods.foods())

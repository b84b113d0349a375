"""POST /v1/readings: a recipe as it is written in, components and steps out, with what is doubtful."""

from __future__ import annotations

from typing import Any

from flask import Response

from ...calculator import costs_of, reading_answer
from ...gate.recipe_schema import ReadableSchema
from .. import known_foods, media_types
from ..api import Blueprint
from ..examples import WRITTEN
from ..schemas.readings import ReadingSchema
from ..watch import allow

blueprint = Blueprint("readings", __name__, description="Recipes in prose, read.")


@blueprint.route("/v1/readings", methods=["POST"])
@blueprint.takes(ReadableSchema, example=WRITTEN)
@blueprint.gives(ReadingSchema, "The recipe as read, and what is doubtful about it.")
@blueprint.fails(406)
def read_recipe(document: dict[str, Any]) -> Response:
    """Read a recipe as it is written

    Takes ingredient lines and paragraphs, or a schema.org/Recipe as JSON-LD; gives components and steps, a
    body for /v1/calculations, with the words each was read from. Questions come with the sodium that hangs on
    them; send `answers` with the same recipe to settle them. /v1/calculations, /v1/recipes/{key},
    /v1/targets, /v1/comparisons and /v1/batches take the same forms.
    """
    allow(costs_of(document))
    return media_types.respond(reading_answer(document, known_foods.foods()))

"""POST /v1/lines: read and map ingredient lines, without a recipe."""

from __future__ import annotations

from typing import Any

from flask import Response

from ...core.documents import notice_document
from ...gate.recipe_schema import LinesSchema
from ...recipe.ingredients import ReadSettings, ingredient_document
from ...recipe.line_context import read_together
from ...recipe.work_budget import of_lines
from .. import known_foods, media_types
from ..api import Blueprint
from ..examples import LINES
from ..schemas.answers import LinesAnswerSchema
from ..watch import allow

blueprint = Blueprint("lines", __name__, description="Reading and mapping ingredient lines.")


@blueprint.route("/v1/lines", methods=["POST"])
@blueprint.takes(LinesSchema, example=LINES)
@blueprint.gives(LinesAnswerSchema, "The lines as read and mapped, in the order sent.")
@blueprint.fails(406)
def read_lines(document: dict[str, Any]) -> Response:
    """Read and map ingredient lines

    One ingredient for each line, in the same order; the lines are taken to be of one recipe, so that each
    helps to read the others. `food` is null where nothing fits, `grams` null where there is no quantity;
    `parts` holds the further foods of a line that names several.
    """
    allow([of_lines(document["lines"])])
    settings = ReadSettings(**document.get("settings", {}))
    pointers = [f"/lines/{i}" for i in range(len(document["lines"]))]
    ingredients = read_together(document["lines"], pointers, known_foods.foods(), settings)
    return media_types.respond(
        {
            "ingredients": [ingredient_document(ingredient) for ingredient in ingredients],
            "notices": [
                notice_document(notice.below(f"/lines/{i}"))
                for i, ingredient in enumerate(ingredients)
                for each in ingredient.foods
                for notice in each.notices
            ],
        }
    )

"""POST /v1/lines: read and map ingredient lines, without a recipe."""

from __future__ import annotations

from typing import Any

from flask import Response

from ..checkpoint import checkpoint
from ..documents import notice_document
from ..errors import Fault, InvalidRequest
from ..foods.dataset import bundled
from ..recipe.ingredients import Ingredient, ReadSettings, ingredient_document, resolve
from ..recipe.work_budget import of_lines
from . import answers
from .api import Blueprint
from .examples import LINES
from .schemas.answers import LinesAnswerSchema
from .schemas.recipe import LinesSchema
from .watch import allow

blueprint = Blueprint("lines", __name__, description="Reading and mapping ingredient lines.")


@blueprint.route("/v1/lines", methods=["POST"])
@blueprint.takes(LinesSchema, example=LINES)
@blueprint.gives(LinesAnswerSchema, "The lines as read and mapped, in the order sent.")
@blueprint.fails(406)
def read_lines(document: dict[str, Any]) -> Response:
    """Read and map ingredient lines

    One ingredient for each line, in the same order. `food` is null where nothing fits, `grams` null where
    there is no quantity.
    """
    allow([of_lines(document["lines"])])
    settings = ReadSettings(**document.get("settings", {}))
    ingredients = _resolved(document["lines"], settings)
    return answers.respond(
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


def _resolved(lines: list[str], settings: ReadSettings) -> list[Ingredient]:
    """Every line resolved. Raises InvalidRequest with the faults of all lines."""
    resolved: list[Ingredient] = []
    faults: list[Fault] = []
    for i, line in enumerate(lines):
        checkpoint()
        try:
            resolved.append(resolve(line, bundled(), settings))
        except InvalidRequest as refused:
            faults += [Fault(f"/lines/{i}{fault.pointer}", fault.message) for fault in refused.faults]
    if faults:
        raise InvalidRequest(faults)
    return resolved

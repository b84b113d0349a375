"""POST /v1/calculations: a recipe in, what a serving holds out."""

from __future__ import annotations

from typing import Any

from flask import Response

from ..foods.dataset import bundled
from ..recipe.calculation import calculate
from ..recipe.request import RecipeRequest
from . import answers
from .api import Blueprint
from .examples import recipe_example
from .schemas.answers import CalculationSchema
from .schemas.recipe import RecipeSchema

blueprint = Blueprint("calculations", __name__, description="What a serving of a recipe holds.")


def answer_recipe(document: dict[str, Any]) -> dict[str, Any]:
    """The answer to a recipe that `RecipeSchema` let through. Raises InvalidRequest."""
    return calculate(RecipeRequest.from_document(document), bundled())


@blueprint.route("/v1/calculations", methods=["POST"])
@blueprint.takes(RecipeSchema, example=recipe_example())
@blueprint.gives(CalculationSchema, "What a serving holds.")
@blueprint.fails(406)
def calculate_recipe(document: dict[str, Any]) -> Response:
    """Work out nutrients and sodium per serving

    `ingredients` alone is the short form: one component, all of it eaten, no steps. With `components` and
    `steps` the salt is followed from place to place. A measured value on a step (a weight, a laboratory
    figure) replaces the model's. Nothing is guessed: what could not be read, weighed or mapped is in
    `notices`. Equal requests get equal bytes.
    """
    return answers.respond(answer_recipe(document))

"""POST /v1/calculations: a recipe in, what a serving holds out, in the form that the caller asks for."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from flask import Response

from ..foods.dataset import FoodTable, bundled
from ..nutrition import structured_data
from ..nutrition.labels import SCHEMES
from ..nutrition.spreadsheet import recipe_csv
from ..recipe.calculation import calculate
from ..recipe.custom import custom_foods
from ..recipe.request import RecipeRequest
from . import answers
from .api import Blueprint
from .examples import recipe_example
from .fields import Choice, StrictSchema
from .schemas.answers import CalculationSchema
from .schemas.recipe import RecipeSchema, said

blueprint = Blueprint("calculations", __name__, description="What a serving of a recipe holds.")

MEANING = "What a serving holds; as a spreadsheet; or as structured data for a web page."


class CalculationQuerySchema(StrictSchema):
    """What else the answer is to hold."""

    label = Choice(SCHEMES, metadata=said("Add the amounts as a label under these rules would print them."))


@dataclass(frozen=True, slots=True)
class Calculated:
    """A recipe and its answer."""

    request: RecipeRequest
    document: dict[str, Any]

    def foods(self) -> FoodTable:
        """The dataset and the recipe's own foods."""
        return bundled().with_custom(custom_foods(self.request.custom_foods))


def answer_recipe(document: dict[str, Any], label: str | None = None) -> dict[str, Any]:
    """The answer to a recipe that `RecipeSchema` let through. Raises InvalidRequest."""
    return calculated(document, label).document


def calculated(document: dict[str, Any], label: str | None = None) -> Calculated:
    """The same, with the request it answers."""
    request = RecipeRequest.from_document(document)
    return Calculated(request, calculate(request, bundled(), scheme=label))


def _as_csv(answer: Calculated) -> str:
    foods = answer.foods()
    return recipe_csv(answer.document, lambda code: foods.get(code).values if code in foods else None)


def _as_structured_data(answer: Calculated) -> str:
    return json.dumps(structured_data.recipe(answer.document), ensure_ascii=False) + "\n"


RENDERERS: answers.Renderers[Calculated] = {
    "application/json": lambda answer: answers.as_json(answer.document),
    "text/csv": _as_csv,
    "application/ld+json": _as_structured_data,
}
"""By media type. A new form of the answer is one more line here, and one more `gives` below."""


@blueprint.route("/v1/calculations", methods=["POST"])
@blueprint.takes(RecipeSchema, example=recipe_example())
@blueprint.asks(CalculationQuerySchema)
@blueprint.gives(CalculationSchema, MEANING)
@blueprint.gives({"type": "string"}, MEANING, "text/csv")
@blueprint.gives({"type": "object"}, MEANING, "application/ld+json")
@blueprint.fails(406)
def calculate_recipe(document: dict[str, Any], query: dict[str, Any]) -> Response:
    """Work out nutrients and sodium per serving

    `ingredients` alone is the short form: one component, all of it eaten, no steps. With `components` and
    `steps` the salt is followed from place to place. A measured value on a step (a weight, a laboratory
    figure) replaces the model's. Nothing is guessed: what could not be read, weighed or mapped is in
    `notices`. Equal requests get equal bytes. `Accept: text/csv` gives a spreadsheet, one row an ingredient;
    `Accept: application/ld+json` a schema.org Recipe with its nutrition.
    """
    return answers.respond_as(calculated(document, **query), RENDERERS)

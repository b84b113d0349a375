"""GET /v1/foods and /v1/foods/{code}: search the dataset, see one food."""

from __future__ import annotations

from typing import Any

from flask import Response

from ...foods.dataset import food_document
from ...gate.fields import QueryWhole, Text, said
from ...gate.strict_schema import StrictSchema
from .. import known_foods, media_types
from ..api import Blueprint
from ..schemas.food_answers import FoodAnswerSchema, FoodsAnswerSchema

blueprint = Blueprint("foods", __name__, description="The foods of the dataset.")


class FoodsQuerySchema(StrictSchema):
    """What to search for."""

    query = Text(
        most=200,
        required=True,
        wanted="words to search for",
        metadata=said("Words of a food's name.", example="table salt"),
    )
    limit = QueryWhole(1, 100, load_default=20, metadata=said("How many at most."))


@blueprint.route("/v1/foods")
@blueprint.asks(FoodsQuerySchema)
@blueprint.gives(FoodsAnswerSchema, "Foods that fit, best first.")
@blueprint.fails(406)
def search_foods(query: dict[str, Any]) -> Response:
    """Search foods by name"""
    found = known_foods.foods().search(query["query"], query["limit"])
    hits = [{"code": food.code, "name": food.name, "group": food.group} for food in found]
    return media_types.respond_kept({"foods": hits})


@blueprint.route(
    "/v1/foods/<string:code>",
    parameters=[{"in": "path", "name": "code", "description": "The food's code.", "example": "02047"}],
)
@blueprint.gives(FoodAnswerSchema, "The food.")
@blueprint.may_hold
@blueprint.fails(404, 406)
def show_food(code: str) -> Response:
    """Show one food: nutrients in 100 g, household measures"""
    return media_types.respond_kept(food_document(known_foods.foods().get(code)))

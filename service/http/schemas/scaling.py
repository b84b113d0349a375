"""A recipe scaled: what may be asked, and what is told."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, post_load

from ...gate.fields import said
from ...gate.recipe_schema import HEAVIEST_G, MOST_SERVINGS
from ...gate.strict_schema import StrictSchema
from ...recipe.scaling import Wish
from .answer_shapes import AnswerSchema, count, flag, number, one, several, text, texts
from .food_answers import FoodNameSchema
from .query_fields import QueryNumber

NAMES = ("servings", "portion_g", "batch_g")


class ScalingQuerySchema(StrictSchema):
    """To how much a recipe is to be scaled, what a portion weighs, and what a kettle holds."""

    servings = QueryNumber(
        0.001,
        MOST_SERVINGS,
        metadata=said("Add the recipe for so many servings, its ingredients to be weighed.", example=120),
    )
    portion_g = QueryNumber(
        0.1,
        HEAVIEST_G,
        unit="g",
        metadata=said("Portions by weight: what each weighs as served, in place of the recipe's servings."),
    )
    batch_g = QueryNumber(
        1,
        HEAVIEST_G,
        unit="g",
        metadata=said("The most that one batch may weigh as served; equal batches are told."),
    )

    @post_load
    def gathered(self, data: dict[str, Any], **kwargs: Any) -> dict[str, Any]:
        """All of it as one wish, `scale`, where any of it is asked for."""
        asked = {name: data.pop(name) for name in NAMES if name in data}
        return {**data, "scale": Wish(**asked)} if asked else data


class ScaledNutrientSchema(AnswerSchema):
    """The amount of a nutrient in a portion."""

    amount = number("Most likely amount.")
    low = number("Low end.")
    high = number("High end.")
    unit = text("Its unit.")
    coverage = number("Share of the weight, 0 to 1, whose content is known.")


class PortionSchema(AnswerSchema):
    """A portion."""

    weight_g = number("What it weighs as served, in g.")
    nutrients = fields.Dict(
        keys=fields.String(),
        values=fields.Nested(ScaledNutrientSchema),
        required=True,
        metadata=said("What it holds, by INFOODS tagname."),
    )


class BatchesSchema(AnswerSchema):
    """Equal batches."""

    count = count("How many.")
    factor = number("Each is the recipe as written times this.")
    servings = number("Servings of each.")
    weight_g = number("Weight of each as served, in g.")


class ScaledIngredientSchema(AnswerSchema):
    """An ingredient for all of it, and for one batch."""

    component = text("Id of its component.")
    line = text("The line as it was sent.")
    food = one(FoodNameSchema, "The food it is taken to be, null where nothing fits.", allow_none=True)
    amount = number("Amount in `unit` for all of it, null where the line has none.", allow_none=True)
    unit = text("Unit of the amount.", allow_none=True)
    grams = number("Weight for all of it in g, null where it is not known.", allow_none=True)
    batch_grams = number("Weight for one batch in g, null where it is not known.", allow_none=True)


class ScaledSchema(AnswerSchema):
    """The recipe for another number of servings, in batches, in portions by weight."""

    servings = number("How many servings, or portions of the weight that was asked for.")
    factor = number("The recipe as written times this.")
    weight_g = number("Weight of all of it as served, in g.")
    complete = flag("Whether all the sodium of a portion was counted.", allow_none=True)
    portion = one(PortionSchema, "What a portion holds.")
    batches = one(BatchesSchema, "In how many batches.")
    ingredients = several(ScaledIngredientSchema, "What to weigh, in the order sent.")
    notices = texts("What to look to.")

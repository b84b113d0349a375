"""Foods, ingredients and reference values in answers."""

from __future__ import annotations

from marshmallow import fields

from ...gate.fields import said
from .answer_shapes import AnswerSchema, number, one, row_of_law, several, stated_by, text


class FoodNameSchema(AnswerSchema):
    """A food by code and name."""

    code = text("The dataset's own code.")
    name = text("The dataset's own name.")


class PartSchema(AnswerSchema):
    """A food of a line, as it was read, weighed and mapped."""

    line = text("The line as it was sent.")
    amount = number("Amount in `unit`, null where there is none.", allow_none=True)
    unit = text("Unit of the amount.", allow_none=True)
    grams = number("Weight in g, null where there is no quantity.", allow_none=True)
    grams_low = number("Low end of the weight.", required=False, allow_none=True)
    grams_high = number("High end of the weight.", required=False, allow_none=True)
    grams_basis = text("How the weight was found.")
    food = one(FoodNameSchema, "The food it is taken to be, null where nothing fits.", allow_none=True)
    confidence = number("How sure the food and its weight are, 0 to 1; below 0.8 where either is a guess.")
    packet_per_100g = fields.Dict(
        keys=fields.String(),
        values=fields.Float(),
        metadata=said("What its packet says of 100 g, by INFOODS tagname, which was taken."),
    )
    recipe = text("Key of the saved recipe that it is a portion of.", required=False)
    recipe_per_100g = fields.Dict(
        keys=fields.String(),
        values=fields.Float(),
        metadata=said("What 100 g of that recipe hold, by INFOODS tagname, likely amounts."),
    )
    alternatives = several(FoodNameSchema, "Other foods it may be.")
    sodium_mg = number(
        "Sodium that it lists, in mg for the whole recipe; null where not known.",
        required=False,
        allow_none=True,
    )


class IngredientAnswerSchema(PartSchema):
    """An ingredient as it was read, weighed and mapped: its first food, and the others as parts."""

    parts = several(PartSchema, "Further foods that the line names (salt and pepper), each counted.")


class ListedIngredientSchema(IngredientAnswerSchema):
    """An ingredient of a recipe, with its component."""

    component = text("Id of its component.")
    eaten_fraction = number(
        "Share of this line that is eaten, null where the request does not say.", allow_none=True
    )
    sodium_mg = number(
        "Sodium that the line lists with all its foods, in mg for the whole recipe; null where not known.",
        allow_none=True,
    )
    assumed_mg = number(
        "Sodium that the likely figure holds for it because it was not counted, in mg; null where it was.",
        allow_none=True,
    )
    eaten_mg = number(
        "What of its sodium is eaten, likely, in mg for the whole recipe; null where not known.",
        allow_none=True,
    )


class FoodHitSchema(FoodNameSchema):
    """A food found."""

    group = text("Its food group.")


class FoodsAnswerSchema(AnswerSchema):
    """Foods that fit a search, best first."""

    foods = several(FoodHitSchema, "Best first.")


class FoodAmountSchema(AnswerSchema):
    """The amount of a nutrient in 100 g of a food."""

    amount = number("Amount.")
    unit = text("Its unit.")


class FoodHouseholdSchema(AnswerSchema):
    """A household measure of a food."""

    label = text("The measure.")
    grams = number("What it weighs in g.")


class FoodAnswerSchema(FoodHitSchema):
    """A food of the dataset."""

    source = text("Where its values come from.")
    refuse_percent = number("What of it as bought is not eaten, percent.")
    per_100g = fields.Dict(
        keys=fields.String(),
        values=fields.Nested(FoodAmountSchema, allow_none=True),
        required=True,
        metadata=said("By INFOODS tagname; null where it is not known."),
    )
    household = several(FoodHouseholdSchema, "Household measures.")


class ReferenceValueSchema(AnswerSchema):
    """A reference value of a nutrient for an audience."""

    reference = text("Id of the scheme it is part of.")
    name = text("Name of the scheme.")
    kind = text("What sort of value it is.")
    tag = text("INFOODS tagname of the nutrient.")
    audience = text("For whom.")
    value = number("The value.")
    unit = text("Its unit.")
    source = text("Where it comes from.")
    mark = text("How well that is known.")
    row = row_of_law()
    checked_against = stated_by()
    note = text("What else there is to say of it.")
    audience_name = text("For whom, in words.")


class AudienceSchema(AnswerSchema):
    """A group of people that reference values are for."""

    audience = text("Its id, for `audience` in requests.")
    name = text("Its name.")


class ReferenceValuesSchema(AnswerSchema):
    """Reference values, each with its source."""

    reference_values = several(ReferenceValueSchema, "The values.")
    audiences = several(AudienceSchema, "Every audience there is.")

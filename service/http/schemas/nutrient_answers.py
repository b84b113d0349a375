"""Amounts of nutrients, energy, and how a figure came about, in answers."""

from __future__ import annotations

from marshmallow import fields

from ...gate.fields import said
from .answer_shapes import AnswerSchema, count, number, one, several, text, texts


class NutrientAmountSchema(AnswerSchema):
    """The amount of one nutrient."""

    amount = number("Most likely amount.")
    unit = text("Its unit.")
    low = number("Low end.")
    high = number("High end.")
    coverage = number("Share of the listed weight (0 to 1) whose value is known.", required=False)
    daily_value_percent = number("Percent of the FDA Daily Value.", required=False)
    derived = text("How it follows from others, where the dataset does not hold it itself.", required=False)


def nutrients() -> fields.Dict:
    return fields.Dict(
        keys=fields.String(),
        values=fields.Nested(NutrientAmountSchema),
        required=True,
        metadata=said(
            "By INFOODS tagname, with ENERC_KJ, SALT, ADDED_SUGARS; what is not known is left out."
        ),
    )


class PerServingSchema(AnswerSchema):
    """What one serving holds."""

    weight_g = number("Weight of a serving in g.")
    nutrients = nutrients()


class Per100gSchema(AnswerSchema):
    """What 100 g of the dish as eaten hold."""

    nutrients = nutrients()


class EnergyAmountSchema(AnswerSchema):
    """An amount of energy in both units."""

    kcal = number("In kcal.")
    kj = number("In kJ.")


class EnergySetsSchema(AnswerSchema):
    """The energy of a serving by three sets of factors; null where a nutrient that it needs is not known."""

    as_dataset = one(EnergyAmountSchema, "As the dataset's own energy has it.", allow_none=True)
    atwater_general = one(EnergyAmountSchema, "By the general Atwater factors.", allow_none=True)
    eu = one(EnergyAmountSchema, "By the factors of EU labels.", allow_none=True)


class EnergySchema(AnswerSchema):
    """Energy, and the factors it is by."""

    per_serving = one(EnergySetsSchema, "Of a serving, by set of factors.")
    specific_share = number(
        "Share of the energy listed (0 to 1) that is by specific factors of the food.", allow_none=True
    )
    basis = text("Which factors were used, in words.")


class EndedSchema(AnswerSchema):
    """One line's share in a nutrient."""

    line = text("The line, or the food's name.")
    component = text("Id of its component; tap for fresh water.")
    pointer = text("JSON Pointer to the line.")
    food_name = text("Its food.", allow_none=True)
    food_code = text("Code of its food.", allow_none=True)
    grams = number("Likely weight in g.", allow_none=True)
    per_100g = number("Amount in 100 g of the food.", allow_none=True)
    listed = number("What the line brings in.", allow_none=True)
    share_of_listed = number("Share of the listed sum, 0 to 1.", allow_none=True)
    eaten = number("What of it is eaten.", allow_none=True)
    eaten_per_serving = number("The same per serving.", allow_none=True)
    ended = fields.Dict(
        keys=fields.String(),
        values=fields.Float(),
        required=True,
        metadata=said("Where it ended: amounts by place."),
    )


class WaySchema(AnswerSchema):
    """An amount that went from one place to another."""

    source = text("Where it was.")
    target = text("Where it went.")
    step = count("Index of the step; null when the dish is served.", allow_none=True)
    amount = number("Likely amount.")


class ChainSchema(AnswerSchema):
    """The chain of a nutrient from lines to figure; likely amounts in `unit`, for the whole recipe."""

    tag = text("INFOODS tagname.")
    name = text("Name of the nutrient.")
    unit = text("Unit of every amount.")
    inputs = several(EndedSchema, "Every line and what became of it; their `eaten` add up to `eaten`.")
    listed = number("Sum over the list; null where no line tells.", allow_none=True)
    movements = several(WaySchema, "What went from where to where.")
    eaten = number("What is eaten.", allow_none=True)
    servings = number("Servings.")
    per_serving = number("What is eaten, per serving.", allow_none=True)
    daily_value = number("FDA Daily Value.", allow_none=True)
    daily_value_percent = number("Percent of it.", allow_none=True)
    sentences = texts("The same in plain sentences.")


class ExplanationSchema(AnswerSchema):
    """How figures came about."""

    method = text("How amounts are told to lines.")
    nutrients = fields.Dict(
        keys=fields.String(),
        values=fields.Nested(ChainSchema),
        required=True,
        metadata=said("The chain of each nutrient by INFOODS tagname."),
    )

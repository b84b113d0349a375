"""What the label view and the allergen prompt of an answer look like."""

from __future__ import annotations

from marshmallow import validate

from .answer_shapes import AnswerSchema, count, flag, number, one, row_of_law, several, stated_by, text, texts


class ReferenceAmountSchema(AnswerSchema):
    """The amount customarily eaten at one sitting, of the dish class that was named."""

    dish_class = text("The dish class.")
    name = text("Its name.")
    measure = text("The amount as the rule writes it.")
    amount_g = number("The same in g; null where the rule gives a volume or none.", allow_none=True)
    servings_in_it = number("How many of the recipe's servings it is; null as `amount_g`.", allow_none=True)
    source = text("Where it comes from.")
    mark = text("How well that is known.")
    row = row_of_law()
    checked_against = stated_by()


class LabelServingSchema(AnswerSchema):
    """The serving that a label is for."""

    weight_g = number("Weight of the recipe's serving in g.")
    reference_amount = one(
        ReferenceAmountSchema, "The reference amount; null where no dish class was named.", allow_none=True
    )


class ToleranceSchema(AnswerSchema):
    """How far a found amount may lie from the declared one."""

    low = number("Least that may be found; null for no limit that way.", allow_none=True)
    high = number("Most that may be found; null for no limit that way.", allow_none=True)
    source = text("Where it comes from.")
    mark = text("How well that is known.")


class LabelRowSchema(AnswerSchema):
    """One row of a label."""

    tag = text("INFOODS tagname.")
    name = text("What the row is called.")
    depth = count("0 for a row of its own, 1 and 2 for a part of the row above.")
    unit = text("Unit of `amount`.")
    amount = number("The amount before rounding; null where it is not known.", allow_none=True)
    declared = text("The amount as it is declared; null where it is not known.", allow_none=True)
    percent = number("Percent of the reference value; null where there is none.", allow_none=True)
    coverage = number("Share of the weight (0 to 1) whose value is known.", required=False, allow_none=True)
    tolerance = one(
        ToleranceSchema,
        "How far a found amount may lie off; null where no rule says.",
        required=False,
        allow_none=True,
    )
    note = text("Why it is not declared, or what stands in for it.", required=False)


class LabelColumnSchema(AnswerSchema):
    """A column of a label: an amount of the dish, and its rows."""

    basis = text("per_serving, per_reference_amount or per_100g.")
    weight_g = number("Its weight in g.")
    rows = several(LabelRowSchema, "As declared, in the order of the rule.")


class PartlyKnownSchema(AnswerSchema):
    """A nutrient that is not known for all of the weight."""

    tag = text("INFOODS tagname.")
    coverage = number("Share of the weight (0 to 1) whose value is known.")


class LabelSchema(AnswerSchema):
    """The amounts as a label under the rules of a scheme would print them."""

    scheme = text("The scheme.")
    sodium_complete = flag("Whether all sodium was counted; else none is declared.")
    statement = text("What goes with the table.")
    source = text("The rules.")
    conventions = texts("How the rules were read where they leave a choice.")
    serving = one(LabelServingSchema, "The serving.")
    columns = several(LabelColumnSchema, "Per serving, per 100 g, each with its rows as declared.")
    incomplete = several(PartlyKnownSchema, "Rows whose amount is not known for all of the weight.")


class ReasonSchema(AnswerSchema):
    """An ingredient that points to an allergen."""

    line = text("The line as written.")
    food = text("Its food; null where none was found.", allow_none=True)
    certainty = text("contains, or may.", validate=validate.OneOf(("contains", "may")))
    note = text("What should be asked.")


class AllergenSchema(AnswerSchema):
    """An allergen that lines or foods point to."""

    allergen = text("Its id.")
    name = text("Its name.")
    lists = texts("Lists that name it: us, eu.")
    certainty = text("contains, or may: the surest of all.", validate=validate.OneOf(("contains", "may")))
    because = several(ReasonSchema, "What points to it.")


class AllergensSchema(AnswerSchema):
    """A prompt for a person's check, no declaration."""

    statement = text("What this is, and what it is not.")
    allergens = several(AllergenSchema, "Allergens that lines and foods point to, and why.")
    unread = texts("Lines without a food, of which only their own words were read.")

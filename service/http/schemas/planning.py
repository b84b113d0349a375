"""Asking the other way round, and side by side: targets and comparisons."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from marshmallow import ValidationError, fields, validates_schema

from ...gate.amount_fields import NutrientAmount
from ...gate.fields import Name, Number, Part, Several, Text, said
from ...gate.recipe_schema import MOST_TITLE_CHARACTERS, RecipeSchema
from ...gate.strict_schema import StrictSchema
from .answer_shapes import AnswerSchema, RangeSchema, flag, number, one, several, text
from .answers import CalculationSchema, NoticeSchema
from .sodium_answers import ClaimSchema


class WantedSchema(StrictSchema):
    """What a serving shall hold: mg of sodium, a percentage of a reference, or what a claim allows."""

    sodium_mg_per_serving = NutrientAmount(
        "NA", 0, 1_000_000, metadata=said("Wanted mg of sodium.", example=480)
    )
    reference = Name(metadata=said("Id of a reference for sodium; see /v1/reference-values."))
    percent = Number(0, 10_000, unit="%", metadata=said("Wanted percentage of the reference."))
    claim = Name(
        metadata=said("Id of a claim whose limits are to be met, as `claims` of an answer has them.")
    )

    @validates_schema
    def one_way(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        if set(data) not in ({"sodium_mg_per_serving"}, {"reference", "percent"}, {"claim"}):
            raise ValidationError(
                "Wanted one of sodium_mg_per_serving, claim, or reference and percent together; "
                "choose one way."
            )


class TargetSchema(StrictSchema):
    """A recipe, what a serving shall hold, and what may be varied for it."""

    recipe = Part(RecipeSchema, required=True, metadata=said("The recipe."))
    target = Part(WantedSchema, required=True, metadata=said("What a serving shall hold."))
    vary = Text(
        most=200,
        required=True,
        wanted="a JSON Pointer into the recipe",
        metadata=said(
            "JSON Pointer to an ingredient (its grams), a step's duration_h, or /servings.",
            example="/components/1/ingredients/0",
        ),
    )


class LeverSchema(AnswerSchema):
    """A single change and what it saves."""

    change = text("The change, in words.")
    pointer = text("What it changes.")
    saves_mg = number("Sodium saved in mg a serving, at the likely figure.")
    leaves_mg = number("Sodium that is left in mg a serving.")


class TargetAnswerSchema(AnswerSchema):
    """The value that meets the target, or why there is none."""

    reachable = flag("Whether any value meets the target.")
    vary = text("What was varied.")
    value = number("The value that meets the target at the likely figure.", required=False)
    unit = text("Its unit: g, h or servings.")
    value_at_high = number(
        "The value at which even the high end meets it; null where none does.",
        required=False,
        allow_none=True,
    )
    wanted_mg = number("mg of sodium a serving that are wanted; null for a claim.", allow_none=True)
    met_at_likely = flag(
        "Whether the likely figure meets the target; null where not all sodium was counted.",
        required=False,
        allow_none=True,
    )
    met_at_high = flag(
        "Whether the high end meets it with this value as well; null as above.",
        required=False,
        allow_none=True,
    )
    complete = flag("Whether all sodium of the recipe was counted.", required=False)
    claim = one(ClaimSchema, "The claim as it then stands, where one was asked for.", required=False)
    calculation = one(CalculationSchema, "The recipe with that value.", required=False)
    floor_mg = number("The least that can be reached, in mg a serving.", required=False)
    ceiling_mg = number(
        "The most that can be reached, in mg a serving, where more was wanted.", required=False
    )
    notices = several(
        NoticeSchema, "Why it cannot be reached, or what stops the recipe with that value.", required=False
    )
    levers = several(LeverSchema, "Single changes that save most, largest first.", required=False)


class VersionSchema(StrictSchema):
    """One version of a recipe."""

    label = Text(
        most=MOST_TITLE_CHARACTERS, required=True, metadata=said("Its name.", example="half the salt")
    )
    recipe = Part(RecipeSchema, required=True, metadata=said("The recipe."))


class ComparisonSchema(StrictSchema):
    """Two to ten versions of a recipe; the first is what the others are compared with."""

    versions = Several(Part(VersionSchema), least=2, most=10, required=True, metadata=said("The versions."))


class VersionAnswerSchema(AnswerSchema):
    """One version's answer."""

    label = text("Its name.")
    calculation = one(CalculationSchema, "Its answer.")


class VersionDifferenceSchema(AnswerSchema):
    """One version less the first, per serving."""

    first = text("The first version.", data_key="from")
    other = text("The version compared with it.", data_key="to")
    complete = flag("Whether all sodium was counted in both; else the difference is a guess.")
    sodium_mg_per_serving = one(RangeSchema, "Difference in sodium, mg a serving.")
    weight_g_per_serving = number("Difference in weight, g a serving.")
    nutrients = fields.Dict(
        keys=fields.String(), required=True, metadata=said("Differences by INFOODS tagname.")
    )


class ComparisonAnswerSchema(AnswerSchema):
    """The versions side by side."""

    versions = several(VersionAnswerSchema, "In the order sent.")
    differences = several(VersionDifferenceSchema, "Every other version less the first.")

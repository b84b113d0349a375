"""The answer to one bath."""

from __future__ import annotations

from marshmallow import fields

from ...gate.fields import said
from .answer_shapes import AnswerSchema, RangeSchema, number, one, several, text
from .answers import AssumptionSchema, NoticeSchema


class BathAtRestSchema(AnswerSchema):
    """At rest with the bath."""

    absorption_factor = number("Share of the bath's salt in the food.")
    salt_percent_in_food = number("Salt in the food, percent by weight.")


class ReachedSchema(AnswerSchema):
    """How much of equilibrium is reached."""

    mean_percent = number("On average over the piece.")
    centre_percent = number("At the centre.")


class CurvePointSchema(ReachedSchema):
    """A point of the curve."""

    time_h = number("Hours in the bath.")


class ProfilePointSchema(RangeSchema):
    """Percent of equilibrium at one place of the piece."""

    position = number("0 the centre, 1 the surface.")


class NitriteSchema(AnswerSchema):
    """Ingoing nitrite by the two handbook methods, as ppm of the raw weight."""

    pick_up_ppm = number("By pick-up; all of it where it is rubbed or mixed in.")
    equilibrium_ppm = number("Food and pickle at rest.")
    judged_ppm = number("What is held against the limit.")
    limit_ppm = number("Limit for the class of product.")
    method = text("How the class counts: immersion, pumped, dry or comminuted.")
    scheme = text("Whose limit it is.")
    product_class = text("Class of product.")
    coloured_h = one(
        RangeSchema,
        "Hours until the cure's colour comes to the centre: an estimate of colour, never of safety.",
        allow_none=True,
    )


class BathSoluteSchema(AnswerSchema):
    """One solute of the bath at duration_h, which moves at its own pace."""

    solute = text("sodium, potassium, chloride, nitrite (as NaNO2), nitrate (as NaNO3) or sugar.")
    absorption_factor = one(RangeSchema, "Share of the bath's in the food.")
    in_food_mg_per_100g = one(RangeSchema, "What the bath gave to 100 g of the food as it leaves, in mg.")


class BathAnswerSchema(AnswerSchema):
    """What a bath does to a food."""

    absorption_factor = one(RangeSchema, "Share of the bath's salt in the food.")
    salt_percent_in_food = one(RangeSchema, "Salt in the food, percent by weight.")
    equilibrium = one(BathAtRestSchema, "If it sat for ever.")
    reached = one(ReachedSchema, "Percent of equilibrium at duration_h.")
    ready_h = one(RangeSchema, "Hours until the centre has ready_share of equilibrium.")
    ready_share = number("Share of equilibrium (0 to 1) that counts as ready.")
    curve = several(CurvePointSchema, "Uptake over time.")
    profile = fields.List(
        fields.Nested(ProfilePointSchema),
        required=True,
        allow_none=True,
        metadata=said(
            "Percent of equilibrium from the centre to the surface at duration_h; above 100 while the bath "
            "is stronger than it will be. Null for a brick or short cylinder, which has no one way in."
        ),
    )
    solutes = several(BathSoluteSchema, "What the bath holds, each by itself.")
    nitrite = one(NitriteSchema, "Ingoing nitrite against the limit; null without nitrite.", allow_none=True)
    assumptions = several(AssumptionSchema, "Figures it rests on.")
    notices = several(NoticeSchema, "What the reader should know.")

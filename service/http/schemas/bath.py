"""One bath without a recipe."""

from __future__ import annotations

from ..fields import Choice, Number, Part, StrictSchema
from .recipe import FOOD_CLASSES, HEAVIEST_G, PRODUCT_CLASSES, SHAPES, said


class BathFoodSchema(StrictSchema):
    """The food that sits in the bath."""

    food_class = Choice(
        FOOD_CLASSES, required=True, data_key="class", metadata=said("Kind of food.", example="pork")
    )
    weight_g = Number(
        0.001, HEAVIEST_G, unit="g", required=True, metadata=said("Raw weight in g.", example=1400)
    )
    shape = Choice(SHAPES, metadata=said("Form of a piece; sheet where not stated."))
    thickness_cm = Number(
        0.01,
        300,
        unit="cm",
        required=True,
        metadata=said("Thickness of a sheet, diameter of a cylinder or sphere, in cm.", example=6),
    )
    length_cm = Number(0.01, 1_000, unit="cm", metadata=said("Length of a piece in cm."))
    width_cm = Number(0.01, 1_000, unit="cm", metadata=said("Width of a piece in cm."))
    water_fraction = Number(
        0.05, 0.99, metadata=said("Share of water; usual for the class where not stated.")
    )


class BathLiquidSchema(StrictSchema):
    """What the bath is made of."""

    water_g = Number(0.001, HEAVIEST_G, unit="g", required=True, metadata=said("Water in g.", example=3000))
    salt_g = Number(0, HEAVIEST_G, unit="g", required=True, metadata=said("Salt (NaCl) in g.", example=150))
    nitrite_g = Number(0, HEAVIEST_G, unit="g", metadata=said("Sodium nitrite in g, pure."))
    sugar_g = Number(0, HEAVIEST_G, unit="g", metadata=said("Sugar in g."))


class BathSchema(StrictSchema):
    """A food, a bath, and how long."""

    food = Part(BathFoodSchema, required=True, metadata=said("The food that sits in the bath."))
    bath = Part(BathLiquidSchema, required=True, metadata=said("What the bath is made of."))
    temperature_c = Number(-5, 100, unit="°C", required=True, metadata=said("Temperature in °C.", example=3))
    duration_h = Number(0, 87_600, unit="h", required=True, metadata=said("How long, in hours.", example=72))
    product_class = Choice(
        PRODUCT_CLASSES, metadata=said("Class of cured product, which fixes the nitrite limit.")
    )

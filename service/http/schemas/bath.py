"""One bath without a recipe."""

from __future__ import annotations

from ...curing.agents import curing_salts
from ...curing.curing_limits import schemes
from ...gate.fields import Choice, Number, Part, Whole, said
from ...gate.recipe_schema import FACES, FOOD_CLASSES, HEAVIEST_G, PRODUCT_CLASSES, SHAPES, share
from ...gate.strict_schema import StrictSchema

HEAVIEST_FOOD_G = 1_000_000
LIGHTEST_G = 0.1
"""Those of every scheme; which scheme has which is checked with the scheme in hand."""


class BathFoodSchema(StrictSchema):
    """The food that sits in the bath."""

    food_class = Choice(
        FOOD_CLASSES, required=True, data_key="class", metadata=said("Kind of food.", example="pork")
    )
    weight_g = Number(
        LIGHTEST_G, HEAVIEST_FOOD_G, unit="g", required=True, metadata=said("Raw weight in g.", example=1400)
    )
    shape = Choice(SHAPES, metadata=said("Form of a piece; sheet where not stated."))
    thickness_cm = Number(
        0.01,
        300,
        unit="cm",
        required=True,
        metadata=said("Thickness of a sheet or brick, diameter of a round piece, in cm.", example=6),
    )
    length_cm = Number(
        0.01, 1_000, unit="cm", metadata=said("Length, which a brick or short cylinder needs.")
    )
    width_cm = Number(0.01, 1_000, unit="cm", metadata=said("Width, which a brick needs."))
    water_fraction = Number(
        0.05, 0.99, metadata=said("Share of water; usual for the class where not stated.")
    )
    untaken_fraction = share("Share of the weight that takes up nothing: bone, fat cap, skin.", most=0.95)
    open_faces = Whole(1, 2, metadata=said(FACES))
    weight_after_g = Number(
        LIGHTEST_G, HEAVIEST_FOOD_G, unit="g", metadata=said("Measured: weight afterwards in g.")
    )


class BathLiquidSchema(StrictSchema):
    """What the bath is made of."""

    water_g = Number(
        0,
        HEAVIEST_G,
        unit="g",
        required=True,
        metadata=said("Water in g; 0 for a dry cure.", example=3000),
    )
    salt_g = Number(0, HEAVIEST_G, unit="g", required=True, metadata=said("Salt (NaCl) in g.", example=150))
    potassium_chloride_g = Number(
        0, HEAVIEST_G, unit="g", metadata=said("Potassium chloride in g, as of a salt substitute.")
    )
    nitrite_g = Number(0, HEAVIEST_G, unit="g", metadata=said("Pure sodium nitrite in g."))
    nitrate_g = Number(0, HEAVIEST_G, unit="g", metadata=said("Pure sodium nitrate in g."))
    sugar_g = Number(0, HEAVIEST_G, unit="g", metadata=said("Sugar in g."))
    curing_salt = Choice(tuple(curing_salts()), metadata=said("Kind of curing salt."))
    curing_salt_g = Number(
        0, HEAVIEST_G, unit="g", metadata=said("Curing salt in g, beside salt_g; its kind is then needed.")
    )


class BathSchema(StrictSchema):
    """A food, a bath, and how long."""

    food = Part(BathFoodSchema, required=True, metadata=said("The food that sits in the bath."))
    bath = Part(BathLiquidSchema, required=True, metadata=said("What the bath is made of."))
    temperature_c = Number(-5, 100, unit="°C", required=True, metadata=said("Temperature in °C.", example=3))
    duration_h = Number(0, 87_600, unit="h", required=True, metadata=said("How long, in hours.", example=72))
    product_class = Choice(
        PRODUCT_CLASSES, metadata=said("Class of cured product, which fixes the nitrite limit.")
    )
    scheme = Choice(schemes(), metadata=said("Whose nitrite limits to hold it to; us where not stated."))
    pick_up_percent = Number(
        -50,
        100,
        unit="%",
        metadata=said("Measured: weight gained, percent of raw weight; below 0 for a loss."),
    )
    ready_share = Number(
        0.01,
        0.99,
        metadata=said("Share of equilibrium at the centre that counts as ready; 0.8 if not stated."),
    )

"""The recipe in a request: types and ranges. Rules across its parts are `recipe.request`'s."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from marshmallow import ValidationError, validates_schema

from ..core.step_kinds import step_kinds
from ..core.tables import rows
from ..curing.curing_limits import product_classes, schemes
from ..diffusion.geometry import BODIES
from ..method.forms import is_written
from .amount_fields import NutrientAmount, StatedAmounts, Weight
from .fields import Choice, Flag, Name, Number, Part, Several, Text, TextOr, Whole, said
from .strict_schema import StrictSchema
from .written_schema import read_first, written_fields

MOST_INGREDIENTS = 500
MOST_COMPONENTS = 50
MOST_STEPS = 100
MOST_LINE_CHARACTERS = 500
MOST_TITLE_CHARACTERS = 300
HEAVIEST_G = 10_000_000
MOST_SERVINGS = 100_000

SHAPES = tuple(BODIES)
FOOD_CLASSES = tuple(row["food_class"] for row in rows("bath_foods"))
PRODUCT_CLASSES = tuple(dict.fromkeys(name for scheme in schemes() for name in product_classes(scheme)))
KIND_WORDS = "What is done. " + " ".join(
    f"{kind.name}: {kind.what} Example: {kind.example}." for kind in step_kinds().values()
)


def servings(**options: Any) -> Number:
    return Number(
        0.001,
        MOST_SERVINGS,
        metadata=said("How many servings the whole recipe makes.", example=8),
        **options,
    )


def portion_g() -> Number:
    words = (
        "In place of `servings`: what a portion weighs as served. All that is told of a serving is then of "
        "such a portion, and `servings` of the answer says how many there are."
    )
    return Number(0.1, HEAVIEST_G, unit="g", metadata=said(words))


def line(**options: Any) -> Text:
    return Text(
        most=MOST_LINE_CHARACTERS,
        wanted="an ingredient line",
        metadata=said("An ingredient line as it is written in the recipe.", example="1/4 cup kosher salt"),
        **options,
    )


def share(description: str, *, most: float = 1) -> Number:
    return Number(0, most, metadata=said(description))


PACKET = (
    "What its packet says of {}: amounts by INFOODS tagname (as answers have them, with ENERC_KJ, SALT, "
    "CHOAVL, "
    "ADDED_SUGARS) or by the printed name (calories, sodium, total_carbohydrate; energy_kj, salt, "
    "carbohydrate), each "
    "a number in its own unit or with a unit. It takes the place of the dataset's."
)


class PacketServingSchema(StrictSchema):
    """What a packet says of a serving of a food."""

    weight_g = Weight(
        0.001,
        HEAVIEST_G,
        required=True,
        metadata=said("Weight of that serving: in g, or with a unit of mass.", example=15),
    )
    nutrients = StatedAmounts(
        required=True, metadata=said(PACKET.format("that serving"), example={"calories": 10, "sodium": 870})
    )


class IngredientSchema(StrictSchema):
    """An ingredient where the caller knows better than its line: `line`, `food` or `recipe` is needed."""

    line = line()
    food = Text(
        most=40,
        wanted="a food code",
        metadata=said("Code of the food, which overrules the mapping.", example="02047"),
    )
    grams = Number(0, HEAVIEST_G, unit="g", metadata=said("Weight in g, which overrules the line's amount."))
    eaten_fraction = share("Share of this ingredient that is eaten, 0 to 1.")
    share = share("Share of the line's amount that goes here, where a line is split over components.")
    per_100g = StatedAmounts(metadata=said(PACKET.format("100 g"), example={"NA": 620, "SUGAR": 4}))
    per_serving = Part(PacketServingSchema, metadata=said("What its packet says of one serving of it."))
    recipe = Text(
        most=200,
        wanted="the key of a saved recipe",
        metadata=said(
            "Key of a saved recipe that goes in, with one of `grams`, `servings` and `fraction`.",
            example="quay-stock",
        ),
    )
    servings = Number(0, MOST_SERVINGS, metadata=said("With `recipe`: so many of its servings go in."))
    fraction = Number(
        0,
        1000,
        metadata=said("With `recipe`: so much of what it serves goes in, 1 for all.", example=0.5),
    )

    @validates_schema
    def portioned_once(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        amounts = [name for name in ("grams", "servings", "fraction") if name in data]
        if "recipe" not in data:
            if lost := [name for name in amounts if name != "grams"]:
                raise ValidationError(
                    {name: [f"Only a saved recipe has {name}; add `recipe`, or give grams."] for name in lost}
                )
            return
        if len(amounts) != 1:
            found = " and ".join(amounts) or "none of them"
            raise ValidationError(
                f"Found {found}, wanted one of grams, servings and fraction of the recipe; keep one."
            )
        for name in ("food", "share", "per_100g", "per_serving"):
            if name in data:
                raise ValidationError(
                    {name: ["A saved recipe as an ingredient has none of this; take it out."]}
                )

    @validates_schema
    def said_once(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        if "per_100g" in data and "per_serving" in data:
            raise ValidationError(
                "Found what 100 g hold and what a serving holds, wanted one of them; keep one."
            )

    @validates_schema
    def named(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        if not {"line", "food", "recipe"} & set(data):
            raise ValidationError(
                "Found neither line nor food nor recipe, wanted one; say what the ingredient is."
            )


FACES = (
    "How many broad faces of a sheet or brick take up salt: 1 where skin, rind or a plate of fat shuts one. "
    "Not stated: 2, or 1 where the line says that the skin of fish or the rind of pork is on."
)


def ingredients(**options: Any) -> Several:
    return Several(
        TextOr(line(), Part(IngredientSchema)),
        most=MOST_INGREDIENTS,
        metadata=said("Ingredient lines, or objects where the caller knows better."),
        **options,
    )


class ComponentSchema(StrictSchema):
    """A named group of ingredients: the meat, the brine, the pot."""

    id = Name(required=True, metadata=said("Name that steps use.", example="brine"))
    label = Text(most=MOST_TITLE_CHARACTERS, metadata=said("Name for people."))
    ingredients = ingredients(required=True)
    eaten_fraction = share(
        "Share of what is left in it at the end that is eaten. Not stated: all of a food, none of a bath."
    )


class StepSchema(StrictSchema):
    """Something done to components, in order. A measured value replaces the model's."""

    kind = Choice(tuple(step_kinds()), required=True, metadata=said(KIND_WORDS))
    food = TextOr(
        Name(wanted="a component id"),
        Several(Name(wanted="a component id"), least=1, most=MOST_COMPONENTS),
        required=True,
        metadata=said("Id of the component it is done to, or a list of ids."),
    )
    bath = Name(wanted="a component id", metadata=said("Id of the component that is the liquid or coating."))
    duration_h = Number(0, 87_600, unit="h", metadata=said("How long, in hours."))
    temperature_c = Number(-30, 400, unit="°C", metadata=said("Temperature of the surroundings in °C."))
    core_temperature_c = Number(
        -30,
        250,
        unit="°C",
        metadata=said("Measured: temperature at the centre at the end of the step, in °C."),
    )
    thickness_cm = Number(
        0.01, 300, unit="cm", metadata=said("Least thickness, or diameter, of a piece in cm.")
    )
    length_cm = Number(0.01, 1_000, unit="cm", metadata=said("Length of a piece in cm."))
    width_cm = Number(0.01, 1_000, unit="cm", metadata=said("Width of a piece in cm."))
    shape = Choice(SHAPES, metadata=said("Form of a piece; sheet where not stated."))
    open_faces = Whole(1, 2, metadata=said(FACES))
    food_class = Choice(FOOD_CLASSES, metadata=said("Kind of food; found from its mapping where not stated."))
    product_class = Choice(
        PRODUCT_CLASSES, metadata=said("Class of cured product, which fixes the nitrite limit.")
    )
    scheme = Choice(schemes(), metadata=said("Whose nitrite limits to hold a cure to; us where not stated."))
    water_changes = Whole(
        0,
        50,
        metadata=said("How often the soaking water is changed; each fills the vessel as high as the first."),
    )
    untaken_fraction = share("Share of the weight that takes up nothing: bone, fat cap, skin.", most=0.99)
    rinsed = Flag(metadata=said("Whether the food is rinsed afterwards."))
    weight_before_g = Number(
        0.001, HEAVIEST_G, unit="g", metadata=said("Measured: weight before the step in g.")
    )
    weight_after_g = Number(
        0.001, HEAVIEST_G, unit="g", metadata=said("Measured: weight after the step in g.")
    )
    absorption_factor = share("Measured or stated: share of the bath's solute in the food at the end.")
    yield_fraction = Number(0.001, 10, metadata=said("Measured: weight after the step over weight before."))
    discarded_g = Number(0, HEAVIEST_G, unit="g", metadata=said("Measured: weight thrown away in g."))
    pick_up_percent = Number(
        -50, 100, unit="%", metadata=said("Measured: weight gained, percent of raw weight.")
    )
    pump_percent = Number(
        0, 100, unit="%", metadata=said("Pickle that is pumped in, percent of the weight before (inject).")
    )
    into = Name(
        wanted="a component id",
        metadata=said("Id of the component that takes what leaves: a share, juice, fat or drippings."),
    )
    share = share("Share of a component that goes into another, or of its fat that is skimmed off.")
    sodium_after_mg_per_100g = NutrientAmount(
        "NA", 0, 40_000, metadata=said("Measured in a laboratory: mg of sodium in 100 g after the step.")
    )


class ReadSettingsSchema(StrictSchema):
    """How lines are read."""

    cup = Choice(("us", "metric"), metadata=said("Which cup: 236.6 ml (us, the default) or 250 ml (metric)."))
    no_quantity = Choice(
        ("assume", "leave_out"),
        metadata=said("What becomes of a line without an amount: assume a usual one, or leave it out."),
    )


class HouseholdSchema(StrictSchema):
    """A household measure of a food and what it weighs."""

    label = Text(most=80, required=True, metadata=said("The measure, amount first.", example="1 cup"))
    grams = Weight(
        0.001, HEAVIEST_G, required=True, metadata=said("What it weighs: in g, or with a unit of mass.")
    )


class CustomFoodSchema(StrictSchema):
    """A food of the caller's own, for this request."""

    code = Name(
        required=True, metadata=said("Code, which ingredients name in `food`.", example="house-stock")
    )
    name = Text(most=MOST_TITLE_CHARACTERS, required=True, metadata=said("Name for people."))
    per_100g = StatedAmounts(
        required=True,
        metadata=said(
            "Amounts in 100 g by INFOODS tagname or by the name that packets print, each a number in its "
            "own unit or "
            "with a unit; what is left out is not known, added sugars among it."
        ),
    )
    household = Several(Part(HouseholdSchema), most=20, metadata=said("Household measures."))


class OwnLimitSchema(StrictSchema):
    """A sodium limit of the caller's own."""

    id = Name(required=True, metadata=said("Name that the answer uses.", example="renal_menu"))
    label = Text(most=MOST_TITLE_CHARACTERS, metadata=said("Name for people."))
    sodium_mg = NutrientAmount(
        "NA", 0.001, 1_000_000, required=True, metadata=said("The limit in mg of sodium.")
    )
    per = Choice(("serving", "day"), required=True, metadata=said("What it is a limit for."))


class OwnFigureOfRowSchema(StrictSchema):
    """A figure of the caller's own in place of a row of the tables."""

    row = Text(
        most=200,
        required=True,
        metadata=said("The row, as assumptions of an answer name it.", example="drip:meat/roast"),
    )
    of = Name(metadata=said("The end of the assumption's id, where a row holds several.", example="yield"))
    likely = Number(
        -1e6, 1e6, required=True, metadata=said("Likely, in the unit in which the answer lists it.")
    )
    low = Number(-1e6, 1e6, metadata=said("Low end; the likely figure, taken as known, where not given."))
    high = Number(-1e6, 1e6, metadata=said("High end."))


class WishesSchema(StrictSchema):
    """What a caller may wish of any recipe, whatever its form."""

    settings = Part(ReadSettingsSchema, metadata=said("How lines are read."))
    custom_foods = Several(Part(CustomFoodSchema), most=100, metadata=said("Foods of the caller's own."))
    figures = Several(
        Part(OwnFigureOfRowSchema),
        most=50,
        metadata=said("The caller's own figures in place of rows of the tables; see /method."),
    )
    own_limits = Several(Part(OwnLimitSchema), most=20, metadata=said("Sodium limits of the caller's own."))
    audience = Name(metadata=said("Whose reference values to use; see /v1/reference-values."))
    dish_class = Name(metadata=said("Class of dish, for the reference amount of a label."))


class WrittenSchema(WishesSchema):
    """A recipe as a CMS holds it: ingredient lines and the paragraphs of its method."""

    class Meta(StrictSchema.Meta):
        include = written_fields()


_written = WrittenSchema()


class RecipeSchema(WishesSchema):
    """A recipe: ingredient lines, or components with what is done to them in order."""

    forms = (WrittenSchema,)

    title = Text(most=MOST_TITLE_CHARACTERS, blank=True, metadata=said("Title of the recipe."))
    servings = servings()
    portion_g = portion_g()
    ingredients = ingredients()
    components = Several(
        Part(ComponentSchema), most=MOST_COMPONENTS, metadata=said("Named groups of ingredients.")
    )
    steps = Several(Part(StepSchema), most=MOST_STEPS, metadata=said("What is done, in order."))

    def load(self, data: Any, **kwargs: Any) -> Any:
        """As schemas do; a recipe in prose or JSON-LD is read first, and kept beside as `written`."""
        recipe, written = read_first(data, _written)
        loaded = super().load(recipe, **kwargs)
        return loaded if written is None else {**loaded, "written": written}

    @validates_schema
    def of_servings_or_portions(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        if "servings" not in data and "portion_g" not in data:
            raise ValidationError(
                "This field is missing; add how many servings the recipe makes, as a number from 0.001 to "
                f"{MOST_SERVINGS:,}, or what a portion weighs as `portion_g`.",
                "servings",
            )
        if "servings" in data and "portion_g" in data:
            raise ValidationError("A recipe states `servings` or `portion_g`; keep one.", "portion_g")

    @validates_schema
    def of_a_size(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        count = len(data.get("ingredients", ())) + sum(
            len(component["ingredients"]) for component in data.get("components", ())
        )
        if count > MOST_INGREDIENTS:
            raise ValidationError(
                f"Found {count} ingredients in the recipe, wanted at most {MOST_INGREDIENTS}; split it."
            )


class ReadableSchema(StrictSchema):
    """A recipe as it is written: lines and paragraphs, or a schema.org/Recipe as JSON-LD."""

    forms = (WrittenSchema,)

    def load(self, data: Any, **kwargs: Any) -> Any:
        """As `RecipeSchema` does, and only what is written."""
        if not is_written(data):
            _written.load(data)
        loaded: Any = RecipeSchema().load(data)
        return loaded


class LinesSchema(StrictSchema):
    """Lines to read and map, without a recipe."""

    lines = Several(
        line(),
        least=1,
        most=MOST_INGREDIENTS,
        required=True,
        metadata=said("Ingredient lines.", example=["2 tbsp olive oil", "1 tsp fine salt"]),
    )
    settings = Part(ReadSettingsSchema, metadata=said("How lines are read."))

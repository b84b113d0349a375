"""What answers look like. They describe; tests hold real answers to them. New fields may be added in time."""

from __future__ import annotations

from marshmallow import fields, validate

from ...gate.fields import said
from .answer_shapes import AnswerSchema, count, flag, number, one, several, text, texts
from .food_answers import FoodNameSchema, IngredientAnswerSchema, ListedIngredientSchema
from .label_answers import AllergensSchema, LabelSchema
from .nutrient_answers import EnergySchema, ExplanationSchema, Per100gSchema, PerServingSchema
from .sodium_answers import FatesSchema, MovementSchema, SodiumSchema


class DatasetSchema(AnswerSchema):
    """The food data the answer rests on."""

    name = text("Name of the dataset.")
    release = text("Its release.")
    sha256 = text("SHA-256 of its bundled form.")


class SourceSchema(DatasetSchema):
    """What an answer rests on: the bundled dataset, or one food of another source."""

    food = text("Code of the food that comes from there; absent for the bundled dataset.", required=False)
    retrieved = text("Day on which it was fetched, as an ISO date.", required=False)


class TablesSchema(AnswerSchema):
    """The hand-kept tables of figures and names that the answer rests on besides."""

    sha256 = text("One SHA-256 over all of them.")


class AssumptionSchema(AnswerSchema):
    """A figure that the answer rests on."""

    id = text("Name, unique in the answer.")
    value = number("Most likely value.")
    low = number("Low end.")
    high = number("High end.")
    unit = text("Its unit.")
    source = text("Where it comes from.")
    step = count("Index of the step it belongs to.", allow_none=True)
    row = text("The row of the tables that it is, as /method has it; null where of none.", allow_none=True)
    checked_against = texts(
        "Ids, as /method has them, of publications that the figure was not made of and whose "
        "measurements were held against it; empty: nobody holds it."
    )


class NoticeSchema(AnswerSchema):
    """Something the reader should know."""

    code = text("Stable name of this kind of notice.")
    severity = text(
        "info: good to know; check: a person should look; stop: do not cook or publish this as it stands.",
        validate=validate.OneOf(("info", "check", "stop")),
    )
    message = text("What it is, in words.")
    pointer = text("JSON Pointer into the request.")


class MirrorSchema(AnswerSchema):
    """An eaten component beside the finished food of the dataset that is most like it by its make."""

    component = text("Id of the component.")
    food = one(FoodNameSchema, "The finished food.")
    ratio = fields.Dict(
        keys=fields.String(),
        values=fields.Float(allow_none=True),
        required=True,
        metadata=said("Of 100 g of the component to 100 g of that food, by tag; null where it says nothing."),
    )


class MilligramsSchema(AnswerSchema):
    """An amount of sodium and its range, in mg."""

    mg = number("Most likely value.")
    low = number("Low end.")
    high = number("High end.")


class UsedRecipeSchema(AnswerSchema):
    """A saved recipe that is an ingredient: its sodium from its own list to what is brought; amounts are of
    the portion."""

    pointer = text("The ingredient, in the recipe that uses it.")
    key = text("Its key.")
    title = text("Its title.")
    version = count("The version that was used.")
    save_id = text("Name of that version.")
    fraction = number("How much of all that it serves goes in, 1 for all.")
    servings = number("The same in its servings.")
    complete = flag("Whether all its sodium was counted.")
    sodium = one(MilligramsSchema, "What it brings.")
    ledger = several(MovementSchema, "Every movement in it, in order.")
    fates = one(FatesSchema, "Where its sodium ended; eaten is what it brings.")
    recipes = fields.List(
        fields.Nested(lambda: UsedRecipeSchema()),  # noqa: PLW0108  # it is not made yet
        required=True,
        metadata=said("The recipes that it is made of in turn."),
    )


class CalculationSchema(AnswerSchema):
    """The answer to a recipe."""

    id = text("The same for the same request, service, dataset and tables.")
    title = text("Title as sent.")
    servings = number("Servings as sent; in portions by weight, how many of them the dish makes.")
    portion_g = number("What a portion weighs as served in g, where the recipe states that.", required=False)
    dataset = one(DatasetSchema, "The food data it rests on.")
    sources = several(SourceSchema, "Every source and release that its foods rest on, the dataset first.")
    tables = one(TablesSchema, "The tables of figures it rests on.")
    per_serving = one(PerServingSchema, "What a serving holds.")
    per_100g = one(Per100gSchema, "What 100 g hold.")
    energy = one(EnergySchema, "Energy of a serving, and the factors it is by.")
    sodium = one(SodiumSchema, "Sodium, followed from the list to the plate.")
    explanation = one(ExplanationSchema, "How figures came about, if `explain` asks.", required=False)
    label = one(LabelSchema, "As a label prints it, where `label` asks for it.", required=False)
    allergens = one(AllergensSchema, "A prompt for an allergen check.")
    ingredients = several(ListedIngredientSchema, "Ingredients as read, in the order sent.")
    scaled = fields.Nested(
        "ScaledSchema", metadata=said("For another number of servings, where the query asks for it.")
    )
    recipes = several(UsedRecipeSchema, "Saved recipes that it is made of, if any.", required=False)
    mirror = several(MirrorSchema, "Every eaten component beside the finished food most like it.")
    assumptions = several(AssumptionSchema, "Figures it rests on.")
    notices = several(NoticeSchema, "What the reader should know.")
    reading = fields.Dict(metadata=said("How it was read, where it came in prose; see POST /v1/readings."))


class PartsOfCalculationSchema(CalculationSchema):
    """The parts of an answer that `include` asks for."""


class LinesAnswerSchema(AnswerSchema):
    """Lines as read and mapped, in the order sent."""

    ingredients = several(IngredientAnswerSchema, "One for each line.")
    notices = several(NoticeSchema, "What the reader should know, by line.")

"""What answers look like. They describe; tests hold real answers to them. New fields may be added in time."""

from __future__ import annotations

from marshmallow import fields, validate

from ...gate.fields import said
from ...recipe.completeness import WORDS
from .answer_shapes import AnswerSchema, RangeSchema, number, one, several, text
from .label_answers import AllergensSchema, LabelSchema


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
    step = fields.Integer(
        required=True, allow_none=True, metadata=said("Index of the step; null when the dish is served.")
    )
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
    sentences = fields.List(fields.String(), required=True, metadata=said("The same in plain sentences."))


class ExplanationSchema(AnswerSchema):
    """How figures came about."""

    method = text("How amounts are told to lines.")
    nutrients = fields.Dict(
        keys=fields.String(),
        values=fields.Nested(ChainSchema),
        required=True,
        metadata=said("The chain of each nutrient by INFOODS tagname."),
    )


class ReferenceSchema(AnswerSchema):
    """Sodium per serving against a reference value."""

    id = text("Id of the reference.")
    name = text("Its name, for people.", required=False)
    limit_mg = number("Its sodium in mg.")
    per = text("What it is for: a day or a serving.")
    kind = text("What sort of value it is: a limit, or enough.")
    percent = number("Sodium of a serving, percent of it.")
    source = text("Where it comes from.")
    mark = text("How well that is known.")
    note = text("What else there is to say of it.")


class MovementSchema(AnswerSchema):
    """Sodium of the whole recipe that went from one place to another."""

    source = fields.String(required=True, data_key="from", metadata=said("Where it was."))
    target = fields.String(required=True, data_key="to", metadata=said("Where it went."))
    step = fields.Integer(
        required=True, allow_none=True, metadata=said("Index of the step; null when the dish is served.")
    )
    mg = number("Most likely amount in mg.")
    low = number("Low end in mg.")
    high = number("High end in mg.")


class PlaceSchema(AnswerSchema):
    """Sodium of the whole recipe that ended in one place."""

    place = text("The place: eaten, poured_away, left_on_tray and so on.")
    mg = number("Most likely amount in mg.")
    low = number("Low end in mg.")
    high = number("High end in mg.")


class FatesSchema(AnswerSchema):
    """Where the sodium of the whole recipe ended."""

    eaten_mg = number("Eaten, in mg.")
    discarded_mg = number("Not eaten, in mg.")
    places = several(PlaceSchema, "The same by place.")


class OriginSchema(AnswerSchema):
    """Sodium of one component's own ingredients that ended in one place."""

    component = text("Id of the component whose ingredients brought it.")
    place = text("Where it ended.")
    mg = number("Likely, in mg for the whole recipe.")


class CarriedSchema(AnswerSchema):
    """An assumption that carries much of the range."""

    assumption = text("Its id.")
    share = number("Its share of the variance, 0 to 1.")
    measure = text("What to measure instead.")


class ConditionSchema(AnswerSchema):
    """One of the conditions of a claim, all of which have to hold."""

    basis = text("What the limit is for.")
    holds = text("How: below or at_most.")
    limit_mg = number("The limit in mg.")
    amount_mg = one(RangeSchema, "The amount on that basis; null where it cannot be told.", allow_none=True)


class ClaimSchema(AnswerSchema):
    """A label claim or limit on sodium, and whether it is met."""

    id = text("Id of the claim.")
    name = text("Its name.")
    scheme = text("Whose rule it is.")
    sort = text("claim (words that may be printed), disclosure or criterion.")
    limit_mg = number("Its limit in mg.")
    basis = text("What the limit is for.")
    amount_mg = one(RangeSchema, "The amount on that basis.")
    met = fields.Boolean(
        required=True,
        allow_none=True,
        metadata=said("Met at the most likely amount; null where not all sodium was counted."),
    )
    judgement = text("The same in words.", validate=validate.OneOf(("met", "not met", "cannot be assessed")))
    met_at_likely = fields.Boolean(
        required=True, allow_none=True, metadata=said("Met at the most likely amount; null as `met`.")
    )
    met_at_high = fields.Boolean(
        required=True, allow_none=True, metadata=said("Still met at the high end; null as `met`.")
    )
    misses_by_mg = number("How much the likely amount is over; null as `met`.", allow_none=True)
    misses_by_mg_at_high = number("How much the high end is over; null as `met`.", allow_none=True)
    conditions = several(ConditionSchema, "Every condition; `basis` is that of the one nearest to failing.")
    source = text("Where it comes from.")
    mark = text("How well that is known.")
    note = text("What else has to be seen to.")


class GapSchema(AnswerSchema):
    """Something whose sodium was not counted, in the whole recipe."""

    pointer = text("JSON Pointer to the line or component.")
    line = text("The line, or the component's id.")
    reason = text("Why it was not counted.", validate=validate.OneOf(tuple(WORDS)))
    why = text("The same in words.")
    kind = text("What it was taken for.")
    low_mg = number("The least sodium that it may hold, in mg.")
    likely_mg = number("The likely sodium, which the likely figure holds; 0 where none is likely.")
    high_mg = number("The most sodium that it may hold, in mg.")
    source = text("Where these come from.")


class EvidenceSchema(AnswerSchema):
    """Published measurements held against ranges of one kind; see /method."""

    kind = text("The kind of measurement.")
    label = text("The same in words.")
    inside = fields.Integer(required=True, metadata=said("How many lay inside their range."))
    of = fields.Integer(required=True, metadata=said("How many there are."))


class SodiumSchema(AnswerSchema):
    """Sodium, followed from the list to the plate."""

    per_serving_mg = one(
        RangeSchema, "Sodium of a serving in mg, with what is usual of what was not counted; see `complete`."
    )
    complete = fields.Boolean(
        required=True,
        metadata=said(
            "Whether every line that could carry sodium was read, mapped and weighed, and every liquid's "
            "fate is "
            "known. If not, no claim is judged."
        ),
    )
    counted_per_serving_mg = number("Sodium of a serving in mg from what was counted alone.")
    uncounted = several(GapSchema, "What was not counted; empty where the figure is complete.")
    as_listed_per_serving_mg = number(
        "The plain sum over the ingredient list, in mg a serving, for contrast."
    )
    references = several(ReferenceSchema, "Against reference values.")
    carried_by = several(CarriedSchema, "The assumptions that carry most of the range.")
    evidence = one(
        EvidenceSchema,
        "How often published measurements of the kind that carries the range lay inside theirs.",
        allow_none=True,
    )
    ledger = several(MovementSchema, "Every movement, in order, for the whole recipe.")
    fates = one(FatesSchema, "Where it ended, for the whole recipe.")
    origins = several(OriginSchema, "Whose ingredients it came from, by where it ended.")
    claims = several(ClaimSchema, "Label claims and whether they are met.")


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


class AssumptionSchema(AnswerSchema):
    """A figure that the answer rests on."""

    id = text("Name, unique in the answer.")
    value = number("Most likely value.")
    low = number("Low end.")
    high = number("High end.")
    unit = text("Its unit.")
    source = text("Where it comes from.")
    step = fields.Integer(required=True, allow_none=True, metadata=said("Index of the step it belongs to."))
    row = text("The row of the tables that it is, as /method has it; null where of none.", allow_none=True)
    checked_against = fields.List(
        fields.String(),
        required=True,
        metadata=said(
            "Ids, as /method has them, of publications that the figure was not made of and whose "
            "measurements were held against it; empty: nobody holds it."
        ),
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
    version = fields.Integer(required=True, metadata=said("The version that was used."))
    save_id = text("Name of that version.")
    fraction = number("How much of all that it serves goes in, 1 for all.")
    servings = number("The same in its servings.")
    complete = fields.Boolean(required=True, metadata=said("Whether all its sodium was counted."))
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
    servings = number("Servings as sent.")
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


class LinesAnswerSchema(AnswerSchema):
    """Lines as read and mapped, in the order sent."""

    ingredients = several(IngredientAnswerSchema, "One for each line.")
    notices = several(NoticeSchema, "What the reader should know, by line.")


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
    nitrite = one(NitriteSchema, "Ingoing nitrite against the limit; null without nitrite.", allow_none=True)
    assumptions = several(AssumptionSchema, "Figures it rests on.")
    notices = several(NoticeSchema, "What the reader should know.")

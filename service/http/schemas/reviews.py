"""Reviews: overrules and verdicts as they come in, and where a review stands."""

from __future__ import annotations

from typing import Any, get_args

from marshmallow import fields, validate

from ...gate.amount_fields import StatedAmounts
from ...gate.fields import Choice, Number, Part, QueryWhole, Several, StrictField, Text, said
from ...gate.keyed_lines import MOST_KEY_CHARACTERS
from ...gate.recipe_schema import HEAVIEST_G, OwnFigureOfRowSchema
from ...gate.strict_schema import StrictSchema
from ...review.overrides import FIELDS, FIGURE, Reach
from ...store.records import Status, Verdict
from .answer_shapes import AnswerSchema, RangeSchema, count, number, one, several, text
from .answers import SourceSchema
from .saves import (
    MOST_LISTED,
    MOST_NAME_CHARACTERS,
    MOST_REASON_CHARACTERS,
    ActorSchema,
    GapKeptSchema,
    complete_field,
    key_field,
)
from .sodium_answers import GapSchema


class SignOffTellingSchema(AnswerSchema):
    """A reviewer's verdict."""

    verdict = text("The verdict.", validate=validate.OneOf(get_args(Verdict)))
    name = text("Who, by the name they gave.")
    by = one(ActorSchema, "Who that was.")
    note = text("What they wrote to it.")
    uncounted = several(GapKeptSchema, "What was not counted, as the signer confirmed.")
    created_at = text("When, in UTC.")
    version_sha256 = text("Fingerprint of the version as it was then.", allow_none=True)
    entry = count("Number in the journal; see `saltledger verify`.", allow_none=True)


class ReviewSchema(AnswerSchema):
    """Where the review of the current version stands."""

    key = key_field()
    version = count("Number of the current version.")
    save_id = text("Its name.")
    status = text("Where it stands.", validate=validate.OneOf(get_args(Status)))
    sodium_per_serving_mg = number("Its sodium of a serving in mg.")
    complete = complete_field()
    uncounted = several(GapSchema, "What of it was not counted, to be confirmed by a signature.")
    page = text("Path of its review page.")
    sha256 = text("Fingerprint of the version.", allow_none=True)
    sources = several(SourceSchema, "Every source and release that the signed figure rests on.")
    sign_offs = several(SignOffTellingSchema, "Verdicts on this version, the newest first.")


class SignOffSchema(StrictSchema):
    """A verdict on the version that If-Match names."""

    verdict = Choice(get_args(Verdict), required=True, metadata=said("signed or sent_back."))
    name = Text(
        most=MOST_NAME_CHARACTERS, required=True, metadata=said("Who signs.", example="Ines Ware, dietitian")
    )
    note = Text(
        most=MOST_REASON_CHARACTERS, blank=True, load_default="", metadata=said("Anything to be said to it.")
    )
    confirmed_uncounted = Several(
        Text(most=200, blank=True, wanted="a JSON Pointer into the recipe"),
        most=MOST_LISTED * 3,
        load_default=(),
        metadata=said(
            "To sign an incomplete figure: the `pointer` of each thing in `sodium.uncounted`, which the "
            "signature then keeps.",
            example=["/ingredients/3"],
        ),
    )


class FoodOrNumber(StrictField):
    """A food code, a number or what a packet says, by `field`."""

    wanted = "a food code, a number or an object of amounts"
    remedy = "write a code in quotation marks, a number without, amounts in braces"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> str | float:
        if isinstance(value, dict):
            return _PACKET.deserialize(value, attr, data)  # type: ignore[no-any-return]
        if isinstance(value, str):
            return _CODE.deserialize(value, attr, data)  # type: ignore[no-any-return]
        return _AMOUNT.deserialize(value, attr, data)  # type: ignore[no-any-return]

    def json_schema(self) -> dict[str, Any]:
        return {"type": ["string", "number", "object"]}


_CODE = Text(most=40, wanted="a food code")
_AMOUNT = Number(0, HEAVIEST_G)
_PACKET = StatedAmounts()


class OverruleSchema(StrictSchema):
    """One value that a reviewer knows better."""

    pointer = Text(
        most=200,
        wanted="a JSON Pointer into the recipe",
        metadata=said("An ingredient, a component or a step.", example="/components/1/ingredients/0"),
    )
    field = Choice(
        tuple(sorted({name for names in FIELDS.values() for name in names} - {FIGURE})),
        metadata=said("Which value of it.", example="grams"),
    )
    value = FoodOrNumber(
        metadata=said(
            "The reviewer's value: a food code, a number, or for `per_100g` amounts by tag or printed name.",
            example=73,
        ),
    )
    figure = Part(
        OwnFigureOfRowSchema,
        metadata=said(
            "In place of pointer, field and value: the reviewer's figure for a row of the tables, wherever "
            "this recipe stands on it."
        ),
    )
    reason = Text(most=MOST_REASON_CHARACTERS, required=True, wanted="a reason", metadata=said("Why."))
    reach = Choice(
        get_args(Reach),
        load_default="recipe",
        metadata=said(
            "Where it holds: in this recipe; in every recipe with this line; or, for `food` and `per_100g`, "
            "in every recipe with the food that the line is mapped to. Recipes that it moves get a version."
        ),
    )


class OverrulesSchema(StrictSchema):
    """Overrules of the version that If-Match names."""

    reviewer = Text(most=MOST_NAME_CHARACTERS, required=True, metadata=said("Who overrules."))
    overrules = Several(
        Part(OverruleSchema), least=1, most=100, required=True, metadata=said("What is overruled.")
    )


class MovesQuerySchema(StrictSchema):
    """Which of the other recipes to work out."""

    limit = QueryWhole(
        0, 100, load_default=20, metadata=said("Of how many other recipes to tell what moves, at most.")
    )
    after = Text(most=MOST_KEY_CHARACTERS, wanted="a key", metadata=said("`next` of the page before."))


class MoveSchema(AnswerSchema):
    """What an overrule would do to another recipe that it reaches."""

    key = key_field()
    title = text("Its title.", allow_none=True)
    version = count("Number of its current version.")
    save_id = text("Name of that version.")
    status = text("Where its review stands.", validate=validate.OneOf(get_args(Status)))
    before_mg = number("Its sodium of a serving now, in mg.")
    after_mg = number("Its sodium of a serving with the overrule; null: it cannot be.", allow_none=True)
    moved_mg = number("The change.", allow_none=True)
    fault = text("Why it cannot be worked out with it.", allow_none=True)


class PreviewSchema(AnswerSchema):
    """What overrules would do; nothing was kept."""

    key = key_field()
    version = count("Number of the current version.")
    save_id = text("Its name.")
    before = one(RangeSchema, "Sodium of a serving now, in mg.")
    after = one(RangeSchema, "Sodium of a serving with the overrules, in mg.")
    moved_mg = number("The change of the likely figure.")
    complete = complete_field()
    reached = count("How many other recipes have the line, or the food.")
    moves = several(MoveSchema, "What moves there, the most sodium first.")
    next = text(
        "`after` of the next page, null where this is the last. A page ends early where it takes long.",
        allow_none=True,
    )


class OverruleKeptSchema(AnswerSchema):
    """An overrule as it is kept."""

    id = count("Its number, by which it is taken back.")
    kind = text("What it aims at.", validate=validate.OneOf(tuple(FIELDS)))
    field = text("Which value it replaces.")
    value = fields.Raw(required=True, metadata=said("The reviewer's value."))
    reach = text("Where it holds.", validate=validate.OneOf(get_args(Reach)))
    food_code = text("Code of the food that it holds for.", allow_none=True)
    reason = text("Why.")
    reviewer = text("Who, by the name they gave.")
    by = one(ActorSchema, "Who that was.")
    created_at = text("When, in UTC.")
    withdrawn_at = text("When it was taken back or replaced; null while it stands.", allow_none=True)


class OverrulesKeptSchema(AnswerSchema):
    """The overrules of a recipe, those that were taken back or replaced among them."""

    key = key_field()
    overrules = several(OverruleKeptSchema, "The newest first.")


class WithdrawalSchema(StrictSchema):
    """Who takes an overrule back."""

    reviewer = Text(most=MOST_NAME_CHARACTERS, required=True, metadata=said("Who takes it back."))

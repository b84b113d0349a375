"""A kitchen's own measurements, as they come in and as they are told."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from marshmallow import ValidationError, post_load, validates_schema

from ...gate.amount_fields import Measured, in_unit_of
from ...gate.fields import Choice, Flag, Name, Number, Part, Text, Whole, said
from ...gate.recipe_schema import RecipeSchema
from ...gate.strict_schema import StrictSchema
from .answer_shapes import AnswerSchema, RangeSchema, count, flag, number, one, several, text
from .answers import NoticeSchema

WHATS = ("sodium_mg_per_100g", "sodium_mg_per_serving", "weight_g")
MOST_NOTE = 1000


class MeasurementSchema(StrictSchema):
    """What was measured, on what, when, by whom, and how well."""

    recipe = Part(RecipeSchema, metadata=said("The recipe it was measured on; or name a save."))
    save_id = Name(most=80, metadata=said("The saved version it was measured on."))
    what = Choice(
        WHATS,
        required=True,
        metadata=said(
            "Sodium by a laboratory, in 100 g or in a serving; or a weight in g of a component.",
            example="sodium_mg_per_100g",
        ),
    )
    component = Name(metadata=said("The component that was measured; the dish as served where not given."))
    after_step = Whole(
        0, 1000, metadata=said("Index of the step after which a component was measured; else the last.")
    )
    amount = Measured(
        0.001,
        10_000_000,
        required=True,
        metadata=said("What came out: in the unit of `what`, or with a unit that fits it.", example=410),
    )
    uncertainty_percent = Number(
        0.1,
        50,
        unit="%",
        load_default=5.0,
        metadata=said("Half the range that holds it nine times in ten, as the laboratory states it."),
    )
    measured_by = Text(most=120, required=True, metadata=said("Who measured: a laboratory, a cook."))
    measured_on = Text(most=10, wanted="a date such as 2026-11-25", metadata=said("The day, ISO 8601."))
    note = Text(most=MOST_NOTE, blank=True, load_default="", metadata=said("Anything worth knowing of it."))
    confirm = Flag(
        load_default=False,
        metadata=said("Use it although it contradicts what is known: the dish and the value were checked."),
    )

    @validates_schema
    def one_dish(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        if ("recipe" in data) == ("save_id" in data):
            raise ValidationError("Wanted one of recipe and save_id: what was measured.")
        if "after_step" in data and "component" not in data:
            raise ValidationError("after_step needs the component that was measured.", "after_step")
        if data.get("what") == "weight_g" and "component" not in data:
            raise ValidationError("A weight needs the component that was weighed.", "component")
        if data.get("what") == "sodium_mg_per_serving" and "component" in data:
            raise ValidationError("A serving is of the whole dish; leave component out.", "component")

    @post_load
    def in_its_unit(self, data: dict[str, Any], **kwargs: Any) -> dict[str, Any]:
        """The amount in the unit of what was measured."""
        return {**data, "amount": in_unit_of(data["what"], data["amount"])}

    @validates_schema
    def a_day(self, data: Mapping[str, Any], **kwargs: Any) -> None:
        try:
            date.fromisoformat(data.get("measured_on", "2000-01-01"))
        except ValueError as fault:
            raise ValidationError("This is no date; write it such as 2026-11-25.", "measured_on") from fault


class OwnFigureSchema(AnswerSchema):
    """A figure that a measurement says something of, in standard deviations of the published one."""

    row = text("The row of the tables, or the dish's own figure.")
    low = number("Low end; the published one is -1.64.")
    likely = number("Likely; the published one is 0.")
    high = number("High end; the published one is 1.64.")


class KeptMeasurementSchema(AnswerSchema):
    """A measurement as it is kept."""

    id = count("Its number, to take it back by.")
    what = text("What was measured; its unit is in the name.")
    amount = number("What came out.")
    uncertainty_percent = number("Half of its 90 % range.")
    component = text("The component, null for the dish as served.", allow_none=True)
    after_step = count("The step after which it was measured.", allow_none=True)
    title = text("The recipe's title.")
    save_id = text("The saved version, null where the recipe was sent along.", allow_none=True)
    measured_by = text("Who measured.")
    measured_on = text("The day, null where not said.", allow_none=True)
    note = text("What was noted.")
    confirmed = flag("Whether it is used though it contradicts.")
    kept_by = text("The key it came with.")
    created_at = text("When it was kept.")


class LearnedSchema(KeptMeasurementSchema):
    """A measurement, and what later answers make of it."""

    before = one(RangeSchema, "What the service would have said.")
    after = one(RangeSchema, "What it says of the same dish from now on.")
    contradicts = flag("Whether it lies where only one in twenty would.")
    used = flag("Whether later answers stand on it.")
    figures = several(OwnFigureSchema, "The figures behind it, as this kitchen now has them.")
    notices = several(NoticeSchema, "What a person should look at.")


class MeasurementsAnswerSchema(AnswerSchema):
    """The measurements of the caller's kitchen that stand."""

    measurements = several(KeptMeasurementSchema, "The oldest first.")

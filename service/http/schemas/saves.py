"""Saved recipes, their versions and and differences."""

from __future__ import annotations

from typing import get_args

from marshmallow import fields, validate

from ...gate.fields import Choice, QueryWhole, Text, said
from ...gate.keyed_lines import MOST_KEY_CHARACTERS, KeyedLineSchema
from ...gate.recipe_schema import RecipeSchema
from ...gate.strict_schema import StrictSchema
from ...review.chain import ActorKind
from ...review.difference import Kind as CauseKind
from ...review.overrides import FIELDS, Reach
from ...store.records import Cause, Order, State, Status
from .answer_shapes import AnswerSchema, count, flag, number, one, several, text
from .answers import CalculationSchema
from .query_fields import QueryFlag, QueryMoment, QueryNumber

MOST_LISTED = 200
MOST_REASON_CHARACTERS = 1000
MOST_NAME_CHARACTERS = 120

NEEDS = {"review": "open", "correction": "sent_back"}
"""What a recipe can need, and the status that says so."""


class RenameSchema(StrictSchema):
    """What a recipe is to be called."""

    key = Text(most=MOST_KEY_CHARACTERS, required=True, wanted="a key", metadata=said("The new key."))


class BulkLineSchema(KeyedLineSchema):
    """One save of many."""

    etag = Text(
        most=200,
        wanted="the save_id of a version",
        metadata=said("The version that this line changes; it fails (412) where another stands."),
    )


class RecipesQuerySchema(StrictSchema):
    """Which recipes to list, and from where on."""

    needs = Choice(
        tuple(NEEDS),
        metadata=said("review: nobody has decided on the current version; correction: it was sent back."),
    )
    above_mg = QueryNumber(
        0, 1_000_000, unit="mg", metadata=said("Only recipes with more than so many mg of sodium a serving.")
    )
    status = Choice(get_args(Status), metadata=said("Only recipes whose current version stands so."))
    state = Choice(
        get_args(State),
        load_default="active",
        metadata=said("active; archived: put away; deleted: kept as history alone."),
    )
    search = Text(
        most=200, wanted="words", metadata=said("Beginnings of words that title, key or lines all have.")
    )
    complete = QueryFlag(metadata=said("true: all sodium was counted; false: it was not."))
    stops = QueryFlag(metadata=said("true: only with stop notices."))
    checks = QueryFlag(metadata=said("true: only with check notices."))
    doubtful = QueryFlag(metadata=said("true: only where sodium hangs on a doubtful reading."))
    changed_since_signing = QueryFlag(
        metadata=said("true: only where figures differ from those that were signed last.")
    )
    stale = QueryFlag(metadata=said("true: only where a recipe that is an ingredient has changed since."))
    changed_since = QueryMoment(
        metadata=said("Only what changed at or after this moment.", example="2026-11-25T00:00:00Z")
    )
    order = Choice(
        get_args(Order),
        load_default="key",
        metadata=said(
            "By key or title; or first what has most sodium a serving, needs a person most (urgency), has "
            "most sodium on doubtful readings, or changed last."
        ),
    )
    after = Text(most=1000, wanted="a cursor", metadata=said("`next` of the page before."))
    limit = QueryWhole(1, MOST_LISTED, load_default=50, metadata=said("How many at most."))


class DifferenceQuerySchema(StrictSchema):
    """Which two versions to compare."""

    older = QueryWhole(
        1, 999_999_999, data_key="from", metadata=said("Number of the older version; one before `to`.")
    )
    newer = QueryWhole(
        1, 999_999_999, data_key="to", metadata=said("Number of the newer version; the current one.")
    )


def complete_field() -> fields.Boolean:
    return flag(
        "Whether all sodium was counted; null where it was worked out before this was told. Not true: the "
        "figure is no whole one.",
        allow_none=True,
    )


def key_field() -> fields.String:
    return text("The key that it is saved under.")


class HeadingSchema(AnswerSchema):
    """A saved version without its documents."""

    key = key_field()
    title = text("Title.")
    version = count("Number of the version, from 1.")
    save_id = text("Name of this version; also its ETag.")
    calculation_id = text("Id of its calculation.")
    sodium_per_serving_mg = number("Sodium of a serving in mg, most likely value.")
    sodium_low_mg = number("The low end of the current version in mg.", allow_none=True)
    sodium_high_mg = number("Its high end in mg.", allow_none=True)
    complete = complete_field()
    status = text(
        "open: nobody has decided yet; signed; sent_back.", validate=validate.OneOf(get_args(Status))
    )
    state = text("active, archived or deleted.", validate=validate.OneOf(get_args(State)))
    stops = count("Stop notices of the current version.")
    checks = count("Check notices of the current version.")
    doubtful_mg_per_serving = number("Sodium a serving that hangs on doubtful readings, in mg.")
    changed_since_signing = flag("Whether figures differ from those that were signed last.")
    stale = flag("Whether a recipe that is an ingredient of it has changed since.")
    cause = text("What made this version.", validate=validate.OneOf(get_args(Cause)))
    saved_by = text("Who made it: the label of an API key, or a reviewer.")
    created_at = text("When, in UTC.")
    review = text("Path of its review page.")


class RecipesAnswerSchema(AnswerSchema):
    """A page of a list of recipes."""

    recipes = several(HeadingSchema, "Current versions.")
    next = text("Cursor of the next page, null where this is the last.", allow_none=True)


class VersionsQuerySchema(StrictSchema):
    """Which versions to list."""

    before = QueryWhole(1, 999_999_999, metadata=said("Only versions with a lower number: `next` of a page."))
    limit = QueryWhole(1, MOST_LISTED, load_default=MOST_LISTED, metadata=said("How many at most."))


class VersionsAnswerSchema(AnswerSchema):
    """A page of the history of a recipe."""

    next = count("`before` of the next page; null where there is none.", allow_none=True)

    versions = several(HeadingSchema, "The newest first.")


class ActorSchema(AnswerSchema):
    """Who did something, as the service itself knows it, whatever name was given."""

    kind = text(
        "An API key; a reviewer's login; local: somebody on the service's machine without either; the "
        "service itself; unknown: kept before this was recorded.",
        validate=validate.OneOf(get_args(ActorKind)),
    )
    id = text("The key's public id, or the login.")
    label = text("The key's label, or the reviewer's name.")


class OverruleTellingSchema(AnswerSchema):
    """A reviewer's overrule, and what became of it in this version."""

    id = count("Number of the overrule.")
    kind = text("What it aims at.", validate=validate.OneOf(tuple(FIELDS)))
    pointer = text(
        "JSON Pointer into the recipe; null where its target was changed since and it no longer applies.",
        allow_none=True,
    )
    field = text("Which value it replaces.")
    value = fields.Raw(required=True, metadata=said("The reviewer's value."))
    reason = text("Why.")
    reach = text(
        "Where it holds: in its recipe, or in every recipe with that line, or that food.",
        validate=validate.OneOf(get_args(Reach)),
        required=False,
    )
    food_code = text("Code of the food that it holds for.", allow_none=True, required=False)
    reviewer = text("Who, by the name they gave.")
    by = one(ActorSchema, "Who that was.", required=False)
    created_at = text("When, in UTC.")


class SavedRecipeSchema(AnswerSchema):
    """A saved version: what was sent, and what came of it."""

    key = key_field()
    version = count("Number of the version, from 1.")
    save_id = text("Name of this version; also its ETag.")
    cause = text("What made this version.", validate=validate.OneOf(get_args(Cause)))
    saved_by = text("Who made it.")
    created_at = text("When, in UTC.")
    review = text("Path of its review page.")
    recipe = one(RecipeSchema, "The recipe as it was sent.")
    overrules = several(OverruleTellingSchema, "What reviewers overruled; the calculation stands on it.")
    calculation = one(CalculationSchema, "The answer.")


class LineChangeSchema(AnswerSchema):
    """One line before and after."""

    change = text(
        "What became of it.", validate=validate.OneOf(("same", "changed", "moved", "added", "removed"))
    )
    component = text("Id of its component.")
    before = text("The line before.", allow_none=True)
    after = text("The line after.", allow_none=True)
    food_before = text("Its food before.", allow_none=True)
    food_after = text("Its food after.", allow_none=True)
    before_mg = number("Its sodium in a serving before, in mg.")
    after_mg = number("Its sodium in a serving after, in mg.")
    moved_mg = number("What its own change did to the sodium of a serving, in mg.")


class CauseSchema(AnswerSchema):
    """One cause of a change."""

    kind = text(
        "A line, a reviewer's override, a part's share eaten, a step, the servings, another setting of the "
        "recipe, recipes that it is made of, or data: tables, foods and measurements.",
        validate=validate.OneOf(get_args(CauseKind)),
    )
    what = text("What it is about.")
    moved_mg = number("What it did to the sodium of a serving, in mg.")
    before = text("What it was.", allow_none=True)
    after = text("What it is.", allow_none=True)
    by = text("Who overruled.", allow_none=True)


class DifferenceSchema(AnswerSchema):
    """What changed the sodium of a serving from one version to another; the parts add up to the whole."""

    key = key_field()
    older = count("Number of the older version.", data_key="from")
    newer = count("Number of the newer version.", data_key="to")
    before_mg = number("Sodium of a serving before, in mg.")
    after_mg = number("Sodium of a serving after, in mg.")
    moved_mg = number("The change: the lines' `moved_mg`, and the six parts below, added up.")
    lines = several(LineChangeSchema, "Line by line.")
    steps_moved_mg = number("What steps, baths and shares eaten did, in mg a serving.")
    servings_moved_mg = number("What another number of servings did, in mg a serving.")
    overrules_moved_mg = number("What overrules of reviewers did, in mg a serving.")
    data_moved_mg = number("What new tables, foods and measurements did, in mg a serving.")
    recipes_moved_mg = number("What other versions of recipes that it is made of did, in mg a serving.")
    other_moved_mg = number("What other settings of the recipe did, in mg a serving.")
    causes = several(CauseSchema, "Cause by cause, in the order in which they were made; they add up.")
    servings_before = number("Servings before.")
    servings_after = number("Servings after.")
    steps_changed = fields.List(
        fields.Integer(), required=True, metadata=said("Indices of steps that are not as they were.")
    )


class GapKeptSchema(AnswerSchema):
    """Something whose sodium was not counted, in the whole recipe, as a signature keeps it."""

    pointer = text("JSON Pointer to the line or component.")
    line = text("The line, or the component's id.")
    why = text("Why it was not counted.")
    low_mg = number("The least sodium that it may hold, in mg.")
    high_mg = number("The most sodium that it may hold, in mg.")

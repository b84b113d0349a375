"""PUT /v1/recipes/{key} and what was saved: the current version, the history, the difference, the list."""

from __future__ import annotations

import base64
import binascii
import json
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from flask import Response, url_for

from ... import store as kept
from ...calculator import costs_of, with_answers
from ...core.errors import Fault, InvalidRequest, NotFound
from ...gate.keyed_lines import check_key
from ...gate.problem_details import InvalidQuery
from ...gate.recipe_schema import RecipeSchema
from ...store.records import Heading, Place, Version, Wanted
from .. import auth, entity_tags, media_types
from ..api import Blueprint
from ..examples import SHORT
from ..kitchens import kitchen
from ..saved_documents import compare, difference_document, heading_document, version_document
from ..saved_forms import respond_with
from ..schemas.saves import (
    NEEDS,
    DifferenceQuerySchema,
    DifferenceSchema,
    HeadingSchema,
    RecipesAnswerSchema,
    RecipesQuerySchema,
    RenameSchema,
    SavedRecipeSchema,
    VersionsAnswerSchema,
    VersionsQuerySchema,
)
from ..stores import store, workbench
from ..watch import allow
from .calculations import CalculationQuerySchema, in_other_forms

if TYPE_CHECKING:
    from sqlalchemy import Connection


WANTED = tuple(field.name for field in fields(Wanted))
TYPES_IN = {
    "key": (),
    "title": (str,),
    "sodium": (float,),
    "urgency": (float, float),
    "doubtful": (float,),
    "changed": (str,),
}
"""What stands before the key in a cursor, by the order of the list."""

blueprint = Blueprint(
    "recipes", __name__, description="Recipes as a CMS saves them: versions, differences, lists."
)


@blueprint.route("/v1/recipes/<string:key>", methods=["PUT"])
@blueprint.takes(RecipeSchema, example=SHORT)
@blueprint.gives(SavedRecipeSchema, "It was saved; or it was saved before, and nothing changed.")
@blueprint.gives(SavedRecipeSchema, "It was saved for the first time.", status=201)
@blueprint.fails(406, 412, 428, 503)
@blueprint.said(parameters=[entity_tags.IF_MATCH, entity_tags.IF_NONE_MATCH])
def save_recipe(document: dict[str, Any], key: str) -> Response:
    """Save a recipe under a key of your own

    Saving what is saved already changes nothing and gives the same answer, so a save may be sent again. Every
    change makes a version, and none is lost. Send `If-Match` with the ETag you last saw, and a change that
    somebody else made meanwhile is not overwritten (412); send `If-None-Match: *` to make a recipe only where
    there is none. What reviewers overruled stays in force for lines that are still as they saw them; answers
    to questions of a reading hold as long as their sentence stands. When this answers, the save is on disk.
    """
    check_key(key)
    with store().database.read() as connection:
        current = kept.recipes.current(connection, key)
    document = with_answers(document, current.request if current else {})
    allow(costs_of(document))
    saved = workbench().save(key, document, auth.actor(), entity_tags.of_save(), kitchen())
    response = media_types.respond(version_document(saved.version))
    response.status_code = 201 if saved.is_new else 200
    if saved.is_new:
        response.headers["Location"] = url_for("recipes.show_recipe", key=key)
    response.set_etag(saved.version.etag)
    return response


@blueprint.route("/v1/recipes/<string:key>")
@blueprint.asks(CalculationQuerySchema)
@blueprint.gives(SavedRecipeSchema, "The current version.")
@in_other_forms(blueprint)
@blueprint.fails(404, 406, 503)
@blueprint.may_hold
def show_recipe(query: dict[str, Any], key: str) -> Response:
    """Show the current version of a recipe

    As it was saved; `label` and `explain` add to its `calculation` what they add to that of a recipe that is
    not saved. `Accept` chooses the form of the calculation: a spreadsheet, structured data or a panel.
    """
    with store().database.read() as connection:
        found = current_version(connection, key)
    return respond_with(found, query)


@blueprint.route("/v1/recipes")
@blueprint.asks(RecipesQuerySchema)
@blueprint.gives(RecipesAnswerSchema, "A page of the list.")
@blueprint.fails(406, 503)
def list_recipes(query: dict[str, Any]) -> Response:
    """List saved recipes

    Page by page: give `next` of one page as `after` of the next.
    """
    limit, wanted = query.pop("limit"), wanted_of(query)
    after = place_of(query["after"], wanted) if "after" in query else None
    with store().database.read() as connection:
        found = kept.listing.page(connection, wanted, after, limit + 1)
    page, more = found[:limit], len(found) > limit
    last = cursor(page[-1], wanted) if more else None
    response = media_types.respond({"recipes": [heading_document(each) for each in page], "next": last})
    response.headers["Cache-Control"] = "no-store"
    return response


@blueprint.route("/v1/recipes/<string:key>/versions")
@blueprint.asks(VersionsQuerySchema)
@blueprint.gives(VersionsAnswerSchema, "A page of the versions.")
@blueprint.fails(404, 406, 503)
def list_versions(query: dict[str, Any], key: str) -> Response:
    """List the versions of a recipe, the newest first

    Page by page: give `next` of one page as `before` of the next.
    """
    with store().database.read() as connection:
        found = kept.recipes.history(connection, key, query.get("before"), query["limit"] + 1)
        if not found and not kept.recipes.history(connection, key, limit=1):
            raise NotFound("recipe", key)
    page, more = found[: query["limit"]], len(found) > query["limit"]
    response = media_types.respond(
        {
            "versions": [heading_document(each) for each in page],
            "next": page[-1].number if more else None,
        }
    )
    response.headers["Cache-Control"] = "no-store"
    return response


@blueprint.route("/v1/recipes/<string:key>/versions/<int:number>")
@blueprint.asks(CalculationQuerySchema)
@blueprint.gives(SavedRecipeSchema, "The version.")
@in_other_forms(blueprint)
@blueprint.fails(404, 406, 503)
@blueprint.may_hold
def show_version(query: dict[str, Any], key: str, number: int) -> Response:
    """Show one version of a recipe

    In the same forms as the current one.
    """
    with store().database.read() as connection:
        found = _version(connection, key, number)
    return respond_with(found, query)


@blueprint.route("/v1/recipes/<string:key>/difference")
@blueprint.asks(DifferenceQuerySchema)
@blueprint.gives(DifferenceSchema, "The difference.")
@blueprint.fails(404, 406, 503)
def show_difference(query: dict[str, Any], key: str) -> Response:
    """Show which lines moved the sodium of a serving between two versions, and by how much

    Without `from` and `to`: the current version against the one before it. The parts add up to the whole.
    """
    with store().database.read() as connection:
        newer = (
            _version(connection, key, query["newer"])
            if "newer" in query
            else current_version(connection, key)
        )
        older = _version(connection, key, query.get("older", newer.number - 1))
    document = difference_document(compare(older, newer))
    return media_types.respond({"key": key, "from": older.number, "to": newer.number, **document})


@blueprint.route("/v1/recipes/<string:key>", methods=["DELETE"])
@blueprint.gives(HeadingSchema, "It was deleted; this was its current version.")
@blueprint.fails(404, 406, 412, 428, 503)
@blueprint.said(parameters=[entity_tags.IF_MATCH])
def delete_recipe(key: str) -> Response:
    """Delete a recipe

    Its versions are kept as history; it is gone from lists and from the review queue. Its key may be used
    again: the next save under it goes on with the next version. `restore` brings it back.
    """
    return _moved(kept.lifecycle.delete(store().database, key, auth.actor(), entity_tags.of_save()))


@blueprint.route("/v1/recipes/<string:key>/archive", methods=["POST"])
@blueprint.gives(HeadingSchema, "It is archived.")
@blueprint.fails(404, 406, 503)
def archive_recipe(key: str) -> Response:
    """Put a recipe away

    It can be read as before and is gone from lists and from the review queue, until it is restored or saved.
    """
    return _moved(kept.lifecycle.archive(store().database, key, auth.actor()))


@blueprint.route("/v1/recipes/<string:key>/restore", methods=["POST"])
@blueprint.gives(HeadingSchema, "It is active.")
@blueprint.fails(404, 406, 503)
def restore_recipe(key: str) -> Response:
    """Bring an archived or deleted recipe back as it was"""
    return _moved(kept.lifecycle.restore(store().database, key, auth.actor()))


@blueprint.route("/v1/recipes/<string:key>/recalculation", methods=["POST"])
@blueprint.gives(SavedRecipeSchema, "The version that stands now.")
@blueprint.fails(404, 406, 422, 503)
def recalculate_recipe(key: str) -> Response:
    """Work a recipe out again

    With today's foods and tables, and with the recipes that are ingredients of it as they are now. Where
    figures come out otherwise a version is added, which waits for review; where not, the recipe is no longer
    stale and what was signed stands.
    """
    found = workbench().recalculate(key, 0.0)
    if found.fault is not None:
        raise InvalidRequest([Fault("", found.fault)])
    with store().database.read() as connection:
        current = current_version(connection, key)
    response = media_types.respond(version_document(current))
    response.set_etag(current.etag)
    return response


@blueprint.route("/v1/recipes/<string:key>/rename", methods=["POST"])
@blueprint.takes(RenameSchema, example={"key": "quay-soup-2027"})
@blueprint.gives(HeadingSchema, "It has the new key.")
@blueprint.fails(404, 406, 503)
def rename_recipe(document: dict[str, Any], key: str) -> Response:
    """Give a recipe another key

    All its versions, overrules and sign-offs go with it. A key that is in use, or was by a deleted recipe, is
    refused.
    """
    check_key(document["key"], "/key")
    return _moved(kept.lifecycle.rename(store().database, key, document["key"], auth.actor()))


def _moved(version: Version) -> Response:
    """The recipe of a version as lists give it, whatever state it is in now."""
    with store().database.read() as connection:
        heading = kept.recipes.history(connection, version.key)[0]
    return media_types.respond(heading_document(heading))


def current_version(connection: Connection, key: str) -> Version:
    """The version of `key` that stands. Raises NotFound."""
    found = kept.recipes.current(connection, key)
    if found is None:
        raise NotFound("recipe", key)
    return found


def wanted_of(query: dict[str, Any]) -> Wanted:
    """What a list's query string asks for."""
    asked = {name: query[name] for name in WANTED if name in query}
    if "needs" in query:
        asked["status"] = NEEDS[query["needs"]]
    return Wanted(**asked)


def cursor(last: Heading, wanted: Wanted) -> str:
    """The text that stands for the end of a page of a list."""
    place = kept.listing.place_of(last, wanted.order)
    text = json.dumps([wanted.order, place.key, *place.values])
    return base64.urlsafe_b64encode(text.encode()).decode().rstrip("=")


def place_of(text: str, wanted: Wanted) -> Place:
    """Where a page of such a list ended, from its cursor. Raises InvalidQuery."""
    try:
        order, key, *values = json.loads(base64.urlsafe_b64decode(text + "=" * (-len(text) % 4)))
        if order != wanted.order or not isinstance(key, str):
            raise ValueError
        return Place(key, tuple(kind(value) for kind, value in zip(TYPES_IN[order], values, strict=True)))
    except (binascii.Error, ValueError, TypeError, KeyError) as fault:
        message = "This is no cursor of this list; give `next` of the page before as it is, or leave it out."
        raise InvalidQuery([Fault("/after", message)]) from fault


def _version(connection: Connection, key: str, number: int) -> Version:
    found = kept.recipes.version(connection, key, number) if 0 < number < 2**31 else None
    if found is None:
        current_version(connection, key)
        raise NotFound(f"version {number} of", key)
    return found

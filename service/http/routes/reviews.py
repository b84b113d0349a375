"""Reviewing by API: where a review stands, overrules and verdicts, for keys with the scope `review`."""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from flask import Response, request

from ... import store as kept
from ...core.checkpoint import watched
from ...core.documents import figure
from ...core.errors import Fault, InvalidRequest
from ...core.numbers import shown
from ...gate.problem_details import InvalidQuery
from ...nutrition.stated import stated_food
from ...recipe.request import figure_faults
from ...review.chain import Actor
from ...review.overrides import FIELDS, FIGURE, OF_A_FOOD, PACKET, Overrule, Target, foods_at, targets
from ...store.records import Signature, SignOff, Version
from .. import auth, carrying, entity_tags, known_foods, media_types
from ..api import Blueprint
from ..examples import OVERRULES, SIGN_OFF, WITHDRAWAL
from ..saved_documents import review_path, version_document
from ..schemas.reviews import (
    MovesQuerySchema,
    OverrulesKeptSchema,
    OverrulesSchema,
    PreviewSchema,
    ReviewSchema,
    SignOffSchema,
    WithdrawalSchema,
)
from ..schemas.saves import SavedRecipeSchema
from ..stores import store, workbench
from ..watch import watch_of_request
from .saves import current_version

if TYPE_CHECKING:
    from ...store.override_records import Kept
    from ...store.reaching import Move, Reached

SHARES = frozenset({"eaten_fraction", "absorption_factor"})
"""Fields whose value is a share, 0 to 1."""

PREVIEW_SECONDS = 3.0
"""After so long a page of what moves in other recipes ends where it is."""

_NUMBER = ("a number", int | float)
_VALUES = {
    "food": ("a food code in quotation marks", str),
    PACKET: ("an object of amounts in 100 g by tag", dict),
}
"""What a value must be by its field, in words and as a type; a number of others."""

blueprint = Blueprint("reviews", __name__, description="Reviews: overrules and sign-offs.")


@blueprint.route("/v1/recipes/<string:key>/review")
@blueprint.gives(ReviewSchema, "Where it stands.")
@blueprint.fails(404, 406, 503)
def show_review(key: str) -> Response:
    """Show where the review of the current version stands"""
    with store().database.read() as connection:
        current = current_version(connection, key)
        verdicts = kept.recipes.sign_offs_of(connection, current.save_id)
    response = media_types.respond(review_document(current, verdicts))
    response.headers["Cache-Control"] = "no-store"
    return response


@blueprint.route("/v1/recipes/<string:key>/overrules", methods=["POST"])
@blueprint.takes(OverrulesSchema, example=OVERRULES)
@blueprint.gives(SavedRecipeSchema, "The version they made.", status=201)
@blueprint.fails(404, 406, 412, 428, 503)
@blueprint.said(parameters=[entity_tags.REVIEWED])
def overrule_recipe(document: dict[str, Any], key: str) -> Response:
    """Overrule a mapping, a weight, a share eaten, a factor or a row of the tables

    `If-Match` names the version that was reviewed. The recipe is worked out again on the reviewer's figures,
    which stay in force in later saves for as long as their target is not changed. One whose `reach` is
    `line` or `food` holds in every recipe that has it, where its author says nothing else, now and later.
    """
    reviewed = _reviewed(key)
    made = _overrules_of(document, reviewed)
    reached = carrying.reached_by(made, key)
    written = workbench().overrule(reviewed.save_id, made)
    carrying.carry(reached, Signature(auth.actor(), document["reviewer"]))
    response = media_types.respond(version_document(written))
    response.status_code = 201
    response.set_etag(written.etag)
    return response


def _overrules_of(document: dict[str, Any], version: Version) -> list[Overrule]:
    """The overrules that a body makes of a version. Raises InvalidRequest."""
    aims, foods = targets(version.request), foods_at(version.request, version.answer)
    return [
        overrule_of(aims, {**each, "reviewer": document["reviewer"]}, auth.actor(), f"/overrules/{i}", foods)
        for i, each in enumerate(document["overrules"])
    ]


@blueprint.route("/v1/recipes/<string:key>/overrules/preview", methods=["POST"])
@blueprint.takes(OverrulesSchema, example=OVERRULES)
@blueprint.asks(MovesQuerySchema)
@blueprint.gives(PreviewSchema, "What would come of them.")
@blueprint.fails(404, 406, 412, 503)
@blueprint.said(parameters=[entity_tags.IF_MATCH])
def preview_overrules(document: dict[str, Any], query: dict[str, Any], key: str) -> Response:
    """See what overrules would move, here and in every recipe that they reach

    Nothing is kept. For one whose `reach` is `line` or `food` the other recipes are told page by page, with
    their sodium before and after; give `next` of one page as `after` of the next. With `If-Match` a newer
    version is refused (412).
    """
    with store().database.read() as connection:
        current = current_version(connection, key)
        standing = kept.override_records.in_force(connection, key)
    if "If-Match" in request.headers:
        entity_tags.check_reviewed(current)
    made = _overrules_of(document, current)
    answer, _ = workbench().preview(current, standing, made)
    reached = carrying.reached_by(made, key)
    moves, following = _moves(made, reached, query)
    before, after = (each["sodium"]["per_serving_mg"] for each in (current.answer, answer))
    response = media_types.respond(
        {
            "key": current.key,
            "version": current.number,
            "save_id": current.save_id,
            "before": before,
            "after": after,
            "moved_mg": figure(after["likely"] - before["likely"]),
            "complete": answer["sodium"].get("complete"),
            "reached": len(reached),
            "moves": [_move_document(each) for each in moves],
            "next": following,
        }
    )
    response.headers["Cache-Control"] = "no-store"
    return response


def _moves(
    made: Sequence[Overrule], reached: Sequence[Reached], query: dict[str, Any]
) -> tuple[list[Move], str | None]:
    """A page of what moves in other recipes, and the key of its last where there are more.

    Each recipe is watched as a request of its own is; the page ends where all of it has taken long.
    """
    keys = [key for key, _ in reached]
    if "after" in query and query["after"] not in keys:
        message = "This is no place in this list; give `next` of the page before as it is, or leave it out."
        raise InvalidQuery([Fault("/after", message)])
    start = keys.index(query["after"]) + 1 if "after" in query else 0
    latest = time.monotonic() + PREVIEW_SECONDS
    found: list[Move] = []
    end = start
    for each in reached[start : start + query["limit"]]:
        with watched(watch_of_request()):
            found += kept.reaching.moves(workbench(), made, [each])
        end += 1
        if time.monotonic() > latest:
            break
    return found, keys[end - 1] if start < end < len(reached) else None


def _move_document(move: Move) -> dict[str, Any]:
    return {
        "key": move.version.key,
        "title": move.version.request.get("title"),
        "version": move.version.number,
        "save_id": move.version.save_id,
        "status": move.version.status,
        "before_mg": move.before_mg,
        "after_mg": move.after_mg,
        "moved_mg": None if move.after_mg is None else figure(move.after_mg - move.before_mg),
        "fault": move.fault,
    }


@blueprint.route("/v1/recipes/<string:key>/overrules")
@blueprint.gives(OverrulesKeptSchema, "The overrules.")
@blueprint.fails(404, 406, 503)
def list_overrules(key: str) -> Response:
    """List what reviewers overruled in a recipe, and what of it was taken back

    Those that were made in another recipe and reach this one stand with that recipe.
    """
    with store().database.read() as connection:
        current = current_version(connection, key)
        found = kept.override_records.history(connection, key)
    told = [_kept_document(each) for each in found]
    response = media_types.respond({"key": current.key, "overrules": told})
    response.headers["Cache-Control"] = "no-store"
    return response


def _kept_document(each: Kept) -> dict[str, Any]:
    overrule = each.overrule
    return {
        "id": overrule.id,
        "kind": overrule.target.kind,
        "field": overrule.field,
        "value": overrule.value,
        "reach": overrule.reach,
        "food_code": overrule.food_code,
        "reason": overrule.reason,
        "reviewer": overrule.reviewer,
        "by": overrule.by.document,
        "created_at": overrule.created_at,
        "withdrawn_at": each.withdrawn_at,
    }


@blueprint.route("/v1/recipes/<string:key>/overrules/<int:number>/withdrawal", methods=["POST"])
@blueprint.takes(WithdrawalSchema, example=WITHDRAWAL)
@blueprint.gives(SavedRecipeSchema, "The version without it.", status=201)
@blueprint.fails(404, 406, 412, 428, 503)
@blueprint.said(parameters=[entity_tags.REVIEWED])
def withdraw_overrule(document: dict[str, Any], key: str, number: int) -> Response:
    """Take an overrule back

    The recipe is worked out again without it; so are the others that it reached.
    """
    reviewed = _reviewed(key)
    with store().database.read() as connection:
        standing = kept.override_records.in_force(connection, key)
    reached = carrying.reached_by([each for each in standing if each.id == number], key)
    signed = Signature(auth.actor(), document["reviewer"])
    written = workbench().withdraw(reviewed.save_id, number, signed)
    carrying.carry(reached, signed)
    response = media_types.respond(version_document(written))
    response.status_code = 201
    response.set_etag(written.etag)
    return response


@blueprint.route("/v1/recipes/<string:key>/sign-offs", methods=["POST"])
@blueprint.takes(SignOffSchema, example=SIGN_OFF)
@blueprint.gives(ReviewSchema, "Where the review stands now.", status=201)
@blueprint.fails(404, 406, 412, 428, 503)
@blueprint.said(parameters=[entity_tags.REVIEWED])
def decide_on_recipe(document: dict[str, Any], key: str) -> Response:
    """Sign a version off, or send it back

    `If-Match` names the version that was reviewed; a newer one is not signed by accident (412). Where its
    sodium is incomplete, a signature names what was not counted in `confirmed_uncounted`, and keeps it. A key
    needs the scope `sign` for this. Beside the name stands whose key it was, and the version's fingerprint.
    """
    reviewed = _reviewed(key)
    signed = Signature(auth.actor(), document["name"])
    asked = (document["note"], document["confirmed_uncounted"])
    workbench().decide(reviewed.save_id, document["verdict"], signed, *asked)
    with store().database.read() as connection:
        current = current_version(connection, key)
        verdicts = kept.recipes.sign_offs_of(connection, reviewed.save_id)
    response = media_types.respond(review_document(current, verdicts))
    response.status_code = 201
    return response


def review_document(version: Version, verdicts: list[SignOff]) -> dict[str, Any]:
    """Where a review stands, as the API gives it."""
    return {
        "key": version.key,
        "version": version.number,
        "save_id": version.save_id,
        "status": version.status,
        "sodium_per_serving_mg": version.sodium_mg,
        "complete": version.answer["sodium"].get("complete"),
        "uncounted": version.uncounted,
        "page": review_path(version.save_id),
        "sha256": version.sha256,
        "sources": version.answer.get("sources", [version.answer["dataset"]]),
        "sign_offs": [_sign_off_document(each) for each in verdicts],
    }


def _sign_off_document(each: SignOff) -> dict[str, Any]:
    return {
        "verdict": each.verdict,
        "name": each.name,
        "by": each.by.document,
        "note": each.note,
        "uncounted": each.uncounted or [],
        "created_at": each.created_at,
        "version_sha256": each.version_sha256,
        "entry": each.entry,
    }


def overrule_of(
    aims: Mapping[str, Target],
    asked: dict[str, Any],
    by: Actor,
    pointer: str,
    foods: Mapping[str, str | None],
) -> Overrule:
    """The overrule that `asked` (pointer, field, value, reason, reviewer, reach) makes; aims: what there is;
    foods: what each ingredient is mapped to.

    Raises InvalidRequest: there is nothing at the pointer, it has no such field, or this is no value for it.
    """
    if asked.get("figure"):
        return _of_a_row(asked, by, pointer)
    if missing := [name for name in ("pointer", "field", "value") if asked.get(name) is None]:
        message = "Give pointer, field and value, or a figure for a row of the tables."
        raise InvalidRequest([Fault(f"{pointer}/{name}", message) for name in missing])
    target = aims.get(asked["pointer"])
    field, value = asked["field"], asked["value"]
    if target is None:
        message = "There is no ingredient, component or step here in the recipe; point at one."
        raise InvalidRequest([Fault(f"{pointer}/pointer", message)])
    if field not in FIELDS[target.kind]:
        known = ", ".join(FIELDS[target.kind])
        raise InvalidRequest(
            [Fault(f"{pointer}/field", f"Of {target.kind}s these can be overruled: {known}.")]
        )
    wanted, kind = _VALUES.get(field, _NUMBER)
    if not isinstance(value, kind):
        raise InvalidRequest([Fault(f"{pointer}/value", f"Wanted {wanted} for {field}.")])
    if isinstance(value, dict):
        stated_food(value, pointer=f"{pointer}/value")
    if field in SHARES and not 0 <= float(value) <= 1:
        raise InvalidRequest(
            [Fault(f"{pointer}/value", f"Found {shown(value, 6)}, wanted a share from 0 to 1.")]
        )
    reach = asked.get("reach", "recipe")
    if reach != "recipe" and (
        fault := _unreachable(target, field, value, reach, foods.get(asked["pointer"]))
    ):
        raise InvalidRequest([Fault(f"{pointer}/reach", fault)])
    food_code = foods.get(asked["pointer"]) if reach == "food" else None
    said = (asked["reason"], asked["reviewer"])
    return Overrule(target, field, value, *said, by=by, reach=reach, food_code=food_code)


def _unreachable(target: Target, field: str, value: Any, reach: str, food: str | None) -> str:
    """Why an overrule cannot hold in other recipes, '' where it can."""
    if target.kind != "ingredient":
        return "What is said of a part or a step holds in this recipe alone."
    if field == "food" and value not in known_foods.foods():
        return "That food is this recipe's own; other recipes do not know it."
    if reach == "line":
        return "" if target.line_key else "This ingredient has no line that other recipes could have."
    if field not in OF_A_FOOD:
        return (
            "A weight or a share eaten holds for a line, not for a food; choose every recipe with this line."
        )
    return "" if food else "The line is mapped to no food yet; choose every recipe with this line."


def _of_a_row(asked: Mapping[str, Any], by: Actor, pointer: str) -> Overrule:
    """The overrule of a row of the tables. Raises InvalidRequest: it is no row, or no range."""
    figure = asked["figure"]
    if faults := list(figure_faults([figure], f"{pointer}/figure")):
        raise InvalidRequest(faults)
    target = Target.of_row(figure["row"], figure.get("of", ""))
    return Overrule(target, FIGURE, dict(figure), asked["reason"], asked["reviewer"], by=by)


def _reviewed(key: str) -> Version:
    """The version that If-Match names, which must be the current one."""
    with store().database.read() as connection:
        current = current_version(connection, key)
    entity_tags.check_reviewed(current)
    return current

"""Reviewing by API: where a review stands, overrules and verdicts, for keys with the scope `review`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import Response

from ... import store as kept
from ...core.errors import Fault, InvalidRequest
from ...nutrition.stated import stated_food
from ...recipe.request import figure_faults
from ...review.chain import Actor
from ...review.overrides import FIELDS, FIGURE, OF_A_FOOD, PACKET, Overrule, Target, foods_at, targets
from ...store.records import Signature, SignOff, Version
from .. import auth, carrying, entity_tags, known_foods, media_types
from ..api import Blueprint
from ..examples import OVERRULES, SIGN_OFF
from ..saved_documents import review_path, version_document
from ..schemas.reviews import OverrulesSchema, ReviewSchema, SignOffSchema
from ..schemas.saves import SavedRecipeSchema
from ..stores import store, workbench
from .saves import current_version

SHARES = frozenset({"eaten_fraction", "absorption_factor"})
"""Fields whose value is a share, 0 to 1."""

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
    aims = targets(reviewed.request)
    foods = foods_at(reviewed.request, reviewed.answer)
    made = [
        overrule_of(aims, {**each, "reviewer": document["reviewer"]}, auth.actor(), f"/overrules/{i}", foods)
        for i, each in enumerate(document["overrules"])
    ]
    reached = carrying.reached_by(made, key)
    written = workbench().overrule(reviewed.save_id, made)
    carrying.carry(reached, Signature(auth.actor(), document["reviewer"]))
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
        raise InvalidRequest([Fault(f"{pointer}/value", f"Found {value:g}, wanted a share from 0 to 1.")])
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

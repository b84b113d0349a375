"""A kitchen's own measurements: kept, listed, taken back, and what they say of the figures behind a dish."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from flask import Response

from ... import store as kept
from ...core.assumptions import local_rows
from ...core.documents import figure, notice_document, range_document
from ...core.errors import Fault, InvalidRequest, NotFound
from ...core.notices import Notice
from ...core.numbers import shown
from ...jobs.workbenches import measured_of
from ...recipe.request import RecipeRequest
from ...recipe.work_budget import of_recipe
from ...review.overrides import apply
from .. import auth, known_foods, media_types
from ..api import Blueprint
from ..examples import MEASUREMENT
from ..kitchens import OPEN, kitchen, local_figures
from ..schemas.measurements import LearnedSchema, MeasurementsAnswerSchema, MeasurementSchema
from ..stores import store, workbench
from ..watch import allow

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from ...evidence.local import Learned
    from ...store.own_measurements import Measurement
    from ...store.records import Version

USUAL_UNCERTAINTY = 5.0
"""Percent either side, where nobody states it: what laboratories state of sodium in food (our judgement)."""

MOST_AMOUNT = 1e7
ALWAYS = -1.0
"""A recalculation adds a version where sodium moved by more than this share: always."""

MOST = 500
"""Standing measurements of one kitchen; each is worked out again when the service starts."""

blueprint = Blueprint("measurements", __name__, description="What a kitchen has measured itself.")


@blueprint.route("/v1/measurements", methods=["POST"])
@blueprint.takes(MeasurementSchema, example=MEASUREMENT)
@blueprint.gives(LearnedSchema, "The measurement and what it says.", status=201)
@blueprint.fails(404, 406, 503)
def keep_measurement(document: dict[str, Any]) -> Response:
    """Keep what a kitchen measured: a laboratory's sodium, or a weight

    Later answers to keys of the same kitchen stand on it: the figures behind the dish move towards what was
    measured and their range narrows, until it is taken back. No other kitchen sees it. One that contradicts
    what is known is kept and told of, and used only where `confirm` says so.
    """
    with store().database.read() as connection:
        made = _made(connection, document)
    held, learned = keep(kitchen(), made)
    response = media_types.respond({**measurement_document(held), **learned_document(learned)})
    response.status_code = 201
    return response


@blueprint.route("/v1/measurements")
@blueprint.gives(MeasurementsAnswerSchema, "Those that stand.")
@blueprint.fails(406, 503)
def list_measurements() -> Response:
    """List what the caller's kitchen has measured"""
    with store().database.read() as connection:
        found = kept.own_measurements.standing(connection, kitchen())
    response = media_types.respond({"measurements": [measurement_document(each) for each in found]})
    response.headers["Cache-Control"] = "no-store"
    return response


@blueprint.route("/v1/measurements/<int:number>", methods=["DELETE"])
@blueprint.gives({"type": "string"}, "It is taken back.", "text/plain", status=204)
@blueprint.fails(404, 406, 503)
def take_back_measurement(number: int) -> Response:
    """Take a measurement back: later answers no longer stand on it"""
    with store().database.write() as connection:
        if not kept.own_measurements.take_back(connection, kitchen(), number):
            raise NotFound("measurement", str(number))
    return Response(status=204)


def keep(of: str, made: Measurement) -> tuple[Measurement, Learned]:
    """Keep a measurement of a kitchen, and say what it tells. Raises InvalidRequest: what cannot be so."""
    from ...evidence.local import Local, learn  # noqa: PLC0415  # loaded by the first who measures

    with store().database.read() as connection:
        _check_room(connection, of)
        local = local_figures(connection, of) or Local()
    try:
        _, learned = learn(local, measured_of(made), known_foods.foods(), confirmed=made.confirmed)
    except ValueError as refused:
        raise InvalidRequest([Fault("/what", f"{refused}.")]) from refused
    with store().database.write() as connection:
        return kept.own_measurements.keep(connection, of, made), learned


def keep_of_version(version: Version, form: Mapping[str, str]) -> Learned:
    """Keep what a form says was measured of a saved version, and work the recipe out again on it.

    Raises InvalidRequest: an amount that is none.
    """
    from ...store.own_measurements import Measurement  # noqa: PLC0415

    what, _, component = form.get("place", "").partition(":")
    with store().database.read() as connection:
        recipe = recipe_of_save(connection, version.save_id)
        of = kept.own_measurements.kitchen_of(connection, version.key) or OPEN
    made = Measurement(
        request=recipe,
        what="weight_g" if what == "weight" else "sodium_mg_per_100g",
        amount=_amount(form.get("amount", "")),
        uncertainty_percent=USUAL_UNCERTAINTY,
        measured_by=form.get("measured_by", "").strip()[:120] or "a reviewer",
        kept_by="review",
        save_id=version.save_id,
        component=component or None,
        confirmed=form.get("confirm") == "yes",
    )
    _check_place(recipe, made.component, None)
    _, learned = keep(of, made)
    if learned.used:
        with store().database.read() as connection:
            figures = local_figures(connection, of)
        with local_rows(figures):
            workbench().recalculate(version.key, ALWAYS)
    return learned


def _amount(text: str) -> float:
    try:
        amount = float(text.replace(",", ".").strip())
    except ValueError:
        amount = 0.0
    if not 0 < amount < MOST_AMOUNT:
        raise InvalidRequest([Fault("/amount", "Give what came out as a number above 0.")])
    return amount


def _check_room(connection: Connection, of: str) -> None:
    if kept.own_measurements.state(connection, of)[1] >= MOST:
        raise InvalidRequest(
            [Fault("", f"{MOST} measurements of this kitchen stand; take back those that are out of date.")]
        )


def _made(connection: Connection, document: dict[str, Any]) -> Measurement:
    from ...store.own_measurements import Measurement  # noqa: PLC0415

    save_id = document.get("save_id")
    recipe = recipe_of_save(connection, save_id) if save_id else document["recipe"]
    allow(of_recipe(recipe))
    _check_place(recipe, document.get("component"), document.get("after_step"))
    told = ("what", "amount", "uncertainty_percent", "measured_by", "component", "after_step", "note")
    return Measurement(
        request=recipe,
        save_id=save_id,
        measured_on=document.get("measured_on"),
        confirmed=document["confirm"],
        kept_by=auth.actor().label or auth.actor().kind,
        **{key: document[key] for key in told if key in document},
    )


def recipe_of_save(connection: Connection, save_id: str) -> dict[str, Any]:
    """The recipe of a saved version, with what reviewers overruled. Raises NotFound."""
    version = kept.recipes.by_save_id(connection, save_id)
    if version is None:
        raise NotFound("save", save_id)
    return apply(version.request, kept.override_records.standing(connection, version.key)).document


def _check_place(recipe: dict[str, Any], component: str | None, after_step: int | None) -> None:
    request = RecipeRequest.from_document(recipe)
    known = [each.id for each in request.components]
    if component is not None and component not in known:
        raise InvalidRequest(
            [Fault("/component", f"There is no component {component!r}; there are {', '.join(known)}.")]
        )
    if after_step is not None and after_step >= len(request.steps):
        raise InvalidRequest(
            [Fault("/after_step", f"The recipe has {len(request.steps)} steps, counted from 0.")]
        )


def measurement_document(each: Measurement) -> dict[str, Any]:
    return {
        "id": each.id,
        "what": each.what,
        "amount": figure(each.amount),
        "uncertainty_percent": figure(each.uncertainty_percent),
        "component": each.component,
        "after_step": each.after_step,
        "title": str(each.request.get("title", "")),
        "save_id": each.save_id,
        "measured_by": each.measured_by,
        "measured_on": each.measured_on,
        "note": each.note,
        "confirmed": each.confirmed,
        "kept_by": each.kept_by,
        "created_at": each.created_at,
    }


def learned_document(learned: Learned) -> dict[str, Any]:
    return {
        "before": range_document(learned.before),
        "after": range_document(learned.after),
        "contradicts": learned.contradicts,
        "used": learned.used,
        "figures": [{"row": key, **range_document(spread)} for key, spread in learned.figures],
        "notices": [notice_document(each) for each in contradiction(learned)],
    }


def contradiction(learned: Learned) -> list[Notice]:
    """What a person should look at where a measurement lies far off."""
    if not learned.contradicts:
        return []
    used = "It is used, as you confirmed it." if learned.used else "It is kept, and not used yet."
    return [
        Notice(
            "measurement-contradicts",
            "check",
            f"The measurement lies {shown(learned.off, decimals=1)} standard deviations off what the recipe "
            f"gives, {shown(learned.before.low, 4)} to {shown(learned.before.high, 4)}. {used} See whether "
            "the dish, its weights and the value are right; if they are, send it again with confirm.",
            "/amount",
        )
    ]

"""Whether the service lives, and whether it is ready to answer."""

from __future__ import annotations

from typing import Any

from flask import Response, current_app
from marshmallow import fields

from ...foods.dataset import bundled
from .. import media_types
from ..api import Blueprint
from ..schemas.answer_shapes import AnswerSchema, one
from ..schemas.answers import DatasetSchema
from ..stores import store

blueprint = Blueprint("health", __name__, description="Whether the service lives and is ready.")


class LiveSchema(AnswerSchema):
    """The process answers."""

    status = fields.String(required=True)


class ReadySchema(LiveSchema):
    """The dataset is loaded."""

    foods = fields.Integer(required=True, metadata={"description": "Foods in the dataset."})
    dataset = one(DatasetSchema, "The dataset that is loaded.")


@blueprint.route("/health/live")
@blueprint.gives(LiveSchema, "It lives.")
def live() -> Response:
    """Say that the process answers"""
    return _unkept({"status": "live"})


@blueprint.route("/health/ready")
@blueprint.gives(ReadySchema, "It is ready.")
@blueprint.fails(503)
def ready() -> Response:
    """Say that the dataset is loaded, and that what is saved can be kept

    Where the service is for calculating alone, SALTLEDGER_READY_FOR=calculations leaves the store out.
    """
    foods = bundled()
    if current_app.extensions["saltledger"].ready_for == "saves":
        store().check()
    _ = foods.scorer  # made when it is first asked for; to be ready is to keep no line waiting for it
    return _unkept({"status": "ready", "foods": len(foods), "dataset": dict(foods.identity)})


def _unkept(document: dict[str, Any]) -> Response:
    response = media_types.respond(document)
    response.headers["Cache-Control"] = "no-store"
    return response

"""POST /v1/baths: one bath without a recipe, as JSON or as a picture of the uptake over time."""

from __future__ import annotations

from typing import Any

from flask import Response

from ...recipe.single_bath import bath_answer, bath_uptake, uptake_curve
from ...render.uptake_drawing import uptake_svg
from ...transfer.bath_requests import BathRequest
from .. import media_types
from ..api import Blueprint
from ..examples import BATH
from ..schemas.bath import BathSchema
from ..schemas.bath_answers import BathAnswerSchema

blueprint = Blueprint("baths", __name__, description="One bath without a recipe.")

MEANING = "What the bath does, or a picture of the uptake over time."
RENDERERS: media_types.Renderers[BathRequest] = {
    "application/json": lambda asked: media_types.as_json(bath_answer(asked)),
    "image/svg+xml": lambda asked: uptake_svg(uptake_curve(bath_uptake(asked))),
}


@blueprint.route("/v1/baths", methods=["POST"])
@blueprint.takes(BathSchema, example=BATH)
@blueprint.gives(BathAnswerSchema, MEANING)
@blueprint.gives({"type": "string"}, MEANING, "image/svg+xml")
@blueprint.fails(406)
def ask_bath(document: dict[str, Any]) -> Response:
    """Work out one bath: uptake over time, time until ready, nitrite

    The food is unsalted, the bath finite and stirred; with no water it is a dry cure. With
    `Accept: image/svg+xml` the answer is a picture of the curve. The time until the centre has taken salt is
    an estimate and no guarantee that a cure is safe.
    """
    return media_types.respond_as(BathRequest.from_document(document), RENDERERS)

"""POST /v1/targets: what weight, time or servings brings a serving to a wanted sodium."""

from __future__ import annotations

from typing import Any

from flask import Response

from ...recipe.target_search import target_answer
from ...recipe.work_budget import of_target
from .. import known_foods, media_types
from ..api import Blueprint
from ..examples import TARGET
from ..schemas.planning import TargetAnswerSchema, TargetSchema
from ..watch import allow

blueprint = Blueprint("targets", __name__, description="From a wanted sodium back to the recipe.")


@blueprint.route("/v1/targets", methods=["POST"])
@blueprint.takes(TargetSchema, example=TARGET)
@blueprint.gives(TargetAnswerSchema, "The value that meets the target, or why there is none.")
@blueprint.fails(406)
def ask_target(document: dict[str, Any]) -> Response:
    """Find the weight, time or servings that meets a wanted sodium per serving

    The target is mg per serving, a percentage of a reference, or a claim; `value` meets it at the likely
    figure, `value_at_high` even at the high end. Where none does, a notice says what stands in the way.
    `levers` are single changes to the recipe as sent, ranked by what each saves.
    """
    allow(of_target(document))
    return media_types.respond(target_answer(document, known_foods.foods()))

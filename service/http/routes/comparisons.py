"""POST /v1/comparisons: versions of a recipe side by side."""

from __future__ import annotations

from typing import Any

from flask import Response

from ...recipe.side_by_side import comparison_answer
from ...recipe.work_budget import of_comparison
from .. import known_foods, media_types
from ..api import Blueprint
from ..examples import COMPARISON
from ..schemas.planning import ComparisonAnswerSchema, ComparisonSchema
from ..watch import allow

blueprint = Blueprint("comparisons", __name__, description="Versions of a recipe side by side.")


@blueprint.route("/v1/comparisons", methods=["POST"])
@blueprint.takes(ComparisonSchema, example=COMPARISON)
@blueprint.gives(ComparisonAnswerSchema, "The versions and their differences.")
@blueprint.fails(406)
def compare_versions(document: dict[str, Any]) -> Response:
    """Compare two to ten versions of a recipe, per serving"""
    allow(of_comparison(document))
    return media_types.respond(comparison_answer(document, known_foods.foods()))

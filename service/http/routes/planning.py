"""POST /v1/targets and /v1/comparisons: from a wanted sodium back to the recipe; versions side by side."""

from __future__ import annotations

from typing import Any

from flask import Response

from ...recipe.side_by_side import comparison_answer
from ...recipe.target_search import target_answer
from ...recipe.work_budget import of_comparison, of_target
from .. import known_foods, media_types
from ..api import Blueprint
from ..examples import COMPARISON, TARGET
from ..schemas.planning import ComparisonAnswerSchema, ComparisonSchema, TargetAnswerSchema, TargetSchema
from ..watch import allow

targets = Blueprint("targets", __name__, description="From a wanted sodium back to the recipe.")
comparisons = Blueprint("comparisons", __name__, description="Versions of a recipe side by side.")


@targets.route("/v1/targets", methods=["POST"])
@targets.takes(TargetSchema, example=TARGET)
@targets.gives(TargetAnswerSchema, "The value that meets the target, or why there is none.")
@targets.fails(406)
def ask_target(document: dict[str, Any]) -> Response:
    """Find the weight, time or servings that meets a wanted sodium per serving

    The target is mg per serving, a percentage of a reference, or a claim; `value` meets it at the likely
    figure, `value_at_high` even at the high end. Where none does, a notice says what stands in the way.
    `levers` are single changes to the recipe as sent, ranked by what each saves.
    """
    allow(of_target(document))
    return media_types.respond(target_answer(document, known_foods.foods()))


@comparisons.route("/v1/comparisons", methods=["POST"])
@comparisons.takes(ComparisonSchema, example=COMPARISON)
@comparisons.gives(ComparisonAnswerSchema, "The versions and their differences.")
@comparisons.fails(406)
def compare_versions(document: dict[str, Any]) -> Response:
    """Compare two to ten versions of a recipe, per serving"""
    allow(of_comparison(document))
    return media_types.respond(comparison_answer(document, known_foods.foods()))

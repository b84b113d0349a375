"""Versions of a recipe side by side, and the differences between them with their own ranges.

Assumptions that two versions share are drawn alike in both, so a difference is no wider than what differs.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..core.documents import figure, range_document
from ..core.errors import Faults
from ..core.spread import summarise, summarise_rows
from ..foods.dataset import FoodTable
from ..foods.nutrients import NUTRIENTS
from .answer import answer_document
from .calculation import cook
from .outcome import Outcome
from .pool_rows import NUTRIENT_ROWS, WEIGHT
from .request import RecipeRequest
from .sodium_total import is_complete


def comparison_answer(document: Mapping[str, Any], foods: FoodTable) -> dict[str, Any]:
    """The answer to `POST /v1/comparisons`: {versions: [{label, recipe}, ...]}, two to ten of them.

    Every version is compared with the first. Raises InvalidRequest with all faults of all versions.
    """
    outcomes = _cooked(document["versions"], foods)
    labels = [version["label"] for version in document["versions"]]
    return {
        "versions": [
            {"label": label, "calculation": answer_document(outcome)}
            for label, outcome in zip(labels, outcomes, strict=True)
        ],
        "differences": [
            {"from": labels[0], "to": label, **_difference(outcomes[0], outcome)}
            for label, outcome in zip(labels[1:], outcomes[1:], strict=True)
        ],
    }


def _cooked(versions: list[Mapping[str, Any]], foods: FoodTable) -> list[Outcome]:
    outcomes: list[Outcome] = []
    faults = Faults()
    for i, version in enumerate(versions):
        with faults.below(f"/versions/{i}/recipe"):
            outcomes.append(cook(RecipeRequest.from_document(version["recipe"]), foods))
    faults.refuse()
    return outcomes


def _difference(first: Outcome, other: Outcome) -> dict[str, Any]:
    """Other less first, per serving."""
    change = other.eaten / other.servings - first.eaten / first.servings
    known = (first.coverage() > 0) | (other.coverage() > 0)
    return {
        "complete": is_complete(first) and is_complete(other),
        "sodium_mg_per_serving": range_document(
            summarise(other.sodium_per_serving_mg - first.sodium_per_serving_mg)
        ),
        "weight_g_per_serving": figure(float(change[WEIGHT, 0])),
        "nutrients": {
            nutrient.tag: {
                "amount": figure(spread.likely),
                "low": figure(spread.low),
                "high": figure(spread.high),
                "unit": nutrient.unit,
            }
            for nutrient, spread, told in zip(
                NUTRIENTS, summarise_rows(change[NUTRIENT_ROWS]), known, strict=True
            )
            if told
        },
    }

"""Views of an outcome that rules ask for: claims, label amounts, and the prompt for an allergen check."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from ..foods.nutrients import NUTRIENTS
from ..nutrition.allergens import Named, allergen_prompt
from ..nutrition.claims import sodium_claims
from ..nutrition.labels import label_view
from .derived import added_share
from .outcome import Outcome
from .pool_rows import NUTRIENT_ROWS
from .sodium_total import is_complete


def claims(outcome: Outcome, open_mg: float = 0.0) -> list[dict[str, Any]]:
    """Sodium claims and limits, judged at the likely and the high figure where all sodium was counted.

    open_mg: what a serving may hold besides, by questions that nobody has answered. Raises InvalidRequest.
    """
    if outcome.serving_weight_g <= 0:
        return []
    return sodium_claims(
        *outcome.sodium_spreads,
        serving_weight_g=outcome.serving_weight_g,
        dish_class=outcome.request.dish_class,
        complete=is_complete(outcome),
        open_mg=open_mg,
    )


def label(outcome: Outcome, scheme: str) -> dict[str, Any]:
    """What a label under "fda", "eu" or "uk" would print. Raises InvalidRequest."""
    known = dict(zip((nutrient.tag for nutrient in NUTRIENTS), outcome.coverage().tolist(), strict=True))
    added = added_share(outcome)
    return label_view(
        scheme,
        _amounts(outcome.eaten[:, 0] / outcome.request.servings, known, added),
        _amounts(outcome.per_100g[:, 0], known, added),
        serving_weight_g=outcome.serving_weight_g,
        dish_class=outcome.request.dish_class,
        coverage=known,
        audience=outcome.request.audience,
        complete=is_complete(outcome),
    )


def _amounts(likely: np.ndarray, known: dict[str, float], added: float | None) -> dict[str, float]:
    """Likely amounts by tag of what is known, and added sugars where the ingredients tell them."""
    amounts = {
        nutrient.tag: amount
        for nutrient, amount in zip(NUTRIENTS, likely[NUTRIENT_ROWS].tolist(), strict=True)
        if known[nutrient.tag] > 0
    }
    if added is not None and "SUGAR" in amounts:
        amounts["ADDED_SUGARS"] = added * amounts["SUGAR"]
    return amounts


def allergens(outcome: Outcome) -> dict[str, Any]:
    """The allergens that lines and mapped foods point to: a prompt for a person's check."""
    return allergen_prompt(_named(outcome))


def _named(outcome: Outcome) -> Iterator[Named]:
    """Every ingredient, those of recipes that are ingredients one by one."""
    for each in outcome.listed:
        food, portion = each.ingredient.food, each.ingredient.portion
        if portion is not None:
            yield from _named(portion.outcome)
        else:
            yield Named(each.ingredient.line, *((food.name, food.group_code) if food else ()))

"""Views of an outcome that rules ask for: claims, label amounts, and the prompt for an allergen check."""

from __future__ import annotations

from typing import Any

import numpy as np

from ..foods.nutrients import INDEX, NUTRIENTS
from ..nutrition.added_sugars import Sweet, added_sugars
from ..nutrition.allergens import Named, allergen_prompt
from ..nutrition.claims import sodium_claims
from ..nutrition.labels import label_view
from ..units.spread import summarise
from .kitchen import SODIUM
from .outcome import Outcome

SUGAR = INDEX["SUGAR"]


def claims(outcome: Outcome) -> list[dict[str, Any]]:
    """Sodium claims and limits, judged at the likely and the high figure. Raises InvalidRequest."""
    if outcome.serving_weight_g <= 0:
        return []
    return sodium_claims(
        summarise(outcome.sodium_per_serving_mg),
        summarise(outcome.per_100g[SODIUM]),
        serving_weight_g=outcome.serving_weight_g,
        dish_class=outcome.request.dish_class,
    )


def label(outcome: Outcome, scheme: str) -> dict[str, Any]:
    """What a label under "fda", "eu" or "uk" would print. Raises InvalidRequest."""
    known = dict(zip((nutrient.tag for nutrient in NUTRIENTS), outcome.coverage().tolist(), strict=True))
    return label_view(
        scheme,
        _amounts(outcome, outcome.eaten[:, 0] / outcome.request.servings, known),
        _amounts(outcome, outcome.per_100g[:, 0], known),
        serving_weight_g=outcome.serving_weight_g,
        dish_class=outcome.request.dish_class,
        coverage=known,
        audience=outcome.request.audience,
    )


def _amounts(outcome: Outcome, likely: np.ndarray, known: dict[str, float]) -> dict[str, float]:
    """Likely amounts by tag of what is known, and added sugars where the ingredients tell them."""
    amounts = {
        nutrient.tag: float(likely[row]) for row, nutrient in enumerate(NUTRIENTS) if known[nutrient.tag] > 0
    }
    added = added_sugars(
        Sweet(food.name, food.group_code, _sugar_g(food.per_100g("SUGAR"), each.grams))
        for each in outcome.listed
        if (food := each.ingredient.food)
    )
    all_read = all(each.ingredient.food for each in outcome.listed)
    if added.is_known and all_read and "SUGAR" in amounts:
        amounts["ADDED_SUGARS"] = added.of_all * amounts["SUGAR"]
    return amounts


def _sugar_g(per_100g: float | None, grams: float) -> float | None:
    return None if per_100g is None else per_100g * grams / 100


def allergens(outcome: Outcome) -> dict[str, Any]:
    """The allergens that lines and mapped foods point to: a prompt for a person's check."""
    return allergen_prompt(
        Named(each.ingredient.line, food.name, food.group_code)
        if (food := each.ingredient.food)
        else Named(each.ingredient.line)
        for each in outcome.listed
    )

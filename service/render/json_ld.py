"""An answer as schema.org structured data (JSON-LD), for a page to embed: NutritionInformation and Recipe."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from ..core.numbers import shown
from .panel import is_complete

Document = Mapping[str, Any]

CONTEXT = "https://schema.org"
LEAST_COVERAGE = 0.9
"""A property is left out where less than this share of the weight is known: the standard cannot say so."""

_CONTENT = {
    "carbohydrateContent": ("CHOCDF", "g"),
    "cholesterolContent": ("CHOLE", "mg"),
    "fatContent": ("FAT", "g"),
    "fiberContent": ("FIBTG", "g"),
    "proteinContent": ("PROCNT", "g"),
    "saturatedFatContent": ("FASAT", "g"),
    "sodiumContent": ("NA", "mg"),
    "sugarContent": ("SUGAR", "g"),
}
"""Properties of schema.org/NutritionInformation by the nutrient that they are; amounts are per serving."""


def nutrition_information(answer: Document) -> dict[str, Any]:
    """schema.org NutritionInformation of a serving: likely amounts, three figures or whole units.

    Trans fat is not in the dataset and is left out, as is all that is known for too little of the weight, and
    sodium where not all of it was counted.
    """
    serving = answer["per_serving"]
    amounts = _well_known(serving["nutrients"])
    if not is_complete(answer):
        amounts.pop("NA", None)
    document: dict[str, Any] = {"@context": CONTEXT, "@type": "NutritionInformation"}
    document["servingSize"] = f"{shown(serving['weight_g'])} g"
    if "ENERC" in amounts:
        document["calories"] = f"{shown(amounts['ENERC'])} kcal"
    for name, (tag, unit) in _CONTENT.items():
        if tag in amounts:
            document[name] = f"{shown(amounts[tag])} {unit}"
    if "FAMS" in amounts and "FAPU" in amounts:
        document["unsaturatedFatContent"] = f"{shown(amounts['FAMS'] + amounts['FAPU'])} g"
    return document


def recipe(answer: Document) -> dict[str, Any]:
    """schema.org Recipe with its ingredient lines, yield and nutrition."""
    nutrition = {key: value for key, value in nutrition_information(answer).items() if key != "@context"}
    return {
        "@context": CONTEXT,
        "@type": "Recipe",
        "name": answer["title"],
        "recipeYield": _yield(answer),
        "recipeIngredient": [each["line"] for each in answer["ingredients"]],
        "nutrition": nutrition,
    }


def _yield(answer: Document) -> str:
    if "portion_g" in answer:
        return f"{shown(answer['servings'])} portions of {shown(answer['portion_g'])} g"
    return shown(answer["servings"])


def embedded(document: Document) -> str:
    """JSON text that can stand inside a script element: it can neither end it nor open a comment."""
    text = json.dumps(document, ensure_ascii=False)
    for character in "<>&\u2028\u2029":
        text = text.replace(character, f"\\u{ord(character):04x}")
    return text


def _well_known(nutrients: Mapping[str, Document]) -> dict[str, float]:
    return {
        tag: each["amount"] for tag, each in nutrients.items() if each.get("coverage", 1.0) >= LEAST_COVERAGE
    }

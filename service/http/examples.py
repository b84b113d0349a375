"""Examples for the API description, of the invented canteen at Tern Quay."""

from __future__ import annotations

from typing import Any, cast

from ..core.tables import document


def recipe_example() -> dict[str, Any]:
    """The whole demo recipe, as `saltledger demo` runs it."""
    return cast(dict[str, Any], document("demo_recipe"))


LINES = {"lines": ["1 1/2 cups all-purpose flour", "2 tbsp olive oil", "1 tsp fine salt"]}

BATH = {
    "food": {
        "class": "pork",
        "weight_g": 1400,
        "shape": "cylinder",
        "thickness_cm": 7,
        "water_fraction": 0.72,
    },
    "bath": {"water_g": 3000, "salt_g": 150, "sugar_g": 40},
    "temperature_c": 3,
    "duration_h": 48,
}

SHORT = {
    "title": "Tern Quay potato soup",
    "servings": 4,
    "ingredients": ["800 g potatoes", "1 litre water", "1 1/2 tsp fine salt", "100 ml cream"],
}

TARGET = {
    "recipe": SHORT,
    "target": {"sodium_mg_per_serving": 480},
    "vary": "/ingredients/2",
}

OVERRULES = {
    "reviewer": "Ines Ware, dietitian",
    "overrules": [
        {"pointer": "/ingredients/2", "field": "grams", "value": 8.5, "reason": "weighed in the kitchen"}
    ],
}

WITHDRAWAL = {"reviewer": "Ines Ware, dietitian"}

SIGN_OFF = {"verdict": "signed", "name": "Ines Ware, dietitian", "note": "Salt weighed on 25 November."}

MEASUREMENT = {
    "recipe": SHORT,
    "what": "sodium_mg_per_serving",
    "amount": 905,
    "uncertainty_percent": 8,
    "measured_by": "laboratory",
    "measured_on": "2026-11-20",
}

COMPARISON = {
    "versions": [
        {"label": "as it is", "recipe": SHORT},
        {
            "label": "half the salt",
            "recipe": {
                **SHORT,
                "ingredients": ["800 g potatoes", "1 litre water", "3/4 tsp fine salt", "100 ml cream"],
            },
        },
    ]
}

WRITTEN: dict[str, Any] = document("demo_written")
"""A recipe as a CMS holds it, in lines and prose."""

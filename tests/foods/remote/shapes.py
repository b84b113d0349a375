"""Answers of the second source, written by hand from its published description; the foods are invented."""

from __future__ import annotations

from typing import Any

URL = "https://foods.example/fdc/v1"

PASTE = {"255": (44.0, "g"), "203": (5.0, "g"), "204": (1.5, "g"), "205": (42.0, "g"), "207": (7.5, "g")}


def food(
    number: int = 2700001, name: str = "Dulse paste", sodium: float = 2500.0, **more: Any
) -> dict[str, Any]:
    """A food in full, as the `food` and `foods` endpoints give it."""
    figures = {**PASTE, "307": (sodium, "mg"), "208": (198.0, "kcal")}
    return {
        "fdcId": number,
        "description": name,
        "dataType": "Survey (FNDDS)",
        "publicationDate": "10/28/2022",
        "wweiaFoodCategory": {"wweiaFoodCategoryDescription": "Condiments"},
        "foodNutrients": [
            {
                "type": "FoodNutrient",
                "nutrient": {"number": number, "name": "…", "unitName": unit},
                "amount": amount,
            }
            for number, (amount, unit) in figures.items()
        ],
        "foodPortions": [
            {"amount": 1, "gramWeight": 18.0, "portionDescription": "1 tablespoon"},
            {"amount": 0, "gramWeight": 10.0, "portionDescription": "Quantity not specified"},
        ],
        **more,
    }


def search(*numbers: int) -> dict[str, Any]:
    """What the search endpoint gives: abridged foods, of which only the numbers are used."""
    return {
        "totalHits": len(numbers),
        "currentPage": 1,
        "totalPages": 1,
        "foods": [{"fdcId": number, "description": "…", "dataType": "Survey (FNDDS)"} for number in numbers],
    }

"""Meat that is cooked under fat has its time there once, and what was chopped boils with the pasta."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

LEGS = ["4 duck legs", "40 g coarse salt", "800 g duck fat", "1 tbsp red wine vinegar", "250 g lentils"]


def reading_of(lines: list[str], *method: str) -> Reading:
    document = {"title": "Supper", "servings": 4, "ingredients": lines, "method": list(method)}
    return read(written_of(document))


def steps(reading: Reading) -> list[tuple[Any, ...]]:
    return [(s["kind"], s.get("duration_h")) for s in reading.recipe.get("steps", ())]


@pytest.mark.parametrize(
    "cooked",
    [
        "Melt the fat in a casserole. Push the legs under and cook in the oven at 130°C for 3 hours",
        "Melt the fat. Cook the legs in the fat at 130°C for 3 hours",
        "Melt the fat, slide in the legs and cook very gently for 3 hours",
    ],
)
def test_legs_lie_in_fat_and_in_no_oven_beside(cooked: str) -> None:
    salted = "Rub the legs with the salt and refrigerate overnight. Rinse and dry."
    found = steps(reading_of(LEGS[:3], salted, f"{cooked}."))
    assert found == [("dry_cure", 12.0), ("rinse", None), ("fry", 3.0)]


def test_salted_meat_roasts_where_there_is_no_fat() -> None:
    salted = "Rub the legs with the salt and refrigerate overnight. Rinse and dry."
    found = steps(reading_of(LEGS[:2], salted, "Cook in the oven at 180°C for 2 hours."))
    assert found[-1] == ("roast", 2.0)


def test_the_rest_of_the_fat_takes_no_vinegar_along() -> None:
    reading = reading_of(
        LEGS,
        "Rub the legs with the salt and refrigerate overnight. Rinse and dry.",
        "Melt the fat, slide in the legs and cook very gently for 3 hours.",
        "Boil the lentils 25 minutes, drain, and dress with the vinegar and 2 tablespoons of the duck fat.",
        "The rest of the fat goes back in the jar.",
    )
    dish = next(c for c in reading.recipe["components"] if c["id"] == "dish")
    assert (
        "1 tbsp red wine vinegar" in dish["ingredients"]
        or {"line": "1 tbsp red wine vinegar"} in dish["ingredients"]
    )


@pytest.mark.parametrize("small", ["small", "into cubes"])
@pytest.mark.parametrize("joined", [", boil", " and boil"])
def test_what_was_chopped_boils_with_the_macaroni(small: str, joined: str) -> None:
    said = (
        f"Chop the potato and carrot {small}{joined} with the macaroni in salted water for 10 minutes. Drain."
    )
    (boil,) = reading_of(["300 g macaroni", "1 potato", "1 carrot"], said).recipe["steps"]
    assert set(boil["food"]) == {"macaroni", "potato", "carrot"}
